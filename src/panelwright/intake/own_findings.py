"""What a maker should know about a block read off paper, beside what every pattern is checked for."""

from collections.abc import Iterator
from typing import Final

from panelwright.body.measurements import Measurements
from panelwright.body.units import Unit, format_length
from panelwright.body.worded_length import length_words, worded_in
from panelwright.checks.level_girth import drawn_girth
from panelwright.checks.wearer_ease import GIRTHS
from panelwright.file_words import in_file
from panelwright.finding import Finding
from panelwright.intake.pencil import PENCILS, pencil_girth
from panelwright.intake.piece_size import odd_sizes
from panelwright.intake.seam_partners import SeamSuggestion
from panelwright.intake.uneven_seam import uneven_seams
from panelwright.pattern.level import WAIST
from panelwright.pattern.pattern import Pattern

SURE: Final = 0.8


def check_own_block(
    pattern: Pattern,
    wearer: Measurements | None = None,
    unit: Unit = Unit.CM,
    left: frozenset[str] = frozenset(),
) -> tuple[Finding, ...]:
    """`seam-length`, `seam-stretch` and `piece-size`, and `drawn-girth` advice where a wearer is given.

    Args:
        unit: of the lengths that people read.
        left: ids of seams that truing left, because their sides differ too much.
    """
    girths = _girths(pattern, wearer, unit) if wearer is not None else ()
    with worded_in(unit):
        return (*uneven_seams(pattern, left), *odd_sizes(pattern), *girths)


def suggestion_findings(suggestions: tuple[SeamSuggestion, ...]) -> tuple[Finding, ...]:
    """`seam-suggested`: every seam that nobody confirmed; a doubtful one is a warning."""
    return tuple(_suggested(each) for each in suggestions)


def pencil_findings(pattern: Pattern, scale: float, unit: Unit = Unit.CM) -> tuple[Finding, ...]:
    """`pencil-girth`: what a pencil's width on a quarter-scale drawing comes to round the body, at one level."""
    level = next((id for id in (WAIST, *(each.id for each in pattern.levels)) if pattern.has_level(id)), None)
    if level is None or scale == 1:
        return ()
    fine, plain = (pencil_girth(pattern, level, off, scale) for off in PENCILS)
    remedy = "Draw with a sharp pencil, and hold the girths of the finished pieces against the tape before you cut."
    with worded_in(unit):
        message = f"{fine.words[:-1]}; {plain.off:g} mm of pencil is {length_words(plain.girth)}."
    return (Finding("pencil-girth", "advice", level, fine.girth, plain.girth, message, remedy),)


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
    a, b = each.sides
    message = (
        f"{a}, is taken to be sewn to {b}, as the {each.seam.line.replace('-', ' ')} seam: {each.reason} "
        f"(agrees to {each.score:.0%})."
    )
    where = in_file("seams")
    remedy = f"If it is right, confirm it as a seam{where}; else sew each of the two edges to its right partner."
    if each.score < SURE:
        return Finding("seam-doubtful", "warning", each.seam.line, each.score, SURE, message, remedy, unit="of 1")
    return Finding("seam-suggested", "advice", each.seam.line, each.score, SURE, message, remedy, unit="of 1")
