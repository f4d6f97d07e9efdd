"""A garment that is hardly higher than a belt where a seam runs from its hem to its top edge."""

from panelwright.body.units import format_length
from panelwright.checks.corner import Corner, chain_corner
from panelwright.checks.design_words import drawing_step, met_words
from panelwright.checks.practice import PRACTICE
from panelwright.checks.shoulder import hangs
from panelwright.checks.wearing import Wearing
from panelwright.finding import Finding
from panelwright.pattern.mark import as_point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Seam


def check_short_seams(pattern: Pattern, wearing: Wearing) -> tuple[Finding, ...]:
    """`short-seam`, one advice about the shortest seam that has finished edges at both of its ends."""
    found = [(pattern.chain_length(seam.a), seam.id, ends) for seam in pattern.seams if (ends := _ends(pattern, seam))]
    length, seam, ends = min(found, key=lambda row: row[0], default=(PRACTICE.least_height, "", ()))
    if length >= PRACTICE.least_height:
        return ()
    shown, least = (format_length(amount, wearing.unit) for amount in (length, PRACTICE.least_height))
    name = met_words(pattern, pattern.edge(pattern.seam(seam).a[0]).line)
    message = (
        f"The garment is only {shown} high at {name}; below {least} it rolls up and slips, because so little "
        "cloth holds on to the body."
    )
    steps = list(dict.fromkeys(step for end in ends if (step := drawing_step(pattern, end.finished.line))))
    how = f" (in {' or '.join(steps)})" if steps else ""
    remedy = f"Raise the top edge or lower the hem there{how}, or go on if it is to be a band."
    at = as_point(pattern.span_curve(pattern.seam(seam).a[0]).start)
    piece = pattern.seam(seam).a[0].piece
    return (Finding("short-seam", "advice", seam, length, PRACTICE.least_height, message, remedy, piece, at),)


def _ends(pattern: Pattern, seam: Seam) -> tuple[Corner, ...]:
    """The finished corners at both ends of a seam of outer pieces, or none."""
    if seam.kind != "join" or seam.is_centre or hangs(pattern.edge(seam.a[0]).line):
        return ()
    if any(pattern.piece(s.piece).layer != "outer" for s in seam.a + seam.b):
        return ()
    ends = chain_corner(pattern, seam.a[0], False), chain_corner(pattern, seam.a[-1], True)
    return tuple(end for end in ends if end) if all(ends) else ()
