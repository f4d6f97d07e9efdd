"""The finished girth at each level against the body: tight, or other than usual."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from panelwright.body.measurements import Measurements
from panelwright.body.term import TermId
from panelwright.body.units import format_length
from panelwright.checks.design_words import ease_field
from panelwright.checks.level_girth import drawn_girth
from panelwright.checks.practice import PRACTICE
from panelwright.checks.shoulder import has_shoulders
from panelwright.checks.wearing import Wearing
from panelwright.finding import Finding
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.level import BUST, HIP, TOP_HIP, UNDERBUST, UPPER_BUST, WAIST, Level
from panelwright.pattern.pattern import Pattern

GIRTHS: dict[str, TermId] = {
    UPPER_BUST: "upper_bust_girth",
    BUST: "bust_girth",
    UNDERBUST: "underbust_girth",
    WAIST: "waist_girth",
    TOP_HIP: "top_hip_girth",
    HIP: "hip_girth",
}


@dataclass(frozen=True)
class Usual:
    """What is usual in a kind of garment: level -> (least, most) ease, mm; its name; why more is too much."""

    ease: Mapping[str, tuple[float, float]]
    garment: str
    too_much: str


STRAPLESS: Final = Usual(PRACTICE.strapless_ease, "a strapless top", "with more it slips down or stands off")
SHOULDERED: Final = Usual(PRACTICE.shouldered_ease, "a fitted bodice with shoulders", "with more it hangs loose")


def check_ease(pattern: Pattern, wearer: Measurements | None, wearing: Wearing) -> tuple[Finding, ...]:
    """`tight`, `fitted-tight`, `loose` and `other-wearer` warnings, `ease-unusual` advice.

    For any cloth but woven `other-wearer` alone.
    """
    found: list[Finding] = []
    usual = SHOULDERED if has_shoulders(pattern) else STRAPLESS
    for level in pattern.levels:
        if wearer is not None:
            found += _other_wearer(level, wearer, wearing)
        if wearing.cloth == "woven":
            found += _ease(level, drawn_girth(pattern, level), usual, wearing)
    return tuple(found)


def _ease(level: Level, drawn: float, usual: Usual, wearing: Wearing) -> Iterator[Finding]:
    body, ease = level.body_girth, drawn - level.body_girth
    girth, of_body, amount = (format_length(length, wearing.unit) for length in (drawn, body, abs(ease)))
    least, most = usual.ease.get(level.id, (-float("inf"), float("inf")))
    if ease < -PRACTICE.tight_share * body - TOLERANCES.level:
        message = (
            f"{level.label}: {girth} finished is {amount} ({-ease / body:.0%}) smaller than the body's {of_body}, "
            "and woven cloth does not give."
        )
        remedy = (
            f"Give more ease {ease_field(level.id)}, or sew a toile and let someone who fits tight "
            "bodices judge it on the wearer; pain or short breath means let out."
        )
        yield Finding("tight", "warning", level.id, ease, -PRACTICE.tight_share * body, message, remedy)
    elif level.fitted < -TOLERANCES.level and ease < (least if math.isfinite(least) else 0.0) - TOLERANCES.level:
        yield _fitted_tight(level, ease, least if math.isfinite(least) else 0.0, wearing)
    elif level.id == WAIST and ease > PRACTICE.most_waist_ease + TOLERANCES.level:
        most_ease = format_length(PRACTICE.most_waist_ease, wearing.unit)
        message = (
            f"{level.label}: {girth} finished is {amount} more than the body; above {most_ease} woven cloth stands "
            "off the waist, and a bodice has nothing to rest on."
        )
        remedy = f"Give less ease {ease_field(level.id)}, or go on if it is to be gathered or belted."
        yield Finding("loose", "warning", level.id, ease, PRACTICE.most_waist_ease, message, remedy)
    elif not least - TOLERANCES.level <= ease <= most + TOLERANCES.level:
        why = "less strains the seams and the wearer" if ease < least else usual.too_much
        span = f"{format_length(least, wearing.unit)} to {format_length(most, wearing.unit)}"
        message = (
            f"{level.label}: {girth} finished has {amount} {'less' if ease < 0 else 'more'} than the body; "
            f"usual in {usual.garment} of woven cloth is {span} of ease, because {why}."
        )
        limit = least if ease < least else most
        remedy = (
            f"Change the ease {ease_field(level.id)}, or keep it if that is the fit you want, and see it at the toile."
        )
        yield Finding("ease-unusual", "advice", level.id, ease, limit, message, remedy)


def _fitted_tight(level: Level, ease: float, least: float, wearing: Wearing) -> Finding:
    taken, left, needed = (format_length(length, wearing.unit) for length in (-level.fitted, ease, least))
    message = (
        f"{level.label}: the fitting notes took {taken} off the girth and leave {left} of ease, less than the {needed} "
        f"that is usual; the body's girth did not change."
    )
    remedy = (
        "Take in less, or switch a note off, unless the toile was tried sitting and with a deep breath; then keep it, "
        "and sew a second toile."
    )
    return Finding("fitted-tight", "warning", level.id, ease, least, message, remedy)


def _other_wearer(level: Level, wearer: Measurements, wearing: Wearing) -> Iterator[Finding]:
    term = GIRTHS.get(level.id)
    if term is None or abs(wearer[term] - level.body_girth) <= PRACTICE.tape:
        return
    stated, measured = (format_length(girth, wearing.unit) for girth in (level.body_girth, wearer[term]))
    message = (
        f"{level.label}: the pattern is drawn for a body of {stated}, but the wearer measures {measured}: the ease "
        "that was chosen is not what the wearer gets."
    )
    remedy = "Make the pattern again from this wearer's measurements."
    off = abs(wearer[term] - level.body_girth)
    yield Finding("other-wearer", "warning", level.id, off, PRACTICE.tape, message, remedy)
