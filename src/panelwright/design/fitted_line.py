"""A line drawn by hand made into a top edge or hem: heights and free points, as few as follow the hand."""

from collections.abc import Sequence
from typing import Final

from panelwright.body.worded_length import given_words
from panelwright.design.body_chart import BodyChart, half_chart
from panelwright.design.drawn_line import DrawnLine, Stroke
from panelwright.design.line_fit import MOST_POINTS, Fit, targets_of
from panelwright.design.line_start import EdgeKind, EdgeStep
from panelwright.errors import DesignError
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.spoken_piece import spoken_piece

__all__ = ["EdgeKind", "EdgeStep", "fitted_line"]

TOLERANCE: Final = 2.0  # mm
LOOSER: Final = 2.0  # times the tolerance, for a hand that trembles


def fitted_line(
    kind: EdgeKind,
    strokes: Sequence[Stroke],
    pattern: Pattern,
    block: Pattern,
    uid: str,
    before: EdgeStep | None = None,
    tolerance: float = TOLERANCE,
) -> EdgeStep:
    """The step whose line runs as it was drawn.

    Where nothing was drawn, the line of `before` stays; without one, the line keeps the level of what was drawn.
    Heights keep the kind that they had in `before`: an offset from a level, or in proportion.

    Args:
        kind: which edge.
        strokes: the line, on one or more pieces, mm on each.
        pattern: that it was drawn on.
        block: the unmodified block.
        uid: of the step.
        before: the step of that kind that it takes the place of.
        tolerance: mm by which the line may depart from what was drawn, its tremor evened out; if no shape follows so
            nearly, twice that.

    Raises:
        DesignError: one sentence, if the line cannot be used or follows no edge with at most 16 free points.
    """
    chart = half_chart(block)
    drawn = DrawnLine.of(strokes, pattern, chart)
    for within in (tolerance, LOOSER * tolerance):
        fit = Fit(chart, drawn, targets_of(chart, drawn, before), within)
        found = fit.best(kind, uid, before)
        if found is not None:
            return found
    raise DesignError(
        f"the line bends too often{_where(fit, chart)} to be followed within {given_words(LOOSER * tolerance)} "
        f"({MOST_POINTS} points are not enough); draw the {kind.replace('-', ' ')} with fewer bends there, or a "
        "part of it at a time",
        "points",
    )


def _where(fit: Fit, chart: BodyChart) -> str:
    """The piece on which the try that came nearest departs most; empty where none could be drawn."""
    if not fit.misses:
        return ""
    _, panel = min(fit.misses)
    return f", above all on {spoken_piece(chart.panels[panel].piece)},"
