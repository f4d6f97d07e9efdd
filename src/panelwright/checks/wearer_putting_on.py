"""Whether a garment can be put on: closed all round, its narrow places must pass the wearer's wide ones."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np

from panelwright.body.measurements import Measurements
from panelwright.body.units import format_length
from panelwright.checks.level_girth import drawn_girth
from panelwright.checks.neck_opening import NeckOpening, neck_opening
from panelwright.checks.opened_girth import closed_centres, widening
from panelwright.checks.practice import PRACTICE
from panelwright.checks.wearer_ease import GIRTHS
from panelwright.checks.wearing import Wearing
from panelwright.file_words import in_file
from panelwright.finding import Finding
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.geometry.trace import trace
from panelwright.pattern.level import BUST, HIP, TOP_HIP, UPPER_BUST, WAIST, Level
from panelwright.pattern.mark import as_point
from panelwright.pattern.pattern import Pattern

# R: shoulder girth of 260 women = 256.4 mm + 0.868 · chest girth, residual SD 36 mm (openintro/bdims, Heinz et al.
# 2003; the regression is made again in the tests). Arms raised, a body is narrower.
SHOULDER_GIRTH: Final = (256.4, 0.868)
NECK: Final = "neckline"


@dataclass(frozen=True)
class Passage:
    """A narrow place of the garment and the widest part of the body that must go through it.

    Attributes:
        place: `the waist`, `the neckline`.
        subject: id of the level, or `neckline`.
        girth: with every closure opened, mm.
        part: what of the body passes, in words.
        needs: its girth, mm.
        piece, at: where it is drawn.
    """

    place: str
    subject: str
    girth: float
    part: str
    needs: float
    piece: str | None
    at: tuple[float, float] | None

    @property
    def short(self) -> float:
        """What is wanting, mm; below 0 where it passes."""
        return self.needs - self.girth


def check_putting_on(pattern: Pattern, wearer: Measurements | None, wearing: Wearing) -> tuple[Finding, ...]:
    """`cannot-be-put-on`, an error: in woven cloth it passes neither over the head nor from the feet, even opened.
    `tight-over-head` and `tight-over-shoulders`, warnings: only over the head, and heads or shoulders are wider by
    what is usual.

    The error is reported only where it is certain: no measurement says how wide head and shoulders are with the arms
    raised, so over the head the levels above are held against each place, and the neckline is to be wider than the
    neck base; from the feet the levels below and the wearer's hip. A closure from the upper to the lower edge opens
    every level; at a side it leaves the neckline as it is. What differs by less than a tape's reading is not certain.
    """
    if wearing.cloth != "woven":
        return ()
    closed = [
        (level, drawn_girth(pattern, level) + level.gap - level.overlap + widening(pattern, level))
        for level in pattern.levels
        if level.path and not _opens(pattern, level)
    ]
    body, neck = _body(pattern, wearer), neck_opening(pattern)
    over_head, from_feet = (
        [*(_passage(pattern, level, girth, body, down) for level, girth in closed), *_neck(neck, need)]
        for down, need in ((True, _head(wearer)), (False, _hips(body)))
    )
    if not over_head:
        return ()
    worst = [max(way, key=lambda passage: passage.short) for way in (over_head, from_feet)]
    if all(passage.short > PRACTICE.tape for passage in worst):
        return (_finding(min(worst, key=lambda passage: passage.short), wearing),)
    if worst[1].short > PRACTICE.tape:
        return (*_over_head(neck, wearing), *_over_shoulders(pattern, wearer, closed, wearing))
    return ()


def _finding(passage: Passage, wearing: Wearing) -> Finding:
    girth, needs = (format_length(length, wearing.unit) for length in (passage.girth, passage.needs))
    message = (
        f"Opened as far as it goes, {passage.place} is {girth} and the {passage.part} of {needs} must pass it: it "
        "cannot be put on."
    )
    neckline = passage.subject == NECK
    where = "at the centre back or centre front" if neckline else "at the centre back, centre front or side"
    remedy = (
        f"Let a closure{in_file('a step of kind closure')} open it from top to hem {where} (zip, lacing, hooks or "
        "buttons), "
        "or open it farther; or "
        f"{'draw a wider and lower neckline' if neckline else f'widen the garment to {needs} there'}."
    )
    return Finding(
        "cannot-be-put-on", "error", passage.subject, passage.girth, passage.needs, message, remedy, passage.piece,
        passage.at,
    )  # fmt: skip


def _over_shoulders(
    pattern: Pattern, wearer: Measurements | None, closed: list[tuple[Level, float]], wearing: Wearing
) -> Iterator[Finding]:
    """The narrowest level against shoulders of the usual width for the wearer's chest."""
    chest = wearer["upper_bust_girth"] if wearer else _chest(pattern)
    level, girth = min(closed, key=lambda pair: pair[1], default=(None, 0.0))
    if level is None or chest is None or girth >= (needs := SHOULDER_GIRTH[0] + SHOULDER_GIRTH[1] * chest):
        return
    passage = _passage(pattern, level, girth, [], True)
    drawn, wide = (format_length(length, wearing.unit) for length in (girth, needs))
    yield Finding(
        "tight-over-shoulders", "warning", level.id, girth, needs,
        f"It goes on over the head only, {passage.place} is {drawn} opened, and shoulders are about {wide} round with "
        "the arms down: it may stick.",
        f"Open it farther with a closure{in_file('a step of kind closure')}, or try it on the toile with one arm "
        "raised "
        "after the other.",
        passage.piece, passage.at,
    )  # fmt: skip


def _chest(pattern: Pattern) -> float | None:
    return pattern.level(UPPER_BUST).body_girth if pattern.has_level(UPPER_BUST) else None


def _neck(neck: NeckOpening | None, need: tuple[str, float]) -> Iterator[Passage]:
    """The neckline where shoulders or straps are closed, and what must pass it."""
    if neck is not None:
        yield Passage("the neckline", NECK, neck.opened, *need, neck.piece, neck.at)


def _head(wearer: Measurements | None) -> tuple[str, float]:
    """What is certain of a head: it is wider than the neck base by more than a tape can be off (CP)."""
    return "head, wider than a neck base", wearer["neck_base_girth"] + 2 * PRACTICE.tape if wearer else 0.0


def _hips(body: list[tuple[str, float, float]]) -> tuple[str, float]:
    """The widest part below the waist."""
    part, _, girth = max((row for row in body if row[1] < 0), key=lambda row: row[2], default=("", 0.0, 0.0))
    return part, girth


def _over_head(neck: NeckOpening | None, wearing: Wearing) -> Iterator[Finding]:
    """The neckline against the head of a grown person."""
    if neck is None or neck.opened >= PRACTICE.least_head:
        return
    drawn, least = (format_length(length, wearing.unit) for length in (neck.opened, PRACTICE.least_head))
    yield Finding(
        "tight-over-head", "warning", NECK, neck.opened, PRACTICE.least_head,
        f"It goes on over the head only, the neckline is {drawn} opened, and hardly a grown head passes less than "
        f"{least}.",
        f"Draw a wider or lower neckline, or let a closure{in_file('a step of kind closure')} open it at the centre "
        "back or "
        "centre front.",
        neck.piece, neck.at,
    )  # fmt: skip


def _body(pattern: Pattern, wearer: Measurements | None) -> list[tuple[str, float, float]]:
    """(part, height, girth) of the body wherever it is known, mm."""
    known = {level.id: (level.height, level.body_girth) for level in pattern.levels}
    if wearer is not None:
        heights = {
            BUST: wearer["bust_height"],
            WAIST: 0.0,
            TOP_HIP: -wearer["waist_to_top_hip"],
            HIP: -wearer["waist_to_hip"],
        }
        known |= {level: (height, wearer[GIRTHS[level]]) for level, height in heights.items()}
    return [(level.replace("-", " "), height, girth) for level, (height, girth) in known.items()]


def _passage(pattern: Pattern, level: Level, girth: float, body: list[tuple[str, float, float]], down: bool) -> Passage:
    """What passes a level on its way to its place: pulled down over the head, or pulled up from the feet."""
    passing = [row for row in body if (row[1] > level.height if down else row[1] < level.height)]
    # What is not known is no obstacle.
    part, _, needs = max(passing, key=lambda row: row[2], default=(level.label.lower(), level.height, 0.0))
    step = level.path[0]
    line = pattern.piece(step.piece).inside_line(step.inside)
    at = as_point(line.curve.start) if line else None
    return Passage(f"the {level.label.lower()}", level.id, girth, part, needs, step.piece, at)


def _opens(pattern: Pattern, level: Level) -> bool:
    """Whether an opening that no closure tells of crosses the level, as a block's own centre back: one of its lines
    ends on an opening edge or in a closure's seam."""
    told, places = {closure.seam for closure in pattern.closures}, closed_centres(pattern)
    closures = [
        span for seam in pattern.seams if seam.kind == "closure" and seam.id not in told for span in seam.a + seam.b
    ]
    for step in level.path:
        piece = pattern.piece(step.piece)
        line = piece.inside_line(step.inside)
        if line is None:
            continue
        ends = np.array([line.curve.start, line.curve.end])
        for edge in piece.edges:
            length = edge.curve.length
            stretches = [sorted((s.start * length, s.end * length)) for s in closures if s.edge == edge.id]
            if edge.kind == "opening" and edge.line not in places:
                stretches.append([0.0, length])
            if stretches:
                apart, arcs = trace(edge.curve).nearest(ends)
                reach = TOLERANCES.seam
                on = arcs[apart <= reach + TOLERANCES.polyline]
                if any(low - reach <= place <= high + reach for low, high in stretches for place in on):
                    return True
    return False
