"""What a maker should know about a block read off paper, beside what every pattern is checked for."""

from collections.abc import Iterable, Iterator
from typing import Final

from panelwright.body.measurements import Measurements
from panelwright.body.units import Unit, format_length
from panelwright.checks.level_girth import drawn_girth
from panelwright.checks.wearer_ease import GIRTHS
from panelwright.file_words import in_file
from panelwright.finding import Finding
from panelwright.intake.pencil import PENCILS, pencil_girth
from panelwright.intake.seam_partners import SeamSuggestion
from panelwright.intake.seam_station import Stretch, place_on, stretches, walkable
from panelwright.intake.truing import MOST_EVENED, LeftSeam
from panelwright.pattern.level import WAIST
from panelwright.pattern.mark import as_point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Seam

# What a pencil and a ruler may be off at full scale; less is not worth a word, mm (own choice).
UNEVEN: Final = 1.0
SURE: Final = 0.8


def check_own_block(pattern: Pattern, wearer: Measurements | None = None, unit: Unit = Unit.CM) -> tuple[Finding, ...]:
    """`seam-stretch` warnings, and `drawn-girth` advice where a wearer is given."""
    uneven = [
        _uneven(pattern, seam, stretch, unit)
        for seam in pattern.seams
        if walkable(seam)
        for stretch in stretches(pattern, seam)
        if abs(stretch.difference - seam.ease * _share(stretch, stretches(pattern, seam))) > UNEVEN
    ]
    return (*uneven, *(_girths(pattern, wearer, unit) if wearer is not None else ()))


def suggestion_findings(suggestions: tuple[SeamSuggestion, ...]) -> tuple[Finding, ...]:
    """`seam-suggested`: every seam that nobody confirmed; a doubtful one is a warning."""
    return tuple(_suggested(each) for each in suggestions)


def pencil_findings(pattern: Pattern, scale: float) -> tuple[Finding, ...]:
    """`pencil-girth`: what a pencil's width on a quarter-scale drawing comes to round the body, at one level."""
    level = next((id for id in (WAIST, *(each.id for each in pattern.levels)) if pattern.has_level(id)), None)
    if level is None or scale == 1:
        return ()
    fine, plain = (pencil_girth(pattern, level, off, scale) for off in PENCILS)
    remedy = "Draw with a sharp pencil, and hold the girths of the finished pieces against the tape before you cut."
    message = f"{fine.words[:-1]}; {plain.off:g} mm of pencil is {plain.girth:g} mm."
    return (Finding("pencil-girth", "advice", level, fine.girth, plain.girth, message, remedy),)


def _share(stretch: Stretch, whole: tuple[Stretch, ...]) -> float:
    length = whole[-1].end.a
    return (stretch.end.a - stretch.start.a) / length if length else 0.0


def _uneven(pattern: Pattern, seam: Seam, stretch: Stretch, unit: Unit) -> Finding:
    """The longer side, by how much, between which places; the place is the middle of that stretch."""
    a, b = seam.a[0], seam.b[0]
    longer, shorter = (b, a) if stretch.difference > 0 else (a, b)
    arc = (stretch.start.b + stretch.end.b) / 2 if longer is b else (stretch.start.a + stretch.end.a) / 2
    edge = pattern.edge(longer)
    at = as_point(edge.curve.point(place_on(longer, edge, arc)))
    amount = abs(stretch.difference)
    message = (
        f"Seam {seam.id}: {longer.piece} is {format_length(amount, unit)} longer than {shorter.piece} between "
        f"{stretch.start.name} and {stretch.end.name}, here."
    )
    remedy = (
        "Let the pattern be trued, or write down which side is right and redraw the other; ease is stated, not drawn."
    )
    return Finding("seam-stretch", "warning", seam.id, amount, UNEVEN, message, remedy, longer.piece, at)


def _girths(pattern: Pattern, wearer: Measurements, unit: Unit) -> Iterator[Finding]:
    for level in pattern.levels:
        term = GIRTHS.get(level.id)
        if term is None:
            continue
        drawn, body = drawn_girth(pattern, level), wearer[term]
        ease = drawn - body
        more = "more" if ease >= 0 else "less"
        message = (
            f"{level.label}: the pieces measure {format_length(drawn, unit)} round, {format_length(abs(ease), unit)} "
            f"{more} than the wearer's {format_length(body, unit)}."
        )
        remedy = "Compare it with the ease that you meant; take in or let out at the seams if it is another."
        yield Finding("drawn-girth", "advice", level.id, drawn, body, message, remedy)


def _suggested(each: SeamSuggestion) -> Finding:
    a, b = each.seam.a, each.seam.b
    message = (
        f"{a.piece}, edge {a.number + 1}, is taken to be sewn to {b.piece}, edge {b.number + 1}, as {each.seam.line}: "
        f"{each.reason} (agrees to {each.score:.0%})."
    )
    where = in_file("seams")
    remedy = f"If it is right, confirm it as a seam{where}; else sew each of the two edges to its right partner."
    if each.score < SURE:
        return Finding("seam-doubtful", "warning", each.seam.line, each.score, SURE, message, remedy, unit="of 1")
    return Finding("seam-suggested", "advice", each.seam.line, each.score, SURE, message, remedy, unit="of 1")


def left_findings(left: Iterable[LeftSeam]) -> tuple[Finding, ...]:
    """`truing-left`: seams whose sides differ too much to be trued."""
    where = in_file("seams")
    remedy = f"Check whether these edges are partners; if not, sew them to the right ones{where}, or redraw one side."
    return tuple(
        Finding(
            "truing-left",
            "warning",
            each.seam,
            each.off,
            MOST_EVENED,
            f"Seam {each.seam}: its sides differ by {each.off:.0f} mm, too much to be trued; it is left as drawn.",
            remedy,
        )
        for each in left
    )
