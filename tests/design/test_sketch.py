"""A design replayed quickly while a step is held comes to what the whole replay comes to."""

from dataclasses import replace

import numpy as np
import pytest
from design.demo_garments import REFS, DemoGarment, demo_garment

from panelwright.design.bones import Bones
from panelwright.design.handle import dragged, handles
from panelwright.design.replay import Replay, ReplayMemo, replay
from panelwright.design.sketch import sketch
from panelwright.design.step import Step
from panelwright.errors import DesignError
from panelwright.pattern.pattern import Pattern

DOWN = 6.0  # mm that a handle is dragged
CASES = [(ref, step.uid) for ref in REFS for step in demo_garment(ref).design.steps]


def changed_by_hand(garment: DemoGarment, step: Step) -> list[Step]:
    """The step after each of its handles was dragged down a little, where it can be."""
    found = []
    before = garment.before(step)
    for handle in handles(step, garment.pattern, garment.block, before):
        to = handle.at[0], handle.at[1] - DOWN
        try:
            found.append(dragged(step, handle.name, handle.piece, to, garment.pattern, garment.block, before=before))
        except DesignError:
            continue
    return [after for after in found if after != step]


def drawn(pattern: Pattern) -> dict[str, tuple[np.ndarray, float]]:
    """Edge id -> (points along it, length of its piece's outline)."""
    shares = np.linspace(0.0, 1.0, 9)
    return {
        edge.id: (
            np.array([edge.curve.point(share * edge.curve.length) for share in shares]),
            piece.outline.length,
        )
        for piece in pattern.pieces
        for edge in piece.edges
    }


@pytest.mark.parametrize(("ref", "uid"), CASES)
def test_every_edge_is_where_the_whole_replay_puts_it(ref: str, uid: str) -> None:
    garment = demo_garment(ref)
    whole_before = replay(garment.design, garment.block)
    for after in changed_by_hand(garment, garment.step(uid)):
        steps = tuple(after if step.uid == uid else step for step in garment.design.steps)
        design = replace(garment.design, steps=steps)
        whole, quick = garment.with_step(after), sketch(design, garment.block, uid, whole_before)
        assert [(each.step, each.state) for each in quick.outcomes] == [
            (each.step, each.state) for each in whole.outcomes
        ]
        wanted, found = drawn(whole.pattern), drawn(quick.pattern)
        assert set(found) == set(wanted)
        for edge, (points, around) in wanted.items():
            assert np.allclose(found[edge][0], points, atol=1e-6), edge
            assert found[edge][1] == pytest.approx(around, abs=1e-6)


def test_what_moves_no_edge_stays_as_it_was_drawn_and_is_not_carried_out() -> None:
    garment = demo_garment("lantern-01")
    bones = next(step for step in garment.design.steps if isinstance(step, Bones))
    [after, *_] = changed_by_hand(garment, garment.step("neckline"))
    steps = tuple(after if step.uid == after.uid else step for step in garment.design.steps)
    before, memo = replay(garment.design, garment.block), ReplayMemo()
    quick = sketch(replace(garment.design, steps=steps), garment.block, after.uid, before, memo)
    assert memo.runs == len(steps) - 1
    assert channels(quick, bones) == channels(before, bones) != set()


def test_a_hem_behind_the_held_top_edge_is_cut_once_for_a_whole_drag() -> None:
    garment = demo_garment("lantern-01")
    before, memo = replay(garment.design, garment.block), ReplayMemo()
    top = garment.step("neckline")
    [handle, *_] = handles(top, garment.pattern, garment.block)
    for move in range(1, 6):
        to = handle.at[0], handle.at[1] - move * DOWN
        after = dragged(top, handle.name, handle.piece, to, garment.pattern, garment.block)
        steps = tuple(after if step.uid == after.uid else step for step in garment.design.steps)
        sketch(replace(garment.design, steps=steps), garment.block, after.uid, before, memo)
    assert memo.runs == 1 + 5 * 2  # the hem; then top edge and closure at each move


def channels(made: Replay, bones: Bones) -> set[str]:
    return {line.id for piece in made.pattern.pieces for line in piece.inside if line.id.startswith(f"{bones.uid}/")}
