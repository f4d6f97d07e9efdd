"""What can be taken hold of on a bodice to the shoulder: neckline depths and width, armhole and shoulder."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any, Final

from panelwright.design.bodice_top import BodiceTop
from panelwright.design.grip import Grip, tracked
from panelwright.design.moved_height import OFFSET_DIGITS
from panelwright.design.on_paper import on_paper
from panelwright.design.shoulder_needed import block_to_shoulder
from panelwright.design.step import Step
from panelwright.design.track import Track
from panelwright.errors import DesignError
from panelwright.geometry.arrays import Array
from panelwright.pattern import line as lines
from panelwright.pattern.edge import Edge
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

LABELS: Final = {
    "front_depth": ("front depth", "depth of the neckline at centre front"),
    "back_depth": ("back depth", "depth of the neckline at centre back"),
    "width": ("width", "width of the neckline along the shoulder"),
    "armhole_lower": ("armhole", "depth of the armhole at the side"),
    "shoulder_in": ("shoulder", "outer end of the shoulder"),
}


def bodice_grips(step: BodiceTop, pattern: Pattern, block: Pattern) -> Iterator[Grip]:
    """Each measure of the step, in front where it has one on either half.

    Args:
        step: the step.
        pattern: after the steps of the design.
        block: the unmodified block, with its block to the shoulder.
    """
    try:
        full = block_to_shoulder(block)
    except DesignError:
        return
    for field, line, other in (
        ("front_depth", lines.CENTRE_FRONT, lines.NECKLINE),
        ("back_depth", lines.CENTRE_BACK, lines.NECKLINE),
        ("width", lines.SHOULDER, lines.NECKLINE),
        ("armhole_lower", lines.SIDE, lines.ARMHOLE),
        ("shoulder_in", lines.SHOULDER, lines.ARMHOLE),
    ):
        found = _corner(full, line, other)
        track = _track(step, pattern, field, *found) if found else None
        if track is not None:
            yield tracked(step, *LABELS[field], track, _setting(step, field))


def _setting(step: BodiceTop, field: str) -> Callable[[float, bool], Step]:
    def changed(measure: float, _: bool) -> Step:
        fields: dict[str, Any] = {field: round(measure, OFFSET_DIGITS)}
        return replace(step, **fields)

    return changed


def _corner(full: Pattern, line: str, other: str) -> tuple[Piece, Edge, bool] | None:
    """(panel, its edge on `line`, whether that edge starts there) at the corner of two lines; the panel in front
    comes first."""
    for piece, edge in full.pieces_on_line(line):
        for beside, starts in ((piece.before(edge), True), (piece.after(edge), False)):
            if beside.line == other:
                return piece, edge, starts
    return None


def _track(step: BodiceTop, pattern: Pattern, field: str, piece: Piece, edge: Edge, starts: bool) -> Track | None:
    """From the corner along the edge."""
    curve = edge.curve if starts else edge.curve.reversed()
    here: float = getattr(step, field)
    paper = on_paper(pattern, piece.id, curve.point(here))
    if paper is None:
        return None

    def course(measure: float) -> Array:
        return paper.place(curve.point(measure))

    return Track(paper.piece, here, 0.0, curve.length, course)
