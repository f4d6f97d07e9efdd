"""A length in a field in centimetres: numbers pass, texts name their unit."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelwright.body.length_field import centimetres
from panelwright.errors import InputError


@given(st.integers(0, 99), st.integers(1, 15), st.sampled_from(["", "-", "−", "+"]))
def test_inches_are_exact(whole: int, sixteenths: int, sign: str) -> None:
    """An inch is 2.54 cm exactly (ISO 80000-3)."""
    part = Fraction(sixteenths, 16)
    size = float((whole + part) * Fraction(254, 100))
    said = centimetres(f"{sign}{whole} {part} in")
    assert said == pytest.approx(-size if sign in ("-", "−") else size, abs=1e-9)


@pytest.mark.parametrize("value", [1, 1.5, -0.5, True, None, [1]])
def test_what_is_no_text_is_left_to_the_record(value: object) -> None:
    assert centimetres(value) is value


@pytest.mark.parametrize("text", ["1", "5/8", "-2", "1,5"])
def test_a_text_names_its_unit(text: str) -> None:
    with pytest.raises(InputError, match="names no unit"):
        centimetres(text)


@pytest.mark.parametrize("text", ["", "-", "--1 cm", "- 1 in\n", "wide", "1e3 cm", "1,000 mm", "5/7 in", "9" * 50])
def test_what_is_no_length_is_refused(text: str) -> None:
    with pytest.raises(InputError, match="is not a length"):
        centimetres(text)
