import doctest
import json
import math
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelwright.body import units
from panelwright.body.units import Unit, format_angle, format_length, parse_angle, parse_length
from panelwright.errors import InputError

# The page reads the same list: board/src/state/measuring.test.ts.
WRITTEN = json.loads(Path(__file__).with_name("written-amounts.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize(("text", "unit", "length"), WRITTEN["lengths"])
def test_a_length_is_read_as_the_page_reads_it(text: str, unit: str, length: float | None) -> None:
    assert read(lambda: parse_length(text, Unit(unit))) == pytest.approx(length, abs=1e-9)


@pytest.mark.parametrize(("text", "angle"), WRITTEN["angles"])
def test_an_angle_is_read_as_the_page_reads_it(text: str, angle: float | None) -> None:
    assert read(lambda: math.degrees(parse_angle(text))) == pytest.approx(angle, abs=1e-9)


def read(parse: Callable[[], float]) -> float | None:
    try:
        return parse()
    except InputError:
        return None


def test_the_examples_run() -> None:
    assert doctest.testmod(units).failed == 0


# 1 in = 25.4 mm exactly: the international inch of 1959.
@pytest.mark.parametrize(
    ("text", "length"),
    [
        ("88", 880),
        ("88.5", 885),
        ("88,5", 885),
        ("  88.5 cm ", 885),
        ("88.5cm", 885),
        ("885 mm", 885),
        ("885 MM", 885),
        ("1,25 mm", 1.25),
        ("34 3/4 in", 882.65),
        ("34-3/4 in", 882.65),
        ("34 3/4 inches", 882.65),
        ('34¾"', 882.65),
        ("34 ¾ ″", 882.65),
        ("34¾”", 882.65),
        ("34.75 inch", 882.65),
        ("3/8 in", 9.525),
        ("⅝ in", 15.875),
        ("15/16 in", 23.8125),
        ("88 1/2", 885),
        ("0 cm", 0),
    ],
)
def test_reads_lengths_as_people_write_them(text: str, length: float) -> None:
    assert parse_length(text) == pytest.approx(length, abs=1e-12)


@pytest.mark.parametrize("unit", Unit)
def test_a_number_alone_is_in_the_given_unit(unit: Unit) -> None:
    assert parse_length("30", unit) == 30 * {"mm": 1, "cm": 10, "in": 25.4}[unit]
    assert parse_length("30 mm", unit) == 30


@pytest.mark.parametrize(
    "text",
    ["", " ", "cm", "-88", "+88", "−88", "1e3", "1,000", "88.5.5", "88 3/5 in", "34/4", "34 5/4 in", "3/0", "0x58",
     "nan", "inf", "Infinity", "88 m", "88 feet", "88 cm cm", "34.5 3/4 in", "88\n", "8 8", "\u0668\u0668", "\uff11",
     "9" * 41, "1" * 9, "88\x00", "\ud800"],
)  # fmt: skip
def test_refuses_what_is_no_length_in_one_printable_sentence(text: str) -> None:
    with pytest.raises(InputError, match="is not a length: write it like") as caught:
        parse_length(text)
    message = str(caught.value)
    message.encode("utf-8")
    assert "\n" not in message
    assert len(message) < 150


@pytest.mark.parametrize(("text", "degrees"), [("22.6", 22.6), ("22,6°", 22.6), ("23 deg", 23), ("23 degrees", 23)])
def test_reads_angles(text: str, degrees: float) -> None:
    assert parse_angle(text) == pytest.approx(math.radians(degrees), abs=1e-12)


@pytest.mark.parametrize("text", ["", "-5", "23 rad", "1/2", "23\n", "x" * 60])
def test_refuses_what_is_no_angle(text: str) -> None:
    with pytest.raises(InputError, match="is not an angle in degrees"):
        parse_angle(text)


@pytest.mark.parametrize(
    ("length", "unit", "text"),
    [
        (885, Unit.CM, "88.5 cm"),
        (880, Unit.CM, "88.0 cm"),
        (885, Unit.MM, "885 mm"),
        (882.65, Unit.MM, "882.65 mm"),
        (882.65, Unit.INCH, "34 3/4 in"),
        (863.6, Unit.INCH, "34 in"),
        (9.525, Unit.INCH, "3/8 in"),
        (0.5, Unit.INCH, "0 in"),
        (-0.5, Unit.INCH, "0 in"),
        (-9.525, Unit.INCH, "-3/8 in"),
        (25.3, Unit.INCH, "1 in"),
    ],
)
def test_writes_lengths_for_people(length: float, unit: Unit, text: str) -> None:
    assert format_length(length, unit) == text


def test_writes_angles_in_degrees() -> None:
    assert format_angle(math.radians(22.64)) == "22.6°"


@given(st.floats(0, 3000), st.sampled_from(Unit))
def test_what_is_written_reads_back_to_half_a_step(length: float, unit: Unit) -> None:
    half_step = {Unit.MM: 0.005, Unit.CM: 0.5, Unit.INCH: 25.4 / 16}[unit]
    assert parse_length(format_length(length, unit), unit) == pytest.approx(length, abs=half_step + 1e-9)


@given(st.text(max_size=60))
def test_any_text_gives_a_length_or_an_input_error(text: str) -> None:
    with suppress(InputError):
        assert 0 <= parse_length(text) < 1e8
