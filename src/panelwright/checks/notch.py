"""Rule 5: a notch sits at the same sewn place on both sides of a seam; one in front, two at the back."""

from collections.abc import Iterator

from panelwright.body.worded_length import length_words
from panelwright.checks.design_words import seam_words
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.mark import Point, as_point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Notch, Seam

COUNTS = {"front": 1, "side": 1, "back": 2}


def check_notches(cutting: CuttingPattern) -> tuple[Finding, ...]:
    """`notch-off-seam`, `notch-place`, `notch-count` and `side-notch` errors."""
    pattern = cutting.pattern
    found: list[Finding] = []
    for seam in pattern.seams:
        own = sorted((notch for notch in cutting.notches if notch.seam == seam.id), key=lambda notch: notch.at_a)
        lengths = pattern.chain_length(seam.a), pattern.chain_length(seam.b)
        # Ease taken up so far: it grows from 0 to the seam's ease along the seam and never turns back.
        taken = 0.0
        for notch in own:
            found += _on_seam(pattern, seam, notch, lengths)
            found += _place(pattern, seam, notch, taken)
            found += _count(pattern, seam, notch)
            found += _side(pattern, seam, notch, cutting.notches)
            low, high = sorted((taken, seam.ease))
            taken = min(max(notch.at_b - notch.at_a * seam.ratio, low), high)
    return tuple(found)


def _where(pattern: Pattern, seam: Seam, notch: Notch) -> tuple[str, Point]:
    """(piece, point) of the notch on side a."""
    span, point, _ = pattern.along_chain(seam.a, max(notch.at_a, 0.0))
    return span.piece, as_point(point)


def _on_seam(pattern: Pattern, seam: Seam, notch: Notch, lengths: tuple[float, float]) -> Iterator[Finding]:
    for place, length in zip((notch.at_a, notch.at_b), lengths, strict=True):
        beyond = max(-place, place - length)
        if beyond > TOLERANCES.notch:
            message = f"{seam_words(seam)}: a notch stands at {length_words(place, 2)} of {length_words(length, 2)}."
            remedy = "Move the notch on to the seam, or take it away."
            where = _where(pattern, seam, notch)
            yield Finding("notch-off-seam", "error", notch.id, beyond, TOLERANCES.notch, message, remedy, *where)


def _place(pattern: Pattern, seam: Seam, notch: Notch, taken: float) -> Iterator[Finding]:
    share = notch.at_b - notch.at_a * seam.ratio
    low, high = sorted((taken, seam.ease))
    off = max(low - share, share - high)
    if off > TOLERANCES.notch:
        message = (
            f"{seam_words(seam)}: the notch at {length_words(notch.at_a, 2)} does not meet its partner at "
            f"{length_words(notch.at_b, 2)}; they miss each other by {length_words(off, 2)}."
        )
        remedy = "Walk the seam and set both notches where they meet; ease may lie between notches only as stated."
        where = _where(pattern, seam, notch)
        yield Finding("notch-place", "error", notch.id, off, TOLERANCES.notch, message, remedy, *where)


def _count(pattern: Pattern, seam: Seam, notch: Notch) -> Iterator[Finding]:
    wanted = COUNTS[seam.region]
    if notch.count != wanted:
        message = f"{seam_words(seam)}: a notch of {notch.count} on a {seam.region} seam, where it takes {wanted}."
        remedy = "Use a single notch on front and side seams, a double one on back seams."
        where = _where(pattern, seam, notch)
        yield Finding("notch-count", "error", notch.id, notch.count, wanted, message, remedy, *where, unit="notches")


def _side(pattern: Pattern, seam: Seam, notch: Notch, notches: tuple[Notch, ...]) -> Iterator[Finding]:
    """A side seam's notch keeps to a place of its own, so that the side can be told from the other seams."""
    if seam.region != "side":
        return
    for other in notches:
        if pattern.seam(other.seam).region == "side":
            continue
        # Two notches that both mark a level are compared by it, others by their place along the seam.
        by_level = bool(notch.level and other.level)
        apart = abs(other.at_a - notch.at_a)
        if notch.level == other.level if by_level else apart < TOLERANCES.side_notch:
            apart = 0.0 if by_level else apart
            how = f"both mark the {notch.level} level" if by_level else f"{length_words(apart)} apart"
            message = (
                f"{seam_words(seam)}: its notch stands where the {other.seam.replace('-', ' ')} seam has one ({how})."
            )
            remedy = "Move the side seam's notch to a height where no other seam has one."
            where = _where(pattern, seam, notch)
            yield Finding("side-notch", "error", notch.id, apart, TOLERANCES.side_notch, message, remedy, *where)
            return
