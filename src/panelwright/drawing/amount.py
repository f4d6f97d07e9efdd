"""Amounts as they are written on a page: lengths with their sign, a finding's number beside its limit."""

from typing import Final

from panelwright.body.units import Unit, format_length
from panelwright.finding import Finding

# Below this a length is written in millimetres whatever the unit: centimetres and eighths of an inch hide it, mm.
FINE: Final = 10.0
MINUS: Final = "−"
_ONE: Final = {"inches": "inch"}  # of the words for things that are counted, those that lose more than an s


def amount(length: float, unit: Unit) -> str:
    """A length in mm as people read it, with a true minus sign, `−1.0 cm`; what rounds to nothing has none."""
    text, nothing = format_length(length, unit), format_length(0.0, unit)
    if not text.startswith("-"):
        return text
    return nothing if text[1:] == nothing else MINUS + text[1:]


def signed(length: float, unit: Unit) -> str:
    """The same with a plus sign where it is above nothing: `+1.0 cm`."""
    text = amount(length, unit)
    return f"+{text}" if length > 0 and text != amount(0.0, unit) else text


def span(least: float, most: float, unit: Unit) -> str:
    """`1.0 to 2.0 cm`: two lengths with one unit."""
    return f"{amount(least, unit).removesuffix(f' {unit}')} to {amount(most, unit)}"


def value_and_limit(finding: Finding, unit: Unit) -> tuple[str, str]:
    """The number of a finding and the limit that it is held against, in one unit; of things that are counted, no
    limit is `none`."""
    pair = finding.value, finding.limit
    if finding.unit != "mm":
        first, second = (f"{value:.4g}".replace("-", MINUS) for value in pair)
        if finding.unit in ("%", "°"):
            return f"{first} {finding.unit}", f"{second} {finding.unit}"
        return _counted(first, finding.unit), "none" if finding.limit == 0 else _counted(second, finding.unit)
    fine = any(0 < abs(value) < FINE for value in pair)
    first, second = (amount(value, Unit.MM if fine else unit) for value in pair)
    return first, second


def _counted(number: str, things: str) -> str:
    return f"{number} {_ONE.get(things, things.removesuffix('s')) if number == '1' else things}"
