"""What is remembered by piece is what is reckoned anew, to the last digit, and the very same object where nothing
changed.
"""

import functools
import gc
import json
from dataclasses import replace

import pytest
from plausible_bodies import plausible_bodies
from random_surgery import SurgeryChance
from surgery.surgery_garment import BLOCK, edges

from panelwright.app.design_file import read_design
from panelwright.blocks.make_block import make_block
from panelwright.design.replay import Design, ReplayMemo, replay
from panelwright.design.step import Step
from panelwright.design.step_file import steps_from_json, steps_to_json
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.finish.finishing import finish
from panelwright.pattern.pattern import Pattern

FRONT = {"kind": "join", "uid": "front", "seam": "front-princess", "misfit": "dart"}
BACK = (
    {"kind": "split", "uid": "yoke", "way": "yoke", "pieces": ["SB"], "height": {"level": "underbust"}},
    {"kind": "spread", "uid": "full", "piece": "SB", "open": "hem/line", "closed": "yoke/line", "amount_cm": 5},
)


def forget_everything() -> None:
    """Empties every memory of functions that remember by content."""
    for each in gc.get_objects():
        if isinstance(each, functools._lru_cache_wrapper):
            each.cache_clear()


def changed(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """The steps with the first swing, spread or frill of them changed a little."""
    entries = steps_to_json(steps)
    for entry in entries:
        fields = entry["to"] if entry["kind"] == "swing" else entry
        for name in ("fraction", "amount_cm", "width_cm"):
            if name in fields and entry["kind"] in ("swing", "spread", "frill"):
                fields[name] = fields[name] * 1.01
                return steps_from_json(entries)
    return steps


def numbers(cutting: CuttingPattern) -> list[object]:
    """Everything drawn of a cutting pattern, exactly."""
    return [
        (piece, cut.cut_line.tobytes(), cut.spans, cut.notches, dict(cut.allowances), cut.text)
        for piece, cut in cutting.pieces
    ]


@pytest.mark.parametrize("seed", [3, 8])
def test_an_edit_with_a_memory_gives_what_one_without_gives(seed: int) -> None:
    chance, wearer = SurgeryChance(seed), list(plausible_bodies(seed + 1))[seed]
    block = make_block(wearer, read_design(json.dumps(chance.design())).block_options).pattern
    for _ in range(4):
        design = read_design(json.dumps(chance.design()))
        replay(design.design, block, ReplayMemo())
        edited = replace(design.design, steps=changed(design.steps))
        warm = replay(edited, block, ReplayMemo())
        cut = finish(warm.pattern, design.finish, False)
        forget_everything()
        cold = replay(edited, block, ReplayMemo())
        assert cold == warm
        assert numbers(finish(cold.pattern, design.finish, False)) == numbers(cut)


def swung(fraction: float, memo: ReplayMemo) -> Pattern:
    swing = {"kind": "swing", "uid": "to", "dart": "front/dart", "to": {"line": "side", "fraction": fraction}}
    steps = steps_from_json([*edges("waist"), FRONT, swing, *BACK])
    return replay(Design("d-1", "D", steps), BLOCK, memo).pattern


def test_pieces_that_an_edit_leaves_alone_are_the_same_objects() -> None:
    memo = ReplayMemo()
    one, other = swung(0.5, memo), swung(0.51, memo)
    same = {piece.id for piece in one.pieces if piece is other.piece(piece.id)}
    assert one.piece("CF") != other.piece("CF")
    assert same == {piece.id for piece in one.pieces} - {"CF"}
