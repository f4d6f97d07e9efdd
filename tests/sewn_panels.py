"""Small hand-made patterns for tests of seams: plain rectangles with levels where one wants them."""

from collections.abc import Sequence

from panelwright.geometry.curve import Curve
from panelwright.pattern.edge import Edge, EdgeKind
from panelwright.pattern.level import Level, LevelSpan
from panelwright.pattern.line import Line
from panelwright.pattern.mark import Grain, InsideLine, Mark
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Extent, Piece
from panelwright.pattern.seam import Seam, SeamKind, SeamRegion, Span

Levels = dict[str, float]


def panel(
    id: str,
    size: tuple[float, float],
    names: Sequence[str] = ("hem", "right", "top", "left"),
    kinds: Sequence[EdgeKind] = ("finished", "seam", "finished", "seam"),
    levels: Levels | None = None,
    marks: tuple[Mark, ...] = (),
    extent: Extent = "one_side",
) -> Piece:
    """A rectangle from (0, 0); edges from its lower one, anticlockwise; levels run across it at their heights."""
    width, height = size
    corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)]
    ends = zip(corners, corners[1:] + corners[:1], strict=True)
    sides = ("right", "left", "left", "right")
    edges = tuple(
        Edge(f"{id}.{name}", name, side, kind, Curve.straight(a, b))  # type: ignore[arg-type]
        for name, kind, side, (a, b) in zip(names, kinds, sides, ends, strict=True)
    )
    inside = tuple(InsideLine(k, "level", Curve.straight((0, y), (width, y))) for k, y in (levels or {}).items())
    grain = Grain((0.4 * width, 0.2 * height), (0.4 * width, 0.8 * height))
    return Piece(id, id, edges, extent, "both", grain, inside, marks)


def two_panels(
    length: float = 400.0,
    ease: float = 0.0,
    ratio: float = 1.0,
    front: Levels | None = None,
    back: Levels | None = None,
    region: SeamRegion = "front",
    marks: tuple[Mark, ...] = (),
    kind: SeamKind = "join",
    bust_over_underbust: float = 120.0,
) -> Pattern:
    """F and B, sewn along one upright seam called `<region>-seam`, both chains from the hem up.

    Args:
        front, back: level -> height on each panel; levels on both are levels of the pattern.
    """
    line = f"{region}-seam"
    a = panel("F", (100.0, length), ("hem", "cf", "top", line), levels=front, marks=marks)
    b = panel("B", (120.0, length * ratio + ease), ("hem", line, "top", "cb"), levels=back)
    seam = Seam(line, kind, (Span("F", f"F.{line}", 1.0, 0.0),), (Span("B", f"B.{line}"),), region, ratio, ease)
    ends = (
        Seam("cf", "closure", (Span("F", "F.cf"),), (Span("F", "F.cf", hand="mirror"),), "front"),
        Seam("cb", "closure", (Span("B", "B.cb"),), (Span("B", "B.cb", hand="mirror"),), "back"),
    )
    girths = {"bust": 900.0 + bust_over_underbust, "underbust": 900.0}
    levels = tuple(
        Level(id, id, 0.0, girths.get(id, 700.0), 0.0, (LevelSpan("F", id), LevelSpan("B", id)))
        for id in (front or {})
        if id in (back or {})
    )
    lines = tuple(Line(id, id.capitalize()) for id in ("hem", "top", "cf", "cb", line))
    return Pattern((a, b), (seam, *ends), lines, levels)
