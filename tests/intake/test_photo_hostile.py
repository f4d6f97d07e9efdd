"""Hostile image files are read or refused in one sentence, in bounded time and memory; nothing else comes of them."""

from collections import Counter

import pytest
from intake.hostile_photo import BOMBS, hostile, maker_name
from intake.hostile_worker import Outcome, read_all, refusals

FAST = 80
SEEDS = range(1000, 11_000)
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


@pytest.mark.parametrize("seed", [3939, 5874])
def test_squares_that_were_torn_apart_are_refused(seed: int) -> None:
    (torn,) = read_all([seed], "photo")
    assert torn.name == f"mutated-{seed}"
    refuse_faults([torn])
    assert "from where they were printed" in torn.said


def test_every_picture_that_asks_for_much_is_among_the_ten_thousand() -> None:
    made = Counter(maker_name(seed) for seed in SEEDS)
    assert min(made[bomb.__name__] for bomb in BOMBS) >= 8


@pytest.mark.soak
@pytest.mark.parametrize("part", range(len(SEEDS) // PART))
def test_ten_thousand_hostile_images(part: int) -> None:
    seeds = SEEDS[part * PART : (part + 1) * PART]
    outcomes = read_all(seeds, "photo")
    refuse_faults(outcomes)
    assert {outcome.name for outcome in outcomes} == {f"{maker_name(seed)}-{seed}" for seed in seeds}
