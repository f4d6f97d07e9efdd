"""What can be taken hold of on a fastening: the gap of a lacing, and how far buttons sit apart."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

import numpy as np

from panelwright.design.body_chart import BodyChart
from panelwright.design.buttons import FARTHEST, NEAREST, Buttons
from panelwright.design.closure import ClosureStep
from panelwright.design.edge_place import UprightEdge
from panelwright.design.grip import Grip, tracked
from panelwright.design.lacing import WIDEST, Lacing
from panelwright.design.moved_height import OFFSET_DIGITS
from panelwright.design.on_paper import on_paper
from panelwright.design.step import Step
from panelwright.design.track import Track
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.pattern.level import BUST
from panelwright.pattern.line import CENTRE_FRONT
from panelwright.pattern.mark import InsideLine
from panelwright.pattern.pattern import Pattern

GAP: Final = "gap of the lacing"
SPACING: Final = "spacing of the buttons"


def fastening_grips(step: ClosureStep, pattern: Pattern, chart: BodyChart, on_edge: UprightEdge) -> Iterator[Grip]:
    """The gap of a lacing, and the spacing of buttons.

    Args:
        step: the step.
        pattern: after the steps of the design.
        chart: of the block's half.
        on_edge: the edge that it closes.
    """
    if isinstance(step.fastening, Lacing):
        yield from _gap(step, step.fastening, pattern, chart, on_edge)
    elif isinstance(step.fastening, Buttons):
        yield from _spacing(step, step.fastening, on_edge)


def _gap(step: ClosureStep, lacing: Lacing, pattern: Pattern, chart: BodyChart, on_edge: UprightEdge) -> Iterator[Grip]:
    """Half of the gap lies between the centre line of the body and the edge, at half the edge's height.

    A back stays where it is and its edge moves. A front is laid with its edge on x = 0 whatever the gap, and the
    centre line moves: there that is what the hand holds.
    """
    panel, edge = _centre_of(step, chart)
    arc = on_edge.on_line(on_edge.edge.curve.length / 2) / chart.uprights[on_edge.upright].length * edge.length
    middle, up = edge.frame(arc)
    paper = on_paper(pattern, panel, middle)
    if paper is None:
        return
    at_front = step.place == CENTRE_FRONT
    inwards = paper.placement.vectors(np.array([-up[1], up[0]]) * (1.0 if at_front else -1.0))
    centre = paper.place(middle)

    def course(gap: float) -> Array:
        return centre + ((lacing.gap - gap) if at_front else gap) / 2 * inwards

    def changed(gap: float, _: bool) -> Step:
        return replace(step, fastening=replace(lacing, gap=round(max(gap, 0.0), OFFSET_DIGITS)))

    yield tracked(step, "gap", GAP, Track(paper.piece, lacing.gap, 0.0, WIDEST, course), changed)


def _centre_of(step: ClosureStep, chart: BodyChart) -> tuple[str, Curve]:
    """(panel, its centre edge upwards) of the block."""
    if step.place == CENTRE_FRONT:
        return chart.panels[0].piece.id, chart.panels[0].entry_edge.line_curve
    return chart.panels[-1].piece.id, chart.panels[-1].exit_edge.line_curve


def _spacing(step: ClosureStep, buttons: Buttons, on_edge: UprightEdge) -> Iterator[Grip]:
    """On the centre line, as far below a button that always stays as is wanted from one to the next: the row itself
    comes out even, so that its next button may lie a little beside the handle."""
    centre = on_edge.piece.inside_line(step.place)
    if centre is None:
        return
    line = centre.curve
    bust = _crossing(line, on_edge.piece.inside_line(BUST)) if step.place == CENTRE_FRONT else None
    low, high = buttons.between(0.0, line.length, bust)
    stays = high if bust is None or not low <= bust <= high else bust

    def course(apart: float) -> Array:
        return line.point(stays - apart)

    def changed(apart: float, _: bool) -> Step:
        return replace(step, fastening=replace(buttons, spacing=round(apart, OFFSET_DIGITS)))

    track = Track(on_edge.piece.id, buttons.spacing, NEAREST, max(NEAREST, min(FARTHEST, stays)), course)
    yield tracked(step, "spacing", SPACING, track, changed)


def _crossing(centre: Curve, level: InsideLine | None) -> float | None:
    """mm up a centre line to a level, which runs on square to it over the stand; None where there is no such level."""
    if level is None:
        return None
    return min((centre.nearest(end) for end in (level.curve.start, level.curve.end)), key=lambda hit: hit[1])[0]
