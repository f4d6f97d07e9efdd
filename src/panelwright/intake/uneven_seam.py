"""A seam of a pattern read off paper whose two sides differ: told once, with the places between which they do."""

from collections.abc import Iterator
from typing import Final

from panelwright.body.worded_length import length_words
from panelwright.checks.design_words import edge_words
from panelwright.file_words import in_file
from panelwright.finding import Finding
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.intake.seam_station import Stretch, place_on, stretches, walkable
from panelwright.pattern.mark import as_point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Seam, Span
from panelwright.pattern.spoken_piece import spoken_piece

# What a pencil and a ruler may be off at full scale; less is not worth a word, mm (own choice).
UNEVEN: Final = 1.0
_TRUE: Final = "Let the pattern be trued, or redraw the side that is wrong; ease is stated, not drawn."


def uneven_seams(pattern: Pattern, left: frozenset[str]) -> Iterator[Finding]:
    """`seam-length` errors of whole sides that differ, `seam-stretch` warnings of sides that differ within.

    Lengths are in the unit of the words (`worded_in`).

    Args:
        left: ids of seams that truing left, because their sides differ too much.
    """
    for seam in pattern.seams:
        if walkable(seam):
            yield from _uneven(pattern, seam, seam.id in left)


def _uneven(pattern: Pattern, seam: Seam, left: bool) -> Iterator[Finding]:
    whole = stretches(pattern, seam)
    length = whole[-1].end.a
    offs = [(each.difference - seam.ease * (each.end.a - each.start.a) / length, each) for each in whole]
    off = sum(off for off, _ in offs)
    told = sorted((pair for pair in offs if abs(pair[0]) > UNEVEN), key=lambda pair: -abs(pair[0]))
    is_longer = abs(off) > TOLERANCES.seam
    if not told and not is_longer:
        return
    worst, where = max(offs, key=lambda pair: abs(pair[0]))
    lead = off if is_longer else worst
    longer, shorter = (seam.b[0], seam.a[0]) if lead > 0 else (seam.a[0], seam.b[0])
    places = [(each if lead > 0 else -each, place) for each, place in told]
    message = _message(pattern, longer, shorter, abs(off) if is_longer else 0.0, places)
    message += f" {length_words(abs(seam.ease))} of ease is taken off already." if seam.ease else ""
    remedy = _TRUE
    if left:
        message += " That is too much to be trued, and it is left as drawn."
        remedy = (
            f"Check whether these edges are partners; if not, sew them to the right ones{in_file('seams')}, or redraw "
            "one side."
        )
    on = seam.b[0] if worst > 0 else seam.a[0]
    arc = (where.start.b + where.end.b) / 2 if worst > 0 else (where.start.a + where.end.a) / 2
    edge = pattern.edge(on)
    at = as_point(edge.curve.point(place_on(on, edge, arc)))
    if is_longer:
        yield Finding("seam-length", "error", seam.id, abs(off), TOLERANCES.seam, message, remedy, on.piece, at)
    else:
        yield Finding("seam-stretch", "warning", seam.id, abs(worst), UNEVEN, message, remedy, on.piece, at)


def _message(pattern: Pattern, longer: Span, shorter: Span, off: float, told: list[tuple[float, Stretch]]) -> str:
    """What is longer than what; in `told`, above 0 is where the side that is longer on the whole is longer too."""
    edge, piece = pattern.edge(longer), spoken_piece(pattern.piece(longer.piece))
    one = f"The {edge_words(pattern, edge.line)} of {piece}"
    other = f"that of {spoken_piece(pattern.piece(shorter.piece))}"
    match told:
        case [] if off:
            return f"{one} is {length_words(off, 2)} longer than {other}."
        case [(first, place)] if off and abs(first - off) < UNEVEN:
            return f"{one} is {length_words(off, 2)} longer than {other}, {_between(place)}."
    where = "; ".join(
        f"{length_words(abs(each), 2)} {'longer' if each > 0 else 'shorter'} {_between(place)}" for each, place in told
    )
    if off:
        return f"{one} is {length_words(off, 2)} longer than {other} on the whole: {where}."
    return f"{one} is as long as {other} on the whole, but {where}."


def _between(stretch: Stretch) -> str:
    return f"between {stretch.start.name} and {stretch.end.name}"
