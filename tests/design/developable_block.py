"""Blocks whose unrolling is known in closed form: a cylinder is rectangles, a cone is sectors of a ring.

Four panels a half. `reach` is the distance from the cone's apex to the waist on paper; None is a cylinder. Each
panel's front line is drawn upright at x = 0 and the panel at its left.
"""

import math

import numpy as np

from panelwright.geometry.curve import Curve
from panelwright.pattern.edge import Edge, EdgeKind
from panelwright.pattern.level import LEVELS, Level, LevelSpan
from panelwright.pattern.line import Line
from panelwright.pattern.mark import Grain, InsideLine
from panelwright.pattern.material import Region
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam, Span

HEIGHTS = dict(zip(LEVELS, (200.0, 150.0, 85.0, 0.0, -50.0, -100.0, -200.0), strict=True))
LINES = ("centre-front", "front-princess", "side", "back-princess", "centre-back")
WIDTHS = {"CF": 90.0, "SF": 105.0, "SB": 100.0, "CB": 80.0}  # at the waist


def place(reach: float | None, way: float, height: float) -> np.ndarray:
    """A point `way` mm behind the panel's front line at the waist, and `height` above the waist along the cone."""
    if reach is None:
        return np.array([-way, height])
    angle, radius = way / reach, reach - height
    return np.array([-radius * math.sin(angle), reach - radius * math.cos(angle)])


def level_line(reach: float | None, width: float, height: float) -> Curve:
    """From the panel's front line to its back line: straight, or an arc about the apex of two cubics."""
    if reach is None:
        return Curve.straight(place(None, 0.0, height), place(None, width, height))
    points = [place(reach, 0.0, height)]
    step = width / reach / 2
    pull = 4 / 3 * math.tan(step / 4) * (reach - height)
    for k in range(2):
        a, b = k * step, (k + 1) * step
        start, end = place(reach, a * reach, height), place(reach, b * reach, height)
        points += [
            start + pull * np.array([-math.cos(a), math.sin(a)]),
            end - pull * np.array([-math.cos(b), math.sin(b)]),
            end,
        ]
    return Curve.from_points(points)


def panel(reach: float | None, id: str, width: float, front: str, back: str) -> Piece:
    low, high = HEIGHTS["hip"], HEIGHTS["upper-bust"]
    kinds: dict[str, EdgeKind] = {"centre-front": "fold", "centre-back": "opening"}
    up = Curve.straight(place(reach, 0.0, low), place(reach, 0.0, high))
    down = Curve.straight(place(reach, width, high), place(reach, width, low))
    edges = (
        Edge(f"{id}.hem", "hem", "right", "finished", level_line(reach, width, low).reversed()),
        Edge(f"{id}.{front}", front, "left", kinds.get(front, "seam"), up),
        Edge(f"{id}.top", "top", "left", "finished", level_line(reach, width, high)),
        Edge(f"{id}.{back}", back, "right", kinds.get(back, "seam"), down),
    )
    inside = tuple(InsideLine(name, "level", level_line(reach, width, h).reversed()) for name, h in HEIGHTS.items())
    middle = float(place(reach, width / 2, 0.0)[0])
    return Piece.closed(
        edges, id=id, label=id, extent="half_on_fold" if id == "CF" else "one_side", hand="both",
        grain=Grain((middle, -120.0), (middle, 120.0)), inside=inside, material=(Region(id),),
    )  # fmt: skip


def developable_block(reach: float | None = None) -> Pattern:
    pieces = tuple(
        panel(reach, id, width, front, back)
        for (id, width), front, back in zip(WIDTHS.items(), LINES[:-1], LINES[1:], strict=True)
    )
    seams = tuple(
        Seam(line, "join", (Span(a.id, f"{a.id}.{line}", 1, 0),), (Span(b.id, f"{b.id}.{line}"),), region)
        for line, a, b, region in zip(LINES[1:-1], pieces[:-1], pieces[1:], ("front", "side", "back"), strict=True)
    )
    levels = []
    for name, height in HEIGHTS.items():
        girth = 2 * sum(piece.inside_line(name).curve.length for piece in pieces)
        path = tuple(LevelSpan(piece.id, name) for piece in pieces)
        levels.append(Level(name, name, height, girth, 0.0, path))
    lines = tuple(Line(name, name) for name in (*LINES, "top", "hem"))
    return Pattern(pieces, seams, lines, tuple(levels))
