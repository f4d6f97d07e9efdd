"""Lengths and angles as people write them: centimetres, millimetres, inches with fractions; degrees."""

import math
import re
from enum import StrEnum

from panelwright.errors import InputError
from panelwright.quotation import quoted

# Both patterns mean the same in Python and in JSON Schema: no named groups, no flags. A comma is a decimal
# sign; three digits after it could as well be thousands, so they are not taken.
_DECIMAL = r"([0-9]{1,6}(?:\.[0-9]{1,6}|,[0-9]{1,2})?)"
_FRACTION = r"(1/2|[1-3]/4|[1-7]/8|(?:[1-9]|1[0-5])/16|[½¼¾⅛⅜⅝⅞])"
_UNIT = r'([mM][mM]|[cC][mM]|[iI][nN](?:[cC][hH](?:[eE][sS])?)?|["″”])?'
LENGTH_PATTERN = rf"^ *(?:(?:([0-9]{{1,4}})(?: +|-|(?=[½¼¾⅛⅜⅝⅞])))?{_FRACTION}|{_DECIMAL}) *{_UNIT} *$"
ANGLE_PATTERN = rf"^ *{_DECIMAL} *(?:°|[dD][eE][gG](?:[rR][eE][eE][sS])?)? *$"
_SIGNS = {"½": 1 / 2, "¼": 1 / 4, "¾": 3 / 4, "⅛": 1 / 8, "⅜": 3 / 8, "⅝": 5 / 8, "⅞": 7 / 8}
_EIGHTHS = ("", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8")


class Unit(StrEnum):
    """A unit that people measure in."""

    MM = "mm"
    CM = "cm"
    INCH = "in"

    @property
    def millimetres(self) -> float:
        """Length of one of it, mm."""
        return {Unit.MM: 1.0, Unit.CM: 10.0, Unit.INCH: 25.4}[self]

    @property
    def words(self) -> str:
        """Its plural, written out."""
        return {Unit.MM: "millimetres", Unit.CM: "centimetres", Unit.INCH: "inches"}[self]


def parse_length(text: str, default: Unit = Unit.CM) -> float:
    """The length that a person wrote, mm.

    Args:
        text: `88`, `88.5 cm`, `88,5`, `885 mm`, `34 3/4 in` or `34¾"`; fractions are halves to sixteenths.
        default: the unit of a number without one.

    Raises:
        InputError: if it is not a length; signs, exponents and `1,000` are not taken.

    >>> parse_length("34 3/4 in")
    882.65
    """
    match = re.match(LENGTH_PATTERN, text) if len(text) <= 40 else None
    if match is None or text.endswith("\n"):
        raise InputError(f"{quoted(text)} is not a length: write it like 88.5 cm, 885 mm or 34 3/4 in", quoted(text))
    whole, fraction, decimal, sign = match.groups()
    amount = float(decimal.replace(",", ".")) if decimal else float(whole or 0) + _fraction(fraction)
    return amount * (_unit(sign) if sign else default).millimetres


def parse_angle(text: str) -> float:
    """The angle that a person wrote in degrees (`22.6`, `22,6°`, `23 deg`), radians.

    Raises:
        InputError: if it is not an angle.
    """
    match = re.match(ANGLE_PATTERN, text) if len(text) <= 40 else None
    if match is None or text.endswith("\n"):
        raise InputError(f"{quoted(text)} is not an angle in degrees: write it like 22.6", quoted(text))
    return math.radians(float(match[1].replace(",", ".")))


def format_length(length: float, unit: Unit = Unit.CM) -> str:
    """A length in mm as people read it: `88.5 cm`, `885 mm`, or inches to the nearest eighth, `34 7/8 in`."""
    if unit is Unit.MM:
        return f"{round(length, 2):g} mm"
    if unit is Unit.CM:
        return f"{length / 10:.1f} cm"
    eighths = round(abs(length) / 25.4 * 8)
    whole, part = divmod(eighths, 8)
    number = " ".join(filter(None, (str(whole) if whole or not part else "", _EIGHTHS[part])))
    return f"{'-' if length < 0 and eighths else ''}{number} in"


def format_angle(angle: float) -> str:
    """An angle in radians as degrees, `22.6°`."""
    return f"{math.degrees(angle):.1f}°"


def _fraction(text: str) -> float:
    if text in _SIGNS:
        return _SIGNS[text]
    above, below = text.split("/")
    return int(above) / int(below)


def _unit(sign: str) -> Unit:
    lower = sign.lower()
    return Unit(lower) if lower in ("mm", "cm") else Unit.INCH
