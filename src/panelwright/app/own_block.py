"""Your own block: pieces read off paper become a pattern that is checked, trued on request, designed on, finished."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from panelwright.app.cut_off import first_fault
from panelwright.app.garment_design import GarmentDesign
from panelwright.app.paper_block import PaperBlock, paper_block
from panelwright.app.told_once import told_once
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
from panelwright.intake.seam_partners import SeamSuggestion
from panelwright.intake.truing import Trued
from panelwright.pattern.pattern import Pattern


@dataclass(frozen=True, eq=False, repr=False)
class OwnBlock:
    """What `make_own_block` returns.

    Attributes:
        paper: the block as it was drawn, and trued where that was asked for.
        pattern: the block, trued or not, after the design's steps.
        cutting: its pieces ready to cut.
        findings: errors first.
    """

    paper: PaperBlock
    pattern: Pattern
    cutting: CuttingPattern
    findings: tuple[Finding, ...]

    @property
    def as_drawn(self) -> Pattern:
        """The pattern at full scale, before any truing."""
        return self.paper.as_drawn

    @property
    def truing(self) -> Trued:
        """What truing changes; it is offered even where it was not asked for."""
        return self.paper.truing

    @property
    def is_trued(self) -> bool:
        """Whether truing was asked for."""
        return self.paper.is_trued

    @property
    def suggestions(self) -> tuple[SeamSuggestion, ...]:
        """Seams that the file did not name and that were taken."""
        return self.paper.suggestions

    @property
    def block(self) -> Pattern:
        """The pattern that steps were carried out on."""
        return self.paper.pattern

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
    paper = paper_block(drawn, wearer, true, unit)
    with worded_in(unit):
        pattern = paper.pattern if design is None else _designed(design, paper.pattern)
    cutting = finish(pattern, replace(design.finish, unit=unit) if design else _plain_finish(drawn, unit))
    wearing = replace(design.wearing if design else Wearing(), unit=unit)
    found = checked_on_paper(cutting, paper, wearing, designed=design is not None)
    return OwnBlock(paper, pattern, cutting, by_severity(found))


def checked_on_paper(
    cutting: CuttingPattern, paper: PaperBlock, wearing: Wearing, designed: bool, given: tuple[Finding, ...] = ()
) -> Iterable[Finding]:
    """A designed garment for a wearer is checked as every garment, a bare block by the drafting rules and its ease.

    Args:
        given: what is known already, beside the findings of the block itself.
    """
    own, wearer = (*given, *paper.findings), paper.wearer
    if wearer is not None and designed:
        return told_once(check(cutting, wearer, wearing, given=own, block=paper.pattern), own)
    ease = check_ease(cutting.pattern, wearer, Wearing(unit=wearing.unit)) if wearer is not None else ()
    return told_once((*check_drafting(cutting, wearing.unit), *own, *ease), own)


def _plain_finish(drawn: DrawnPattern, unit: Unit) -> Finish:
    return Finish(allowance=drawn.allowance or Finish().allowance, unit=unit)


def _designed(design: GarmentDesign, block: Pattern) -> Pattern:
    """The block after the design's own steps. Its upper edge and hem are the maker's: none is put in by default."""
    made = replay(Design(design.ref, design.title, design.steps, design.off), block)
    fault = first_fault(made.outcomes)
    if fault is not None:
        raise DesignError(f"{design.ref}: {fault[1]}", f"step {fault[0]}")
    return replace(made.pattern, title=design.title)
