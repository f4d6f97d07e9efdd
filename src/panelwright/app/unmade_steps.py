"""What checking has to say of a design whose steps were not all carried out: first why, and nothing that only follows.

A step that fails leaves an edge of the bare block where it was to draw one; what is wrong with that edge is none of
the maker's doing, and goes with the step.
"""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from math import dist
from typing import Final

from panelwright.design.bodice_top import BodiceTop
from panelwright.design.hem import Hem
from panelwright.design.replay import Design, Outcome
from panelwright.design.step import Step
from panelwright.design.top_edge import TopEdge
from panelwright.file_words import in_file
from panelwright.finding import Finding
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.line import HEM, TOP
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.step_name import named_step

# Kinds of step that hold a bodice up.
HOLDING: Final = ("bones", "strap", "bodice-top")


class UnmadeSteps:
    """The steps of a design that are still to be carried out, and those that are switched off."""

    def __init__(self, design: Design, outcomes: tuple[Outcome, ...]) -> None:
        """Of a design, with what became of those steps that were tried; the others are still to come."""
        settled = {outcome.step for outcome in outcomes if not outcome.wanting}
        self._names = [(step.uid, step.label) for step in design.steps]
        self._steps = {step.uid: step for step in design.steps}
        self._outcomes = outcomes
        self._off = design.off
        self._wanting = self._steps.keys() - settled - design.off

    def findings(self) -> tuple[Finding, ...]:
        """`step-not-possible`, an error for each step that stands in the way; those that wait for one are not told."""
        return tuple(self._told(outcome) for outcome in self._outcomes if self._is_cause(outcome))

    def judged(self, findings: Iterable[Finding], pattern: Pattern) -> Iterator[Finding]:
        """The findings of checking the pattern, without those about an edge that such a step was to draw."""
        lines = {line for uid in self._wanting for line in _replaced(self._steps[uid])}
        for finding in findings:
            if not _ends_on(finding, lines, pattern):
                yield self._waiting(finding) if finding.code == "unboned-strapless" else finding

    def _is_cause(self, outcome: Outcome) -> bool:
        """Whether it does not only wait for a step that is told of itself."""
        if outcome.state != "waiting":
            return outcome.state == "failed" or bool(outcome.cuts_off)
        earlier = self._outcomes[: self._outcomes.index(outcome)]
        missing = self._steps[outcome.step].uses - {each.step for each in earlier if each.state == "done"}
        return bool(missing) and not missing & self._wanting

    def _told(self, outcome: Outcome) -> Finding:
        reason = outcome.reason or outcome.cuts_off
        name = named_step(self._names, outcome.step)
        what, _, way = _without_kind(reason, self._steps[outcome.step]).rstrip(".").partition("; ")
        field = in_file(outcome.field) if outcome.field else ""
        verb = "cannot be carried out" if outcome.wanting else "stands in the way of other steps"
        remedy = f"In the step {name} {way}{field}" if way else f"Change the step {name}{field} or switch it off"
        return Finding(
            "step-not-possible", "error", outcome.step, 0, 1, f"{name} {verb}: {what}.", f"{remedy}.", unit="steps done"
        )

    def _waiting(self, finding: Finding) -> Finding:
        """With the step of the design that is to hold the bodice up, instead of one more."""
        for uid, step in self._steps.items():
            name = named_step(self._names, uid)
            if step.kind in HOLDING and uid in self._wanting:
                return replace(finding, remedy=f"The step {name} is to hold it, and is not carried out yet.")
            if step.kind in HOLDING and uid in self._off:
                return replace(finding, remedy=f"The step {name} is to hold it and is switched off: switch it on.")
        return finding


def _replaced(step: Step) -> tuple[str, ...]:
    """Lines of the bare block that a step draws an edge in place of."""
    if isinstance(step, TopEdge | BodiceTop):
        return (TOP,)
    return (HEM,) if isinstance(step, Hem) else ()


def _ends_on(finding: Finding, lines: set[str], pattern: Pattern) -> bool:
    """Whether a finding's place is an end of an edge on one of the lines."""
    if finding.piece is None or finding.at is None or not lines or not pattern.has_piece(finding.piece):
        return False
    at = finding.at
    return any(
        dist(at, end) <= TOLERANCES.seam
        for edge in pattern.piece(finding.piece).edges
        if edge.line in lines
        for end in (edge.curve.start, edge.curve.end)
    )


def _without_kind(reason: str, step: Step) -> str:
    """`top edge: it would lie …` without the kind, which the step's name says."""
    kind, _, rest = reason.partition(": ")
    return rest if rest and step.label.lower().startswith(kind.lower()) else reason
