"""What a step makes is kept by what went into it, whatever unit is read: so no length in words may be part of it."""

from collections.abc import Callable
from typing import Any

import pytest
from bad_input.case import HEM, TOP
from design.demo_garments import REFS, demo_garment
from plain_block import plain_block
from random_surgery import SurgeryChance

from panelwright.body.units import Unit
from panelwright.body.worded_length import worded_in
from panelwright.design.replay import Design, ReplayMemo, replay
from panelwright.design.step import Step
from panelwright.design.step_file import steps_from_json
from panelwright.pattern.pattern import Pattern

Made = tuple[Pattern, tuple[Step, ...]]
ZIP = {"kind": "closure", "uid": "back", "place": "centre-back", "type": "zip"}
AT_WAIST = {**HEM, "centre": {"level": "waist"}, "side": {"level": "waist"}}
SKIRTS = ("circle-skirt", "gored-skirt", "straight-skirt")


def demo(ref: str) -> Made:
    garment = demo_garment(ref)
    return garment.block, garment.design.steps


def dress(skirt: str) -> Made:
    step = {"kind": "skirt", "uid": "skirt", "line": "hem/line", "type": skirt, "ease_cm": 1}
    return plain_block(), steps_from_json([TOP, AT_WAIST, ZIP, step])


def surgery(seed: int) -> Made:
    return plain_block(), steps_from_json(SurgeryChance(seed).design()["steps"])


CASES = [(demo, ref) for ref in REFS] + [(dress, kind) for kind in SKIRTS] + [(surgery, seed) for seed in range(12)]


@pytest.mark.parametrize(("maker", "what"), CASES)
def test_a_pattern_is_the_same_whatever_unit_its_maker_reads(maker: Callable[[Any], Made], what: Any) -> None:
    block, steps = maker(what)
    made = {}
    for unit in (Unit.CM, Unit.INCH):
        with worded_in(unit):
            made[unit] = replay(Design("d-1", "D", steps), block, ReplayMemo())
    cm, inches = made[Unit.CM], made[Unit.INCH]
    assert cm.pattern == inches.pattern
    assert [(one.step, one.state) for one in cm.outcomes] == [(one.step, one.state) for one in inches.outcomes]
