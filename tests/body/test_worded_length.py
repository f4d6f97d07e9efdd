"""Lengths in sentences: what is told in inches lies within half a sixteenth, and limits can be typed as they stand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelwright.body.units import Unit, parse_length
from panelwright.body.worded_length import given_words, least_words, length_words, range_words, worded_in, words_unit

INCH = 25.4  # mm, exactly (the international inch)
LENGTHS = st.floats(1.0, 3000.0)


def test_centimetres_are_told_unless_somebody_asks_otherwise() -> None:
    assert words_unit() is Unit.CM
    assert (length_words(43.2), length_words(2.46, 2), given_words(8.0)) == ("4.3 cm", "0.25 cm", "0.8 cm")
    assert (range_words(8.0, 120.0), least_words(15.0), least_words(230.23)) == ("0.8 to 12 cm", "1.5 cm", "23.1 cm")
    with worded_in(Unit.INCH):
        assert length_words(2.0 * INCH) == "2 in"
        with worded_in(Unit.CM):
            assert length_words(2.0 * INCH) == "5.1 cm"
        assert words_unit() is Unit.INCH
    assert words_unit() is Unit.CM


@pytest.mark.parametrize(
    ("mm", "words"),
    [(0.0, "0 in"), (0.3, "less than 1/16 in"), (INCH / 2, "1/2 in"), (1.6875 * INCH, "1 11/16 in"), (-INCH, "-1 in")],
)
def test_inches_are_told_in_sixteenths_reduced(mm: float, words: str) -> None:
    with worded_in(Unit.INCH):
        assert length_words(mm) == words


@given(LENGTHS)
def test_what_is_told_in_inches_reads_back_within_half_a_sixteenth(mm: float) -> None:
    with worded_in(Unit.INCH):
        assert parse_length(length_words(mm)) == pytest.approx(mm, abs=INCH / 32 + 1e-6)


@given(LENGTHS, LENGTHS)
def test_limits_told_in_inches_can_be_typed(one: float, other: float) -> None:
    least, most = sorted((one, other))
    with worded_in(Unit.INCH):
        low, high = range_words(least, most).removesuffix(" in").split(" to ")
        assert least - 1e-5 <= parse_length(low, Unit.INCH) <= least + INCH / 16
        assert most - INCH / 16 <= parse_length(high, Unit.INCH) <= most + 1e-5
        assert parse_length(least_words(least)) >= least - 1e-5


def test_what_is_no_number_is_told_all_the_same() -> None:
    with worded_in(Unit.INCH):
        assert length_words(float("inf")) == "inf in"
