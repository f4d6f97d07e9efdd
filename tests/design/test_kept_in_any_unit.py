"""What a step makes is kept by what went into it, whatever unit is read: so no length in words may be part of it."""

from collections.abc import Iterator

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

SURGERY = 12
ZIP = {"kind": "closure", "uid": "back", "place": "centre-back", "type": "zip"}
AT_WAIST = {**HEM, "centre": {"level": "waist"}, "side": {"level": "waist"}}
SKIRTS = ("circle-skirt", "gored-skirt", "straight-skirt")


def designs() -> Iterator[tuple[str, Pattern, tuple[Step, ...]]]:
    """Name, block and steps: the demo's, dresses, and panel surgery at random."""
    for ref in REFS:
        garment = demo_garment(ref)
        yield ref, garment.block, garment.design.steps
    for kind in SKIRTS:
        skirt = {"kind": "skirt", "uid": "skirt", "line": "hem/line", "type": kind, "ease_cm": 1}
        yield kind, plain_block(), steps_from_json([TOP, AT_WAIST, ZIP, skirt])
    chance = SurgeryChance(8)
    for number in range(SURGERY):
        yield f"surgery {number}", plain_block(), steps_from_json(chance.design()["steps"])


@pytest.mark.parametrize(("block", "steps"), [each[1:] for each in designs()], ids=[each[0] for each in designs()])
def test_a_pattern_is_the_same_whatever_unit_its_maker_reads(block: Pattern, steps: tuple[Step, ...]) -> None:
    made = {}
    for unit in (Unit.CM, Unit.INCH):
        with worded_in(unit):
            made[unit] = replay(Design("d-1", "D", steps), block, ReplayMemo())
    cm, inches = made[Unit.CM], made[Unit.INCH]
    assert cm.pattern == inches.pattern
    assert [(one.step, one.state) for one in cm.outcomes] == [(one.step, one.state) for one in inches.outcomes]
