"""Findings that can be put right by one certain change of the design, and that change.

Only changes that take the finding away and nothing else that the maker chose are offered. What needs a decision with
the wearer (a tight waist that presses, a low neckline) stays a sentence in the finding.
"""

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Final

from panelwright.app import remedy_fields, remedy_steps
from panelwright.app.remedied import Document, Remedied
from panelwright.body.units import Unit
from panelwright.finding import Finding
from panelwright.pattern.pattern import Pattern

Remedy = Callable[[Finding, Document, Pattern, Unit], Remedied | None]

_REMEDIES: Final[Mapping[str, Remedy]] = MappingProxyType(
    {
        "tight": remedy_fields.eased,
        "loose": remedy_fields.eased,
        "ease-unusual": remedy_fields.eased,
        "seam-off-body": remedy_fields.lengths_kept,
        "no-allowance": remedy_fields.seams_allowed,
        "narrow-strap": remedy_fields.strap_trimmed,
        "curved-hem-turned": remedy_fields.hem_narrowed,
        "cannot-be-laid": remedy_fields.spread_out,
        "given-length-short": remedy_steps.as_reckoned,
        "given-length-long": remedy_steps.as_reckoned,
        "zip-not-sold": remedy_steps.as_reckoned,
        "ties-missing": remedy_steps.tied,
        "bones-not-last": remedy_steps.bones_last,
        "unboned-strapless": remedy_steps.boned,
        "cannot-be-put-on": remedy_steps.opened_behind,
    }
)


def remedy(finding: Finding, document: Document, pattern: Pattern, unit: Unit = Unit.CM) -> Remedied | None:
    """The design with a finding put right, or None where that is for the maker to decide.

    Args:
        finding: of a check of `document`.
        document: a `panelwright-design/1` that can be read; it is not changed.
        pattern: what it came to.
        unit: of the lengths in the words for the change.

    What it returns can be read again, and has no finding of that code about the same thing.
    """
    found = _REMEDIES.get(finding.code)
    return found(finding, document, pattern, unit) if found else None
