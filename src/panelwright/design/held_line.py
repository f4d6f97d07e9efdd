"""The line of an edge that is in the hand, on the pieces as they were when it was taken."""

from collections.abc import Mapping
from typing import TypeGuard

from panelwright.design.body_chart import half_chart
from panelwright.design.hem import Hem
from panelwright.design.line_start import EdgeStep
from panelwright.design.line_stretch import line_stretches
from panelwright.design.step import Step
from panelwright.design.top_edge import TopEdge
from panelwright.geometry.curve import Curve
from panelwright.pattern.pattern import Pattern


def draws_line(step: Step) -> TypeGuard[EdgeStep]:
    """Whether a step draws a line round the body."""
    return isinstance(step, TopEdge | Hem)


def held_line(step: Step, pattern: Pattern, block: Pattern) -> Mapping[str, tuple[Curve, ...]]:
    """Where a top edge or hem would run: quick, because nothing is cut.

    Args:
        step: the step with the line where the hand holds it.
        pattern: after the step as it was taken, and after any steps that follow.
        block: the unmodified block.

    Returns:
        Curves by outer piece, in its own coordinates, mm, from right to left on paper; nothing for a step that draws
        no line round the body.

    Raises:
        DesignError: if the line cannot be drawn on this block, or does not run on in a piece.
    """
    if not draws_line(step):
        return {}
    style = step.design.line(half_chart(block))
    stretches = {piece.id: line_stretches(piece, style) for piece in pattern.pieces if piece.layer == "outer"}
    return {id: tuple(curve for part in parts for curve in part.curves) for id, parts in stretches.items() if parts}
