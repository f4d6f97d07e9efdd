"""Joining marks: diamonds on the line where two tiles meet, half of each on either side, numbered on both."""

from collections.abc import Iterable, Iterator
from typing import Final

import numpy as np
import shapely

from panelwright.drawing.drawing import Drawing, Lettering, Sign, Stroke
from panelwright.drawing.path import Path
from panelwright.drawing.pen import HAIRLINE, RULE
from panelwright.drawing.symbol import diamond
from panelwright.drawing.tile_grid import Join
from panelwright.drawing.typeface import typeface

LAYER: Final = "joining marks"
ACROSS: Final = 4.5
ALONG: Final = 7.0
NUMBER_SIZE: Final = 2.7
# The line of a join keeps this far from a text, mm.
OPEN: Final = 0.8
_STEP: Final = 4.0


def join_marks(joins: Iterable[Join], drawn: Drawing) -> Drawing:
    """Each join's line, open where a text stands, and its two diamonds.

    A diamond moves along the line to where it crosses nothing that is drawn; where there is no such place,
    to where it meets no text.
    """
    texts = [shapely.Polygon(sign.box) for sign in drawn if isinstance(sign, Lettering)]
    lines = [run for sign in drawn if isinstance(sign, Stroke) for run in sign.path.polylines if len(run) > 1]
    crowded = shapely.STRtree([*texts, *map(shapely.LineString, lines)])
    written = shapely.STRtree(texts)
    return Drawing(tuple(sign for join in joins for sign in _marks(join, crowded, written)))


def _marks(join: Join, crowded: shapely.STRtree, written: shapely.STRtree) -> Iterator[Sign]:
    yield from _open_line(join, written)
    for half in ((0.0, 0.5), (0.5, 1.0)):
        place = _place(join, half, crowded) or _place(join, half, written)
        if place is not None:
            yield from _diamond(join, place)


def _open_line(join: Join, written: shapely.STRtree) -> Iterator[Sign]:
    """The line of a join, left out where it would run through a text."""
    line: shapely.Geometry = shapely.LineString([join.start, join.end])
    for k in written.query(line, predicate="intersects"):
        line = shapely.difference(line, written.geometries[k].buffer(OPEN, cap_style="square", join_style="mitre"))
    for part in shapely.get_parts(line):
        yield Stroke(Path.polyline(shapely.get_coordinates(part)), HAIRLINE, LAYER)


def _place(join: Join, half: tuple[float, float], busy: shapely.STRtree) -> tuple[float, float] | None:
    """The free place nearest to the middle of one half of a join, or None where nothing is free."""
    start, end = np.array(join.start), np.array(join.end)
    length = float(np.linalg.norm(end - start))
    wished = (half[0] + half[1]) / 2 * length
    low, high = half[0] * length + ALONG + 1, half[1] * length - ALONG - 1
    tries = np.concatenate([[wished], np.arange(low, high, _STEP)])
    tries = tries[np.argsort(np.abs(tries - wished), kind="stable")]
    centres = start + np.outer(tries / length, end - start)
    reach = np.array([ACROSS, ALONG] if join.upright else [ALONG, ACROSS])
    boxes = shapely.box(*(centres - reach).T, *(centres + reach).T)
    taken = set(busy.query(boxes, predicate="intersects")[0].tolist())
    best = next((k for k in range(len(tries)) if k not in taken), None)
    return None if best is None else (float(centres[best, 0]), float(centres[best, 1]))


def _diamond(join: Join, centre: tuple[float, float]) -> Iterator[Sign]:
    x, y = centre
    across = (ACROSS, ALONG) if join.upright else (ALONG, ACROSS)
    yield Stroke(diamond(centre, *across), RULE, LAYER)
    number = str(join.number)
    drop = 0.33 * NUMBER_SIZE
    if join.upright:
        off = 0.4 + typeface(True).width(number, NUMBER_SIZE) / 2
        places = ((x - off, y - drop), (x + off, y - drop))
    else:
        places = ((x, y + 1.75 - drop), (x, y - 1.75 - drop))
    for at in places:
        yield Lettering(number, at, NUMBER_SIZE, LAYER, anchor="middle", bold=True)
