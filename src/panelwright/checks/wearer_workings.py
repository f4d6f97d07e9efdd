"""Lengths that the maker gave, held against what was reckoned for the wearer."""

from collections.abc import Iterator
from typing import Final

from panelwright.body.units import format_length
from panelwright.checks.wearing import Wearing
from panelwright.finding import Finding
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.step_name import step_name
from panelwright.pattern.working import Working

USELESS: Final = 0.6  # share of the reckoned length below which a given one cannot work (own choice)


def check_workings(pattern: Pattern, wearing: Wearing) -> tuple[Finding, ...]:
    """`given-length-short` and `given-length-long`, warnings: by how much a given strap, tie, zip or cord is off.

    A given length below `USELESS` of the reckoned one is an error: it does not reach, meet or close.
    """
    return tuple(finding for working in pattern.workings for finding in _judged(working, pattern, wearing))


def _judged(working: Working, pattern: Pattern, wearing: Wearing) -> Iterator[Finding]:
    if working.given is None or not working.off:
        return
    given, reckoned, off = (
        format_length(length, wearing.unit) for length in (working.given, working.reckoned, abs(working.off))
    )
    step = step_name(pattern, working.id.partition("/")[0])
    remedy = (
        f"Leave the length out of the step {step}, so that {reckoned} is drawn, or keep it and see it at the "
        "fitting; the "
        "sign-off page shows how the length is made up."
    )
    least = USELESS * working.reckoned
    if working.given < least:
        message = (
            f"{working.what}: {given} is {off} too short; for this wearer {reckoned} is reckoned, and less than "
            f"{format_length(least, wearing.unit)} ({USELESS:.0%} of it) cannot work: it does not reach."
        )
        remedy = f"Leave the length out of the step {step}, so that {reckoned} is drawn, or give one near it."
        yield Finding("given-length-short", "error", working.id, working.given, least, message, remedy)
    elif working.off < 0:
        message = f"{working.what}: {given} is {off} too short; for this wearer {reckoned} is reckoned."
        limit = working.reckoned - working.short
        yield Finding("given-length-short", "warning", working.id, working.given, limit, message, remedy)
    else:
        message = f"{working.what}: {given} is {off} longer than the {reckoned} reckoned for this wearer."
        limit = working.reckoned + working.long
        yield Finding("given-length-long", "warning", working.id, working.given, limit, message, remedy)
