"""Hostile image files are read or refused in one sentence, in bounded time and memory; nothing else comes of them."""

import pytest
from intake.hostile_photo import BOMBS, hostile
from intake.hostile_worker import Outcome, read_all, refusals

FAST = 80
SOAK = 10_000
PART = 500


def refuse_faults(outcomes: list[Outcome]) -> None:
    for refused in refusals(outcomes):
        assert refused.said.count(". ") == 0, refused


def test_equal_seeds_give_equal_files_and_every_maker_has_its_turn() -> None:
    assert hostile(7) == hostile(7)
    made = {hostile(seed)[0].split("-")[0] for seed in range(FAST)}
    assert {"mutated", "made_png", "made_jpeg", "made_webp", "disguised"} <= made


def test_hostile_images() -> None:
    outcomes = read_all(range(FAST), "photo")
    refuse_faults(outcomes)
    said = " ".join(outcome.said for outcome in outcomes)
    assert "damaged" in said
    assert "megapixels" in said
    assert "pixels in this photo" in said  # or nothing would be known of what lies behind the file's own reader


def test_thousands_of_squares_are_not_compared_with_each_other() -> None:
    outcomes = read_all([1220], "photo")
    assert outcomes[0].name == "chessboard-1220"
    refuse_faults(outcomes)


@pytest.mark.soak
@pytest.mark.parametrize("part", range(SOAK // PART))
def test_ten_thousand_hostile_images(part: int) -> None:
    outcomes = read_all(range(1000 + part * PART, 1000 + (part + 1) * PART), "photo")
    refuse_faults(outcomes)
    assert len({outcome.name.split("-")[0] for outcome in outcomes} & {bomb.__name__ for bomb in BOMBS}) >= 2
