"""Making a garment: from a wearer and a design to finished pieces and what checking has to say about them."""

from dataclasses import dataclass, replace
from functools import cached_property

from panelwright.app.cut_off import first_fault, told_outcomes
from panelwright.app.garment_design import GarmentDesign
from panelwright.app.lay import wide_enough
from panelwright.app.progress import Progress, unheard
from panelwright.blocks.block import Block
from panelwright.blocks.make_block import make_block
from panelwright.body.measurements import Measurements
from panelwright.body.plausibility import questions
from panelwright.body.units import Unit
from panelwright.body.worded_length import worded_in
from panelwright.checks import check
from panelwright.checks.inspection import by_severity
from panelwright.design.replay import replay
from panelwright.errors import DesignError, InputError
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.finish.finishing import finish
from panelwright.fitting.fitted_block import fitted
from panelwright.fitting.fitting import Fitting
from panelwright.lay.cloth import Cloth
from panelwright.lay.lay import Lay
from panelwright.lay.lay_garment import lay_pieces
from panelwright.lay.piece_to_cut import pieces_to_cut
from panelwright.lay.planned_lay import Planning
from panelwright.pattern.pattern import Pattern


@dataclass(frozen=True, eq=False, repr=False)
class Garment:
    """What `make_garment` returns.

    Attributes:
        wearer: for whom.
        design: what was asked for.
        block: the block before any step, with the wearer's fitting notes carried out.
        pattern: the block after all steps.
        cutting: the pieces ready to cut, with facings, allowances and notches.
        cloths: those that take their pieces.
        findings: all that a maker should know before cutting, errors first; a cloth that is too narrow among them.
        planning: how hard to look for short lays; None for the first lay, which takes a moment.
        kept: lays that are cut by as they are, of some of the cloths.
    """

    wearer: Measurements
    design: GarmentDesign
    block: Block
    pattern: Pattern
    cutting: CuttingPattern
    cloths: tuple[Cloth, ...]
    findings: tuple[Finding, ...]
    planning: Planning | None = None
    kept: tuple[Lay, ...] = ()

    @cached_property
    def lays(self) -> tuple[Lay, ...]:
        """Of every cloth that takes its pieces; made when they are first asked for, which takes longest of all."""
        kept = {lay.cloth.name: lay for lay in self.kept}
        return tuple(kept.get(cloth.name) or self._laid(cloth) for cloth in self.cloths)

    def _laid(self, cloth: Cloth) -> Lay:
        return lay_pieces(cloth, pieces_to_cut(self.cutting, cloth.name), planning=self.planning)

    @property
    def without_errors(self) -> bool:
        """Whether no check found an error."""
        return all(finding.severity != "error" for finding in self.findings)


STAGES = 4


def make_garment(
    wearer: Measurements,
    design: GarmentDesign,
    progress: Progress = unheard,
    unit: Unit = Unit.CM,
    block: Block | None = None,
    fitting: Fitting | None = None,
) -> Garment:
    """The garment of a design for a wearer, checked.

    Args:
        wearer: measurements, complete with estimates.
        design: block options, steps and finish.
        progress: told what comes next, `STAGES` in all, and again at each step of the block's solver; may raise
            CancelledError to stop.
        unit: of the lengths that people read, on pieces and in findings.
        block: the wearer's block with the design's options, if it was made before, without fitting notes.
        fitting: the wearer's fitting notes, carried out on the block before any step.

    Raises:
        BlockError: if these measurements and options give no block.
        DesignError: if a step cannot be carried out on this wearer's block; the first one is named.
        InputError: if an allowance is given to a line that the pattern does not have, or a fitting note cannot be
            carried out.
    """
    progress(0, STAGES, "block")
    with worded_in(unit):
        made = block or make_block(wearer, design.block_options, lambda _: progress(0, STAGES, "block"))
    progress(1, STAGES, "design")
    with worded_in(unit):
        made = made if fitting is None else fitted(made, fitting)
        pattern = _designed(design, made.pattern)
    progress(2, STAGES, "ready to cut")
    with worded_in(unit):
        cutting = _finished(design, pattern, unit)
    progress(3, STAGES, "checks")
    given = (*questions(wearer, unit), *made.findings)
    findings = check(cutting, wearer, replace(design.wearing, unit=unit), made.strain_p95, given, made.pattern)
    cloths, unlaid = wide_enough(cutting, design.cloths, unit)
    return Garment(wearer, design, made, pattern, cutting, cloths, by_severity((*findings, *unlaid)))


def _designed(design: GarmentDesign, block: Pattern) -> Pattern:
    """The block after its steps, under the design's title. Half a design is not cut: one that failed is an error."""
    made = replay(design.design, block)
    fault = first_fault(told_outcomes(design.design, block, made))
    if fault is not None:
        raise DesignError(f"{design.ref}: {fault[1]}", f"step {fault[0]}")
    return replace(made.pattern, title=design.title)


def _finished(design: GarmentDesign, pattern: Pattern, unit: Unit) -> CuttingPattern:
    try:
        return finish(pattern, replace(design.finish, unit=unit))
    except InputError as error:
        raise InputError(f"{design.ref}: finish: {error}", f"finish.{error.where}") from error
