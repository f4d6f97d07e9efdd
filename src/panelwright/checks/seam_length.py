"""Rule 4, two sides that are sewn together: their lengths agree, and they start at the same end."""

from collections.abc import Iterator

from panelwright.body.worded_length import length_words
from panelwright.checks.design_words import seam_words
from panelwright.checks.shell import own_seams
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.mark import as_point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Seam, Span


def check_seam_lengths(cutting: CuttingPattern) -> tuple[Finding, ...]:
    """`seam-length` and `seam-ends` errors; a closure (zip, lacing) may have sides of different lengths."""
    pattern = cutting.pattern
    seams = (seam for seam in own_seams(pattern) if seam.kind != "closure")
    return tuple(finding for seam in seams for finding in (*_lengths(pattern, seam), *_ends(pattern, seam)))


def _lengths(pattern: Pattern, seam: Seam) -> Iterator[Finding]:
    a, b = pattern.chain_length(seam.a), pattern.chain_length(seam.b)
    wanted = a * seam.ratio + seam.ease
    off = b - wanted
    if abs(off) <= TOLERANCES.seam:
        return
    sides = _names(pattern, seam.a), _names(pattern, seam.b)
    terms = "" if seam.ratio == 1 else f" times {seam.ratio:g}"
    terms += f" {'and' if seam.ease > 0 else 'less'} {length_words(abs(seam.ease), 2)} of ease" if seam.ease else ""
    message = (
        f"{seam_words(seam)}: {sides[1]} is {length_words(b, 2)}, {length_words(abs(off), 2)} too "
        f"{'long' if off > 0 else 'short'} for {sides[0]} of {length_words(a, 2)}{terms}."
    )
    remedy = "True the seam: walk one side along the other and move the edge at its end, or state the rest as ease."
    place = pattern.span_curve(seam.b[-1]).end
    yield Finding(
        "seam-length", "error", seam.id, abs(off), TOLERANCES.seam, message, remedy, seam.b[-1].piece, as_point(place)
    )


def _names(pattern: Pattern, chain: tuple[Span, ...]) -> str:
    return " + ".join(dict.fromkeys(pattern.piece(span.piece).label.lower() for span in chain))


def _ends(pattern: Pattern, seam: Seam) -> Iterator[Finding]:
    """With outer faces out, the boundaries of joined cloth run against each other; layers may lie on one another."""
    if seam.kind == "attach" or len({pattern.piece(span.piece).layer for span in seam.a + seam.b}) > 1:
        return
    a, b = ({(span.end > span.start) == (span.hand == "same") for span in chain} for chain in (seam.a, seam.b))
    if len(a) > 1 or len(b) > 1 or a == b:
        message = f"{seam_words(seam)}: its two sides start at different ends of the seam."
        remedy = "Turn one side round, so that both run from the same end."
        yield Finding("seam-ends", "error", seam.id, 1, 0, message, remedy, seam.b[0].piece, unit="times")
