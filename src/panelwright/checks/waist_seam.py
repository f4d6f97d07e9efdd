"""A waist seam that lies loose or tight on its wearer."""

from typing import Final

from panelwright.body.units import format_length
from panelwright.checks.wearing import Wearing
from panelwright.design.skirt_step import WAIST_SEAM
from panelwright.file_words import in_file
from panelwright.finding import Finding
from panelwright.pattern.pattern import Pattern

# Ease of a fitted waist that a skirt hangs from, mm (from memory, unverified): less than the body slides down, more
# and the seam sags below the waist.
LEAST: Final = 0.0
MOST: Final = 60.0
SLACK: Final = 0.5  # mm (own choice): what the drawing may be off, and what nobody reads


def check_waist_seam(pattern: Pattern, wearing: Wearing) -> tuple[Finding, ...]:
    """`waist-seam-ease`, a warning: a woven bodice with a skirt is tight or loose at the seam between them."""
    if wearing.cloth != "woven":
        return ()
    found = []
    for working in pattern.workings:
        if working.what != WAIST_SEAM:
            continue
        waist, ease = (part.length for part in working.parts[:2])
        if not LEAST - SLACK <= ease <= MOST + SLACK:
            found.append(_off(working.id.partition("/")[0], waist, ease, wearing))
    return tuple(found)


def _off(step: str, waist: float, ease: float, wearing: Wearing) -> Finding:
    tight = ease < LEAST
    limit = LEAST if tight else MOST
    drawn, girth, usual = (format_length(length, wearing.unit) for length in (waist + ease, waist, limit))
    says = "it pulls, and the skirt opens at its zip" if tight else "the skirt's weight draws the seam below the waist"
    return Finding(
        "waist-seam-ease",
        "warning",
        step,
        ease,
        limit,
        f"The waist seam measures {drawn} on a waist of {girth}; {'at least' if tight else 'at most'} {usual} of ease "
        f"is usual there: {says}.",
        f"Give {'more' if tight else 'less'} ease at the waist of the bodice{in_file('block.ease_cm.waist')}, or let "
        "its hem lie at the waist.",
    )
