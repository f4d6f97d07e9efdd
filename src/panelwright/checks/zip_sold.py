"""Whether a zip of a length of the maker's own can be bought."""

from collections.abc import Iterator

from panelwright.body.units import format_length
from panelwright.checks.wearing import Wearing
from panelwright.design.zip_length import SOLD_CM, is_sold, nearest_sold, sold_length
from panelwright.finding import Finding
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.step_name import step_name
from panelwright.pattern.working import Working


def check_zips_sold(pattern: Pattern, wearing: Wearing) -> tuple[Finding, ...]:
    """`zip-not-sold`, advice: a zip is given a length that is in no shop's list, with the nearest that are.

    Where no zip is sold as long as the opening, it is cut from the roll, and then any length is right.
    """
    zips = {notion.working for notion in pattern.notions if notion.kind == "zip"}
    judged = [working for working in pattern.workings if working.id in zips]
    return tuple(finding for working in judged for finding in _judged(working, pattern, wearing))


def _judged(working: Working, pattern: Pattern, wearing: Wearing) -> Iterator[Finding]:
    given, opening = working.given, working.parts[0].length
    if given is None or is_sold(given) or sold_length(opening) is None:
        return
    nearest = nearest_sold(given)
    closes = [format_length(length, wearing.unit) for length in nearest if length >= opening]
    step = step_name(pattern, working.id.partition("/")[0])
    change = f"Give the step {step} {closes[0]}" if closes else f"Leave the length out of the step {step}"
    words = " and ".join(format_length(length, wearing.unit) for length in nearest)
    yield Finding(
        "zip-not-sold", "advice", working.id, given, min(nearest, key=lambda length: abs(length - given)),
        f"Zip: {format_length(given, wearing.unit)} is not among the {len(SOLD_CM)} lengths sold; the nearest "
        f"{'are' if len(nearest) > 1 else 'is'} {words}.",
        f"{change}, or go on if your shop sells it or cuts it from the roll.",
    )  # fmt: skip
