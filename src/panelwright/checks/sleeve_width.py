"""A sleeve that is too narrow for the arm in it."""

from typing import Final

from panelwright.body.units import format_length
from panelwright.checks.wearing import Wearing
from panelwright.design.sleeve import SLEEVE_WIDTH
from panelwright.file_words import in_file
from panelwright.finding import Finding
from panelwright.pattern.pattern import Pattern

LEAST_EASE: Final = 30.0  # mm round the upper arm, in woven cloth (from memory, unverified)


def check_sleeve_width(pattern: Pattern, wearing: Wearing) -> tuple[Finding, ...]:
    """`sleeve-tight`, a warning: less ease at the upper arm than bending it takes."""
    if wearing.cloth != "woven":
        return ()
    found = []
    for working in pattern.workings:
        if working.what != SLEEVE_WIDTH:
            continue
        arm, ease = (part.length for part in working.parts)
        if ease < LEAST_EASE:
            found.append(_tight(pattern, working.id.partition("/")[0], arm, ease, wearing))
    return tuple(found)


def _tight(pattern: Pattern, piece: str, arm: float, ease: float, wearing: Wearing) -> Finding:
    width, girth, least, by = (
        format_length(length, wearing.unit) for length in (arm + ease, arm, LEAST_EASE, abs(ease))
    )
    crown = next((mark.at for mark in pattern.piece(piece).marks), None) if pattern.has_piece(piece) else None
    return Finding(
        "sleeve-tight",
        "warning",
        piece,
        ease,
        LEAST_EASE,
        f"At the upper arm the sleeve measures {width}, {by} {'more' if ease > 0 else 'less'} than the arm of {girth}; "
        f"with less than {least} of ease woven cloth does not let it bend.",
        f"Make the armhole larger (lower it in the bodice to the shoulder{in_file('armhole_lower_cm')}, or give more "
        "ease at bust and upper bust), or lower the cap of the sleeve, which widens it; or measure the upper arm.",
        piece=piece if crown else None,
        at=crown,
    )
