"""A small block drawn by hand for tests: four panels with gently curved, equal seams and straight levels.

Invented numbers. It does not use the block-making code, so tests of later stages rest on something simple.
"""

from itertools import pairwise

import numpy as np
from scipy.interpolate import CubicHermiteSpline

from panelwright.geometry.curve import Curve
from panelwright.pattern.edge import Edge, EdgeKind
from panelwright.pattern.level import LEVELS, Level, LevelSpan
from panelwright.pattern.line import Line
from panelwright.pattern.mark import Grain, InsideLine, Mark
from panelwright.pattern.material import Region
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam, Span

HEIGHTS = dict(zip(LEVELS, (200.0, 150.0, 85.0, 0.0, -50.0, -100.0, -200.0), strict=True))
# How far each seam bulges out of both of its panels at the levels, from the top down, mm.
BULGES = {
    "front-princess": (-4.0, 9.0, -4.0, -14.0, -9.0, -2.0, 8.0),
    "side": (6.0, 6.0, -2.0, -12.0, -6.0, 2.0, 14.0),
    "back-princess": (0.0, 2.0, -3.0, -12.0, -7.0, 0.0, 9.0),
}
PANELS = (
    ("CF", "Centre front", 92.0, "front-princess", "centre-front"),
    ("SF", "Side front", 105.0, "side", "front-princess"),
    ("SB", "Side back", 100.0, "back-princess", "side"),
    ("CB", "Centre back", 80.0, "centre-back", "back-princess"),
)
CENTRES = ("centre-front", "centre-back")


def bulge(line: str) -> np.ndarray:
    return np.array(BULGES.get(line, (0.0,) * len(LEVELS)))


def upwards(line: str, x: float, sign: float) -> Curve:
    """The line's curve from the hip up at x + sign · bulge, one cubic from level to level."""
    y = np.array([HEIGHTS[level] for level in LEVELS])[::-1]
    offsets = bulge(line)[::-1]
    slopes = np.gradient(offsets, y)
    spline = CubicHermiteSpline(y, offsets, slopes)
    points = [(x + sign * spline(y[0]), y[0])]
    for low, high in pairwise(y):
        third = (high - low) / 3
        points += [
            (x + sign * (spline(low) + third * spline(low, 1)), low + third),
            (x + sign * (spline(high) - third * spline(high, 1)), high - third),
            (x + sign * spline(high), high),
        ]
    return Curve.from_points(points)


def panel(id: str, label: str, width: float, left: str, right: str) -> Piece:
    x_left, x_right = (-width, 0.0) if right == "centre-front" else (0.0, width)
    up, down = upwards(right, x_right, 1.0), upwards(left, x_left, -1.0).reversed()
    kinds: dict[str, EdgeKind] = {"centre-front": "fold", "centre-back": "opening"}
    edges = (
        Edge(f"{id}.hem", "hem", "right", "finished", Curve.straight(down.end, up.start)),
        Edge(f"{id}.{right}", right, "left", kinds.get(right, "seam"), up),
        Edge(f"{id}.top", "top", "left", "finished", Curve.straight(up.end, down.start)),
        Edge(f"{id}.{left}", left, "right", kinds.get(left, "seam"), down),
    )
    inside = []
    for k, level in enumerate(LEVELS):
        ends = (x_left - bulge(left)[k], HEIGHTS[level]), (x_right + bulge(right)[k], HEIGHTS[level])
        inside.append(InsideLine(level, "level", Curve.straight(*ends)))
    middle = (x_left + x_right) / 2
    marks = (Mark("bust-point", "point", (x_left - bulge(left)[1], HEIGHTS["bust"])),) if id == "CF" else ()
    return Piece.closed(
        edges, id=id, label=label, extent="half_on_fold" if id == "CF" else "one_side", hand="both",
        grain=Grain((middle, -120.0), (middle, 120.0)), inside=tuple(inside), marks=marks, material=(Region(id),),
    )  # fmt: skip


def seam(line: str, front: str, back: str) -> Seam:
    """Both chains run up from the hem; the front panel's edge runs down its outline, so its span is backwards."""
    region = "side" if line == "side" else "back" if "back" in line else "front"
    return Seam(line, "join", (Span(front, f"{front}.{line}", 1, 0),), (Span(back, f"{back}.{line}"),), region)


def plain_block() -> Pattern:
    """CF on the fold, SF, SB, CB with an opening at centre back; levels as wide as they are drawn."""
    pieces = tuple(panel(*row) for row in PANELS)
    levels = []
    for level in LEVELS:
        girth = 2 * sum(piece.inside_line(level).curve.length for piece in pieces)
        path = tuple(LevelSpan(piece.id, level) for piece in pieces)
        levels.append(Level(level, level.replace("-", " ").capitalize(), HEIGHTS[level], girth - 20.0, 20.0, path))
    names = ["centre-front", *BULGES, "centre-back", "top", "hem"]
    lines = tuple(Line(name, name.replace("-", " ").capitalize()) for name in names)
    closure = Seam(
        "centre-back", "closure", (Span("CB", "CB.centre-back", 1, 0),),
        (Span("CB", "CB.centre-back", 1, 0, "mirror"),), "back",
    )  # fmt: skip
    joins = (seam("front-princess", "CF", "SF"), seam("side", "SF", "SB"), seam("back-princess", "SB", "CB"))
    return Pattern(pieces, (*joins, closure), lines, tuple(levels), wearer="plain")
