"""Hostile drawings are read or refused in one sentence, in bounded time and memory; nothing else ever comes of them."""

import pytest
from intake.hostile_drawing import BOMBS, hostile
from intake.hostile_worker import Outcome, read_all, refusals

FAST = 150
SOAK = 10_000
PART = 500


def refuse_faults(outcomes: list[Outcome]) -> None:
    for refused in refusals(outcomes):
        assert refused.said.startswith('"'), refused


def test_equal_seeds_give_equal_files_and_every_maker_has_its_turn() -> None:
    assert hostile(7) == hostile(7)
    made = {hostile(seed)[0].split("-")[0] for seed in range(FAST)}
    assert {"mutated", "made_dxf", "made_svg"} <= made
    assert len(made & {bomb.__name__ for bomb in BOMBS}) >= 3


def test_hostile_files() -> None:
    outcomes = read_all(range(FAST))
    refuse_faults(outcomes)
    kinds = [outcome.what for outcome in outcomes]
    assert kinds.count("read") >= 5  # or nothing would be known of what lies behind the reader
    assert kinds.count("refused") >= 50


@pytest.mark.soak
@pytest.mark.parametrize("part", range(SOAK // PART))
def test_ten_thousand_hostile_files(part: int) -> None:
    refuse_faults(read_all(range(1000 + part * PART, 1000 + (part + 1) * PART)))
