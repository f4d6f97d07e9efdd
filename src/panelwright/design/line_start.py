"""Where a step that shall follow a drawn line starts: its heights where the line was drawn, no points yet."""

from collections.abc import Iterator
from typing import Final, Literal

from panelwright.design.body_chart import BodyChart
from panelwright.design.drawn_line import DrawnLine
from panelwright.design.hem import Hem
from panelwright.design.moved_height import moved_between, moved_on_line
from panelwright.design.position import Height, height_at, place_on
from panelwright.design.top_edge import TopEdge
from panelwright.errors import DesignError

EdgeKind = Literal["top-edge", "hem"]
EdgeStep = TopEdge | Hem

ENDS: Final = 0.12  # of a panel: a line that ends so near a centre or the side reaches it
NEAT: Final = 2  # places to which heights are kept in each mm


def starts(
    kind: EdgeKind, shape: str, uid: str, chart: BodyChart, drawn: DrawnLine, before: EdgeStep | None
) -> Iterator[EdgeStep]:
    """The edge of a shape with its anchors where the line was drawn, and the points of `before` beyond that."""
    ends = {"centre": 0.0, "side": chart.side, "back": float(len(chart.panels))}
    was = {"centre": before.centre, "side": before.side, "back": before.back} if before else {}
    found = {name: _anchor(chart, drawn, across, was.get(name)) for name, across in ends.items()}
    side = found["side"] or _held(chart, drawn, chart.side)
    centre = found["centre"] or _held(chart, drawn, 0.0)
    back = found["back"]
    kept = tuple(
        point for point in (before.points if before else ()) if not drawn.covers(place_on(chart, point.at).across, ENDS)
    )
    try:
        if kind == "top-edge":
            yield TopEdge(uid, shape, centre, side, back, kept)  # type: ignore[arg-type]  # one of its shapes
        elif shape == "straight":
            yield Hem(uid, "straight", side, side)
        else:
            yield Hem(uid, shape, centre, side, back, kept)  # type: ignore[arg-type]  # one of its shapes
    except DesignError:  # a shape that these heights do not allow
        return


def _anchor(chart: BodyChart, drawn: DrawnLine, across: float, before: Height | None) -> Height | None:
    """The height at an anchor that was drawn, or as it was before; None where there was none."""
    if not drawn.covers(across, ENDS):
        return before
    return height_like(chart, across, drawn.height(across), before)


def _held(chart: BodyChart, drawn: DrawnLine, across: float) -> Height:
    """The height of the nearer end of the line, kept level to an anchor that it does not reach."""
    end = min(max(across, float(drawn.across[0])), float(drawn.across[-1]))
    return height_like(chart, across, drawn.height(end), None)


def height_like(chart: BodyChart, across: float, height: float, like: Height | None) -> Height:
    """A height on the chart as one from a level, of the kind of another."""
    of = like or _nearest_level(chart, across, height)
    if across == int(across):
        line = chart.uprights[int(across)]
        found = moved_on_line(chart, int(across), line.shares.at(height)[0] * line.length, of)
    else:
        found = moved_between(chart, lambda other: height_at(chart, across, other), height, of)
    return found if found.share else Height(found.level, round(found.offset * NEAT) / NEAT)


def _nearest_level(chart: BodyChart, across: float, height: float) -> Height:
    levels = [Height(row.level) for row in chart.rows if row.level]
    return min(levels, key=lambda level: abs(height_at(chart, across, level) - height))
