"""A design drawn for a wearer as far as it can be: what a page shows while its maker is still at work."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Final

from panelwright.app.cut_off import first_fault, told_outcomes
from panelwright.app.garment_design import GarmentDesign
from panelwright.app.lay import wide_enough
from panelwright.app.own_block import checked_on_paper
from panelwright.app.paper_block import PaperBlock
from panelwright.app.unmade_steps import UnmadeSteps
from panelwright.blocks.block import Block
from panelwright.body.plausibility import questions
from panelwright.body.units import Unit
from panelwright.body.worded_length import worded_in
from panelwright.checks import Wearing, check
from panelwright.checks.inspection import by_severity
from panelwright.design.handle import Handle, asks_for_before, dragged, handles
from panelwright.design.replay import Design, Outcome, Replay, replay
from panelwright.design.sketch import sketch
from panelwright.design.step import Step
from panelwright.design.strap import Strap
from panelwright.design.worn_strap import WornStrap, worn_strap
from panelwright.errors import DesignError, PanelwrightError
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.finish.finishing import finish
from panelwright.finish.options import Finish
from panelwright.pattern.mark import Point
from panelwright.pattern.pattern import Pattern

NOT_FINISHED: Final = "finish-not-possible"


@dataclass(frozen=True, eq=False, repr=False)
class DrawnDesign:
    """What could be done of a design.

    Attributes:
        design: what was asked for.
        block: the wearer's block before any step, or one read off paper.
        steps: those that were carried out or tried, default edges among them.
        outcomes: one for each of them: a step that failed says why and the others go on.
        pattern: the block after them.
        cutting: the pieces ready to cut.
        findings: why steps were not carried out, then of the checks, errors first.
        checked: whether it was checked; without that there are no findings.
    """

    design: GarmentDesign
    block: Block | PaperBlock
    steps: Design
    outcomes: tuple[Outcome, ...]
    pattern: Pattern
    cutting: CuttingPattern
    findings: tuple[Finding, ...] = ()
    checked: bool = True

    @property
    def complete(self) -> bool:
        """Whether every step was carried out that is not switched off."""
        return not any(outcome.wanting for outcome in self.outcomes)

    def refuse_half(self) -> None:
        """Half a design is not cut.

        Raises:
            DesignError: if a step could not be carried out, or the design's own allowances cannot be made.
        """
        fault = first_fault(self.outcomes)
        if fault is not None:
            raise DesignError(f"{fault[1]}; put this right first: half a design is not cut", "steps")
        for finding in self.findings:
            if finding.code == NOT_FINISHED:
                raise DesignError(f"{finding.message} {finding.remedy}", "finish")

    def handles(self, step: Step, name: str | None = None) -> tuple[Handle, ...]:
        """What of a step that was carried out can be taken hold of, or only what has a name.

        Raises:
            PanelwrightError: if a later step has cut it away.
        """
        return handles(step, self.pattern, self.block.pattern, self._before(step), name)

    def dragged(self, step: Step, handle: Handle, to: Point, snap: bool) -> Step:
        """The step with a handle moved to a place on its piece, mm; see `design.handle.dragged`.

        Raises:
            DesignError: if it cannot go there.
        """
        before = self._before(step)
        return dragged(step, handle.name, handle.piece, to, self.pattern, self.block.pattern, snap, before)

    @property
    def worn_straps(self) -> tuple[WornStrap, ...]:
        """How straps that are pieces of their own lie on the wearer."""
        done = {outcome.step for outcome in self.outcomes if outcome.state == "done"}
        return tuple(
            worn_strap(step, self._pattern_before(step), self.block.pattern)
            for step in self.steps.steps
            if isinstance(step, Strap) and step.type != "grown" and step.uid in done
        )

    def _before(self, step: Step) -> Pattern | None:
        """The pattern that a step was carried out on, where its handles ask for it."""
        return self._pattern_before(step) if asks_for_before(step) else None

    def _pattern_before(self, step: Step) -> Pattern:
        return replay(_first_steps(self.steps, step.uid, before=True), self.block.pattern).pattern


def draw_design(
    design: GarmentDesign,
    block: Block | PaperBlock,
    unit: Unit = Unit.CM,
    upto: str | None = None,
    before: bool = False,
) -> DrawnDesign:
    """The design with all layers, checked.

    Args:
        unit: of the lengths that people read: on pieces, in findings, in the reasons of steps that failed.
        upto: uid of the last step to carry out; all of them when left out.
        before: stop before that step instead.

    Raises:
        DesignError: if there is no such step.
        PanelwrightError: if what the steps leave cannot be cut out at all.
    """
    steps = design.design if upto is None else _first_steps(design.design, upto, before)
    with worded_in(unit):
        made = replay(steps, block.pattern)
        outcomes = told_outcomes(steps, block.pattern, made)
        pattern = replace(made.pattern, title=design.title)
        cutting, fault = _finished(pattern, replace(design.finish, unit=unit))
    findings = _checked(cutting, block, replace(design.wearing, unit=unit), fault)
    _, unlaid = wide_enough(cutting, design.cloths, unit)
    unmade = UnmadeSteps(design.design, outcomes)
    told = by_severity((*unmade.findings(), *unmade.judged(findings, cutting.pattern), *unlaid))
    return DrawnDesign(design, block, steps, outcomes, pattern, cutting, told)


def _checked(
    cutting: CuttingPattern, block: Block | PaperBlock, wearing: Wearing, fault: tuple[Finding, ...]
) -> Iterable[Finding]:
    asked = () if block.wearer is None else questions(block.wearer, wearing.unit)
    if isinstance(block, PaperBlock):
        return checked_on_paper(cutting, block, wearing, designed=True, given=(*asked, *fault))
    given = (*asked, *block.findings, *fault)
    return check(cutting, block.wearer, wearing, block.strain_p95, given, block.pattern)


def sketch_design(
    design: GarmentDesign,
    block: Block | PaperBlock,
    unit: Unit = Unit.CM,
    held: str = "",
    before: DrawnDesign | None = None,
) -> DrawnDesign:
    """The design's outer pieces alone, unchecked: quick enough to follow a hand.

    Args:
        unit: of the lengths that people read on pieces.
        held: uid of a step that was changed; with it goes `before`.
        before: the design before that, on the same block; see `sketch`.

    Raises:
        PanelwrightError: if the pieces cannot be cut out.
    """
    with worded_in(unit):
        if before is not None and before.block is block:
            made = sketch(design.design, block.pattern, held, Replay(before.pattern, before.outcomes))
        else:
            made = replay(design.design, block.pattern)
        pattern = replace(made.pattern, title=design.title)
        cutting, _ = _finished(pattern, replace(design.finish, unit=unit), layers=False)
    return DrawnDesign(design, block, design.design, made.outcomes, pattern, cutting, checked=False)


def _first_steps(design: Design, upto: str, before: bool) -> Design:
    uids = [step.uid for step in design.steps]
    if upto not in uids:
        raise DesignError(f"the design has no step {upto[:40]!r}; choose one of {', '.join(uids)}", "upto")
    return replace(design, steps=design.steps[: uids.index(upto) + (not before)])


def _finished(pattern: Pattern, options: Finish, layers: bool = True) -> tuple[CuttingPattern, tuple[Finding, ...]]:
    """The pieces ready to cut; where the options do not fit a pattern that lacks steps, with the usual ones."""
    try:
        return finish(pattern, options, layers), ()
    except PanelwrightError as error:
        return finish(pattern, Finish(unit=options.unit), layers), (_unfinished(error),)


def _unfinished(error: PanelwrightError) -> Finding:
    reason = str(error)
    return Finding(
        code="finish-not-possible",
        severity="error",
        subject="finish",
        value=0.0,
        limit=0.0,
        message=f"The chosen allowances and layers cannot be made: {reason.rstrip('.')}.",
        remedy="Put the steps right that could not be carried out, or choose other allowances and layers; plain "
        "seam allowances are drawn until then.",
        unit="",
    )
