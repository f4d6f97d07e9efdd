"""What can be taken hold of on a closure: where its opening ends, and what its fastening has to set."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from panelwright.design.body_chart import BodyChart, half_chart
from panelwright.design.closure import SIDE_ENDS, ClosureStep
from panelwright.design.closure_opening import LEFT_SEWN
from panelwright.design.edge_place import UprightEdge
from panelwright.design.fastening_grips import fastening_grips
from panelwright.design.grip import Grip, tracked
from panelwright.design.moved_height import OFFSET_DIGITS, moved_on_line
from panelwright.design.position import Height
from panelwright.design.step import Step
from panelwright.pattern.line import SIDE
from panelwright.pattern.pattern import Pattern

LABEL: Final = "lower end of the opening"


def closure_grips(step: ClosureStep, pattern: Pattern, block: Pattern) -> Iterator[Grip]:
    """The lower end of an opening that may end above the hem; the gap of a lacing; the spacing of buttons.

    Args:
        step: the step.
        pattern: after the steps of the design.
        block: the unmodified block.
    """
    closure = next((each for each in pattern.closures if each.id == step.uid), None)
    if isinstance(step.fastening, str) or closure is None:
        return
    found = [(piece, edge) for piece, edge in pattern.pieces_on_line(step.place) if piece.layer == "outer"]
    if not found:
        return
    chart = half_chart(block)
    on_edge = UprightEdge(chart, *found[0])
    yield from fastening_grips(step, pattern, chart, on_edge)
    if step.fastening.part_fault:
        return
    yield tracked(
        step, "end", LABEL, on_edge.track(closure.low), lambda arc, snap: _opened(step, chart, on_edge, arc, snap)
    )


def _opened(step: ClosureStep, chart: BodyChart, on_edge: UprightEdge, arc: float, snap: bool) -> Step:
    """The step with its opening down to a place on the edge; a centre opens to the hem where hardly anything is left
    sewn."""
    if step.opening is not None:
        return replace(step, opening=round(on_edge.edge.curve.length - arc, OFFSET_DIGITS))
    if arc < LEFT_SEWN and step.place != SIDE:
        return replace(step, down_to=None)
    on_line, upright = on_edge.on_line(arc), on_edge.upright
    like = step.down_to or (SIDE_ENDS if step.place == SIDE else _nearest(chart, upright, on_line))
    return replace(step, down_to=moved_on_line(chart, upright, on_line, like, snap))


def _nearest(chart: BodyChart, upright: int, arc: float) -> Height:
    """The level nearest to a place on a line."""
    line = chart.uprights[upright]
    near = [(abs(share * line.length - arc), row.level) for share, row in zip(line.rows, chart.rows, strict=True)]
    return Height(min((gap, level) for gap, level in near if level)[1])
