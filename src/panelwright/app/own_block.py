"""Your own block: pieces read off paper become a pattern that is checked, trued on request, designed on, finished."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Final

from panelwright.app.cut_off import first_fault
from panelwright.app.garment_design import GarmentDesign
from panelwright.body.measurements import Measurements
from panelwright.body.units import Unit
from panelwright.body.worded_length import worded_in
from panelwright.checks import Wearing, check, check_drafting
from panelwright.checks.inspection import by_severity
from panelwright.checks.wearer_ease import check_ease
from panelwright.design.replay import Design, replay
from panelwright.errors import DesignError
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.finish.finishing import finish
from panelwright.finish.options import Finish
from panelwright.intake.drawn_pattern import DrawnPattern
from panelwright.intake.own_findings import check_own_block, left_findings, pencil_findings, suggestion_findings
from panelwright.intake.own_pattern import pattern_of
from panelwright.intake.seam_partners import SeamSuggestion, suggested_seams, with_suggestions
from panelwright.intake.truing import Trued, trued
from panelwright.pattern.pattern import Pattern

TITLE: Final = "Own block"


@dataclass(frozen=True, eq=False, repr=False)
class OwnBlock:
    """What `make_own_block` returns.

    Attributes:
        as_drawn: the pattern at full scale, before any truing.
        truing: what truing changes; it is offered even where it was not asked for.
        is_trued: whether it was asked for.
        suggestions: seams that the file did not name and that were taken.
        pattern: the block, trued or not, after the design's steps.
        cutting: its pieces ready to cut.
        findings: errors first.
    """

    as_drawn: Pattern
    truing: Trued
    is_trued: bool
    suggestions: tuple[SeamSuggestion, ...]
    pattern: Pattern
    cutting: CuttingPattern
    findings: tuple[Finding, ...]

    @property
    def block(self) -> Pattern:
        """The pattern that steps were carried out on."""
        return self.truing.pattern if self.is_trued else self.as_drawn

    @property
    def title(self) -> str:
        """At the head of its sheets."""
        return self.pattern.title


def make_own_block(
    drawn: DrawnPattern,
    wearer: Measurements | None = None,
    design: GarmentDesign | None = None,
    true: bool = False,
    unit: Unit = Unit.CM,
) -> OwnBlock:
    """The pattern that was drawn, ready to cut.

    Args:
        drawn: the pieces; edges in no confirmed seam get the likeliest partner, and a finding says so.
        wearer: whom it is for; without one nothing is said about fit.
        design: steps and finish. Steps that need the body under a block are refused. Without a design the pieces get
            the allowance that the drawing has, or 1 cm all round.
        true: whether the pattern is trued before anything else.
        unit: of the lengths that people read.

    Raises:
        InputError: if the pieces make no pattern.
        DesignError: if a step cannot be carried out on this block.
    """
    suggestions = suggested_seams(drawn, unit)
    as_drawn = pattern_of(with_suggestions(drawn, suggestions), wearer)
    as_drawn = replace(as_drawn, title=(design.title if design else drawn.title) or TITLE)
    truing = trued(as_drawn)
    block = truing.pattern if true else as_drawn
    with worded_in(unit):
        pattern = block if design is None else _designed(design, block)
    cutting = finish(pattern, replace(design.finish, unit=unit) if design else _plain_finish(drawn, unit))
    own = (
        *check_own_block(block, wearer, unit),
        *suggestion_findings(suggestions),
        *(left_findings(truing.left) if true else ()),
        *pencil_findings(block, drawn.scale),
    )
    found = by_severity(_checked(cutting, wearer, design, own, block, unit))
    return OwnBlock(as_drawn, truing, true, suggestions, pattern, cutting, found)


def _plain_finish(drawn: DrawnPattern, unit: Unit) -> Finish:
    return Finish(allowance=drawn.allowance or Finish().allowance, unit=unit)


def _designed(design: GarmentDesign, block: Pattern) -> Pattern:
    """The block after the design's own steps. Its upper edge and hem are the maker's: none is put in by default."""
    for step in design.steps:
        if step.needs_shoulder and step.uid not in design.off:
            raise DesignError(
                f"{design.ref}: {step.label} needs the body under the block, up to the shoulder, and a "
                "block read off paper has none: draw shoulders and straps on paper, or leave this step out",
                f"step {step.uid}",
            )
    made = replay(Design(design.ref, design.title, design.steps, design.off), block)
    fault = first_fault(made.outcomes)
    if fault is not None:
        raise DesignError(f"{design.ref}: {fault[1]}", f"step {fault[0]}")
    return replace(made.pattern, title=design.title)


def _checked(
    cutting: CuttingPattern,
    wearer: Measurements | None,
    design: GarmentDesign | None,
    own: tuple[Finding, ...],
    block: Pattern,
    unit: Unit,
) -> Iterable[Finding]:
    """A designed garment for a wearer is checked as every garment, a bare block by the drafting rules and its ease."""
    if wearer is not None and design is not None:
        return check(cutting, wearer, replace(design.wearing, unit=unit), given=own, block=block)
    ease = check_ease(cutting.pattern, wearer, Wearing(unit=unit)) if wearer is not None else ()
    return (*check_drafting(cutting), *own, *ease)
