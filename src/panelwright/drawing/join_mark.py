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
# Wished places of the two diamonds, as shares of the join.
PLACES: Final = (0.25, 0.75)
_STEP: Final = 4.0


def join_marks(joins: Iterable[Join], drawn: Drawing) -> Drawing:
    """Each join's line and its two diamonds, moved along the line to where they cross nothing that is drawn."""
    joins = list(joins)
    busy = shapely.STRtree(_shapes(drawn))
    return Drawing(tuple(sign for join in joins for sign in _marks(join, busy)))


def _shapes(drawn: Drawing) -> list[shapely.Geometry]:
    lines = [run for sign in drawn if isinstance(sign, Stroke) for run in sign.path.polylines if len(run) > 1]
    boxes = [sign.box for sign in drawn if isinstance(sign, Lettering)]
    return [*map(shapely.LineString, lines), *map(shapely.Polygon, boxes)]


def _marks(join: Join, busy: shapely.STRtree) -> Iterator[Sign]:
    yield Stroke(Path.polyline([join.start, join.end]), HAIRLINE, LAYER)
    for low, high in ((0.0, 0.5), (0.5, 1.0)):
        yield from _diamond(join, _place(join, (low, high), busy))


def _place(join: Join, half: tuple[float, float], busy: shapely.STRtree) -> tuple[float, float]:
    """The free place nearest to the middle of one half of a join, or that middle where nothing is free."""
    start, end = np.array(join.start), np.array(join.end)
    length = float(np.linalg.norm(end - start))
    low, high = half[0] * length + ALONG + 1, half[1] * length - ALONG - 1
    wished = (half[0] + half[1]) / 2 * length
    tries = np.concatenate([[wished], np.arange(low, high, _STEP)])
    tries = tries[np.argsort(np.abs(tries - wished), kind="stable")]
    centres = start + np.outer(tries / length, end - start)
    reach = np.array([ACROSS, ALONG] if join.upright else [ALONG, ACROSS])
    boxes = shapely.box(*(centres - reach).T, *(centres + reach).T)
    taken = set(busy.query(boxes, predicate="intersects")[0].tolist())
    best = next((k for k in range(len(tries)) if k not in taken), 0)
    return float(centres[best, 0]), float(centres[best, 1])


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
