from dataclasses import dataclass, replace
from typing import ClassVar

import pytest
from plain_block import plain_block

from panelwright.design.hem import Hem
from panelwright.design.position import Height
from panelwright.design.replay import Design, Outcome, ReplayMemo, replay
from panelwright.design.top_edge import TopEdge
from panelwright.errors import DesignError
from panelwright.pattern.pattern import Pattern, StepRecord

BLOCK = plain_block()
TOP = TopEdge("neck", "scooped", Height("bust"), Height("upper-bust", -5.0))
HEM = Hem("hem", "straight", Height("top-hip"), Height("top-hip"))
TOO_HIGH = TopEdge("neck", "straight", Height("upper-bust", 20.0), Height("upper-bust", 20.0))
TOO_HIGH_TOO = replace(TOO_HIGH, uid="second")


@dataclass(frozen=True)
class Renamed:
    """A step for tests that needs the neck's line and changes a label."""

    kind: ClassVar[str] = "renamed"
    needs_shoulder: ClassVar[bool] = False

    uid: str
    label: str = "Renamed"
    slots: tuple[str, ...] = ()
    uses: frozenset[str] = frozenset({"neck"})

    def apply(self, pattern: Pattern, block: Pattern) -> Pattern:  # noqa: ARG002  # the protocol's signature
        return pattern.with_pieces(replace(pattern.pieces[0], label=self.label))


def test_steps_are_carried_out_in_order_and_recorded() -> None:
    made = replay(Design("lantern-1", "Lantern bodice", (TOP, HEM)), BLOCK, ReplayMemo())
    assert made.complete
    assert made.outcomes == (Outcome("neck", "done"), Outcome("hem", "done"))
    assert made.pattern.design == "lantern-1"
    assert made.pattern.steps == (
        StepRecord("neck", "top-edge", "Top edge: scooped"),
        StepRecord("hem", "hem", "Hem: straight"),
    )
    assert made.pattern.pieces == HEM.apply(TOP.apply(BLOCK, BLOCK), BLOCK).pieces


def test_a_failing_step_says_why_its_dependants_wait_and_the_rest_is_done() -> None:
    made = replay(Design("lantern-1", "Lantern bodice", (TOO_HIGH, Renamed("tie"), HEM)), BLOCK, ReplayMemo())
    states = [(outcome.step, outcome.state) for outcome in made.outcomes]
    assert states == [("neck", "failed"), ("tie", "waiting"), ("hem", "done")]
    assert made.outcomes[0].reason.startswith("top edge: at the centre front line it would lie 2.0 cm above")
    assert (
        made.outcomes[1].reason == "Renamed needs what “Top edge: straight” makes, which was not carried out before it"
    )
    assert not made.complete
    assert made.pattern.pieces == HEM.apply(BLOCK, BLOCK).pieces


def test_a_step_that_is_off_leaves_no_trace_and_its_dependants_wait() -> None:
    made = replay(Design("d-1", "t", (TOP, Renamed("tie"), HEM), off=frozenset({"neck"})), BLOCK, ReplayMemo())
    states = [(outcome.step, outcome.state) for outcome in made.outcomes]
    assert states == [("neck", "off"), ("tie", "waiting"), ("hem", "done")]
    assert (
        made.outcomes[1].reason == "Renamed needs what “Top edge: scooped” makes, which was not carried out before it"
    )
    assert made.pattern == replay(Design("d-1", "t", (HEM,)), BLOCK, ReplayMemo()).pattern
    assert not made.complete


def test_a_design_with_a_step_switched_off_can_be_complete() -> None:
    assert replay(Design("d-1", "t", (TOP, TOO_HIGH_TOO, HEM), frozenset({"second"})), BLOCK, ReplayMemo()).complete
    assert not replay(Design("d-1", "t", (TOP, TOO_HIGH_TOO, HEM)), BLOCK, ReplayMemo()).complete


def test_a_step_placed_before_what_it_needs_waits() -> None:
    made = replay(Design("d-1", "t", (Renamed("tie"), TOP)), BLOCK, ReplayMemo())
    assert [outcome.state for outcome in made.outcomes] == ["waiting", "done"]


def test_replay_from_memory_equals_a_fresh_one() -> None:
    memo, design = ReplayMemo(), Design("d-1", "t", (TOP, HEM))
    first = replay(design, BLOCK, memo)
    again = replay(design, plain_block(), memo)  # an equal block, made anew
    assert memo.runs == 2
    assert again == first == replay(design, BLOCK, ReplayMemo())


def test_editing_the_last_step_runs_only_that_one() -> None:
    memo = ReplayMemo()
    replay(Design("d-1", "t", (TOP, HEM)), BLOCK, memo)
    lower = Hem("hem", "straight", Height("top-hip", -5.0), Height("top-hip", -5.0))
    edited = replay(Design("d-1", "t", (TOP, lower)), BLOCK, memo)
    assert memo.runs == 3
    assert edited == replay(Design("d-1", "t", (TOP, lower)), BLOCK, ReplayMemo())


def test_editing_the_first_step_runs_both_and_failures_are_remembered_too() -> None:
    memo = ReplayMemo()
    replay(Design("d-1", "t", (TOP, HEM)), BLOCK, memo)
    for _ in range(2):
        replay(Design("d-1", "t", (TOO_HIGH, HEM)), BLOCK, memo)
    assert memo.runs == 4


def test_another_block_is_another_result() -> None:
    memo, design = ReplayMemo(), Design("d-1", "t", (TOP,))
    replay(design, BLOCK, memo)
    replay(design, replace(BLOCK, wearer="w-2"), memo)
    assert memo.runs == 2


def test_the_memory_is_bounded() -> None:
    memo, design = ReplayMemo(kept=1), Design("d-1", "t", (TOP, HEM))
    replay(design, BLOCK, memo)
    replay(design, BLOCK, memo)
    assert memo.runs == 4


def test_two_steps_of_one_name_are_refused() -> None:
    with pytest.raises(DesignError, match="two steps of the design are called neck"):
        Design("d-1", "t", (TOP, TOP))
