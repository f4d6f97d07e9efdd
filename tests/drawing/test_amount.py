"""Amounts in words. An inch is 25.4 mm (ISO 80000-3); eighths are the nearest."""

import pytest

from panelwright.body.units import Unit
from panelwright.drawing.amount import amount, signed, span, value_and_limit
from panelwright.finding import Finding


@pytest.mark.parametrize(
    ("length", "unit", "plain", "with_sign"),
    [
        (885.0, Unit.CM, "88.5 cm", "+88.5 cm"),
        (-10.0, Unit.CM, "−1.0 cm", "−1.0 cm"),
        (0.0, Unit.CM, "0.0 cm", "0.0 cm"),
        (0.3, Unit.CM, "0.0 cm", "0.0 cm"),
        (-0.3, Unit.CM, "0.0 cm", "0.0 cm"),
        (12.7, Unit.INCH, "1/2 in", "+1/2 in"),
        (-12.7, Unit.INCH, "−1/2 in", "−1/2 in"),
        (-1.0, Unit.INCH, "0 in", "0 in"),
        (1.0, Unit.INCH, "0 in", "0 in"),
        (-4.0, Unit.MM, "−4 mm", "−4 mm"),
    ],
)
def test_lengths_are_written_with_a_true_sign(length: float, unit: Unit, plain: str, with_sign: str) -> None:
    assert amount(length, unit) == plain
    assert signed(length, unit) == with_sign


def test_a_span_names_its_unit_once() -> None:
    assert span(10.0, 20.0, Unit.CM) == "1.0 to 2.0 cm"
    assert span(12.7, 25.4, Unit.INCH) == "1/2 to 1 in"


@pytest.mark.parametrize(
    ("value", "limit", "of", "unit", "words"),
    [
        (36.0, 40.0, "mm", Unit.CM, ("3.6 cm", "4.0 cm")),
        (38.1, 50.8, "mm", Unit.INCH, ("1 1/2 in", "2 in")),
        (0.4, 0.05, "mm", Unit.CM, ("0.4 mm", "0.05 mm")),
        (60.0, 3.0, "mm", Unit.INCH, ("60 mm", "3 mm")),
        (-12.0, 0.0, "mm", Unit.CM, ("−1.2 cm", "0.0 cm")),
        (7.25, 6.0, "%", Unit.CM, ("7.25 %", "6 %")),
        (-1.5, 1.0, "°", Unit.CM, ("−1.5 °", "1 °")),
        (0.5, 0.0, "°", Unit.CM, ("0.5 °", "0 °")),
        (13.0, 0.0, "measurements", Unit.CM, ("13 measurements", "none")),
        (0.0, 1.0, "bones", Unit.CM, ("0 bones", "1 bone")),
        (1.0, 2.0, "inches", Unit.CM, ("1 inch", "2 inches")),
    ],
)
def test_a_number_and_its_limit_share_a_unit(
    value: float, limit: float, of: str, unit: Unit, words: tuple[str, str]
) -> None:
    finding = Finding("c", "warning", "s", value, limit, "m", "r", unit=of)
    assert value_and_limit(finding, unit) == words
