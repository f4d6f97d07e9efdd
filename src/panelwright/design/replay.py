"""A design, and its replay on a wearer's block."""

from collections import OrderedDict
from dataclasses import dataclass, replace
from threading import Lock
from typing import Literal

from panelwright.body.units import Unit
from panelwright.body.worded_length import words_unit
from panelwright.design.step import Settling, Step, recorded_kind
from panelwright.design.without_meaning import refuse_without_meaning
from panelwright.errors import DesignError
from panelwright.pattern.pattern import Pattern, StepRecord
from panelwright.pattern.step_name import named_step

RESULTS_KEPT = 128


@dataclass(frozen=True)
class Design:
    """Steps in the order in which they are carried out.

    Attributes:
        ref: neutral reference, written into the pattern.
        title: what the maker calls the garment.
        steps: each with its own uid.
        off: uids of those that are kept and not carried out.

    Raises:
        DesignError: if two steps share a uid.
    """

    ref: str
    title: str
    steps: tuple[Step, ...] = ()
    off: frozenset[str] = frozenset()

    def __post_init__(self) -> None:
        uids = [step.uid for step in self.steps]
        for uid in uids:
            if uids.count(uid) > 1:
                raise DesignError(f"two steps of the design are called {uid}; give one of them another name", "steps")


@dataclass(frozen=True)
class Outcome:
    """What became of one step.

    Attributes:
        step: its uid.
        state: `done`, `off` (switched off), `failed` (it could not be carried out on this block) or `waiting` (a step
            it needs failed, is off or is not there before it).
        reason: one sentence, empty when done or off.
        cuts_off: of a step that leaves others no room: which, and what to do; else empty.
        field: of such a step, the field at fault.
    """

    step: str
    state: Literal["done", "off", "failed", "waiting"]
    reason: str = ""
    cuts_off: str = ""
    field: str = ""

    @property
    def wanting(self) -> bool:
        """Whether the garment lacks what the step was to do."""
        return self.state not in ("done", "off")


@dataclass(frozen=True)
class Replay:
    """What a design makes of a block.

    Attributes:
        pattern: the block after every step that could be carried out.
        outcomes: one for each step, in order.
    """

    pattern: Pattern
    outcomes: tuple[Outcome, ...]

    @property
    def complete(self) -> bool:
        """Whether every step was carried out that is not switched off."""
        return not any(outcome.wanting for outcome in self.outcomes)


class ReplayMemo:
    """The last results of steps, by the content of all that went in: step, pattern before it, block; of a step that
    failed the sentence, by the unit of its words too.

    Steps are pure functions, so a result from here is the result; nothing needs to be marked out of date.

    Attributes:
        runs: how many steps were really carried out, failures included.
    """

    def __init__(self, kept: int = RESULTS_KEPT) -> None:
        self.runs = 0
        self._kept = kept
        self._results: OrderedDict[tuple[Step, Pattern, Pattern, Unit | None], Pattern | str] = OrderedDict()
        self._lock = Lock()

    def run(self, step: Step, pattern: Pattern, block: Pattern) -> Pattern:
        """The pattern after a step.

        Raises:
            DesignError: if the step cannot be carried out.
        """
        result = self._known(step, pattern, block)
        if result is None:
            result = self._carry_out(step, pattern, block)
        if isinstance(result, str):
            raise DesignError(result, f"step {step.uid}")
        return result

    def _known(self, step: Step, pattern: Pattern, block: Pattern) -> Pattern | str | None:
        """A result is one in any unit; why there is none was worded in one of them."""
        with self._lock:
            for key in ((step, pattern, block, None), (step, pattern, block, words_unit())):
                if key in self._results:
                    self._results.move_to_end(key)
                    return self._results[key]
        return None

    def _carry_out(self, step: Step, pattern: Pattern, block: Pattern) -> Pattern | str:
        result: Pattern | str
        try:
            refuse_without_meaning(step, block)
            result = step.apply(pattern, block)
        except DesignError as error:
            result = str(error)
        with self._lock:
            self.runs += 1
            unit = words_unit() if isinstance(result, str) else None
            self._results[step, pattern, block, unit] = result
            while len(self._results) > self._kept:
                self._results.popitem(last=False)
        return result


_shared_memo = ReplayMemo()


def replay(design: Design, block: Pattern, memo: ReplayMemo | None = None) -> Replay:
    """The block after a design's steps.

    A step that cannot be carried out says why and changes nothing; steps that use its results wait; the others are
    carried out. What depends on steps before and after it alike is settled at the end.

    Args:
        design: the design.
        block: the unmodified block.
        memo: where results of equal steps on equal patterns are looked up; one shared by the whole program when left
            out.
    """
    results = _shared_memo if memo is None else memo
    pattern = replace(block, design=design.ref, arm=None)
    done: set[str] = set()
    outcomes = []
    names = [(step.uid, step.label) for step in design.steps]
    for step in design.steps:
        if step.uid in design.off:
            outcomes.append(Outcome(step.uid, "off"))
            continue
        missing = sorted(step.uses - done)
        if missing:
            reason = (
                f"{step.label} needs what {named_step(names, missing[0])} makes, which was not carried out before it"
            )
            outcomes.append(Outcome(step.uid, "waiting", reason))
            continue
        try:
            changed = results.run(step, pattern, block)
        except DesignError as error:
            outcomes.append(Outcome(step.uid, "failed", str(error)))
            continue
        pattern = replace(changed, steps=(*changed.steps, StepRecord(step.uid, recorded_kind(step), step.label)))
        done.add(step.uid)
        outcomes.append(Outcome(step.uid, "done"))
    for step in design.steps:
        if step.uid in done and isinstance(step, Settling):
            pattern = step.settled(pattern, block)
    return Replay(pattern, tuple(outcomes))
