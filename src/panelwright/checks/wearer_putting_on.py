"""Whether a garment can be put on: closed all round, its narrow places must pass the wearer's wide ones."""

from dataclasses import dataclass

import numpy as np

from panelwright.body.measurements import Measurements
from panelwright.body.units import format_length
from panelwright.checks.level_girth import drawn_girth
from panelwright.checks.wearer_ease import GIRTHS
from panelwright.checks.wearing import Wearing
from panelwright.finding import Finding
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.geometry.trace import trace
from panelwright.pattern.level import BUST, HIP, TOP_HIP, WAIST, Level
from panelwright.pattern.mark import as_point
from panelwright.pattern.pattern import Pattern


@dataclass(frozen=True)
class Passage:
    """A narrow place of the garment and the widest part of the body that must go through it.

    Attributes:
        level: the garment's level.
        girth: finished, mm.
        part: what of the body passes, in words.
        needs: its girth, mm.
    """

    level: Level
    girth: float
    part: str
    needs: float

    @property
    def short(self) -> float:
        """What is wanting, mm; below 0 where it passes."""
        return self.needs - self.girth


def check_putting_on(pattern: Pattern, wearer: Measurements | None, wearing: Wearing) -> tuple[Finding, ...]:
    """`cannot-be-put-on`, an error: in woven cloth it passes neither over the head nor from the feet.

    Only what is certain is reported: shoulders have no girth among the measurements, so over the head just the
    levels above are held against each place, and from the feet just those below, with the wearer's hip if known.
    """
    if wearing.cloth != "woven":
        return ()
    closed = [
        (level, drawn_girth(pattern, level)) for level in pattern.levels if level.path and not _opens(pattern, level)
    ]
    body = _body(pattern, wearer)
    ways = [[p for level, girth in closed for p in _passages(level, girth, body, down)] for down in (True, False)]
    worst = [max(way, key=lambda passage: passage.short, default=None) for way in ways]
    if any(passage is None or passage.short <= TOLERANCES.level for passage in worst):
        return ()
    tightest = min((passage for passage in worst if passage), key=lambda passage: passage.short)
    return (_finding(pattern, tightest, wearing),)


def _finding(pattern: Pattern, passage: Passage, wearing: Wearing) -> Finding:
    girth, needs = (format_length(length, wearing.unit) for length in (passage.girth, passage.needs))
    message = (
        f"Closed all round, {passage.level.label.lower()} is {girth} and the {passage.part} of {needs} must pass it: "
        "it cannot be put on."
    )
    remedy = (
        'Open the centre back from top to hem for a zip, lacing or hooks: set "centre_back": "opening" in the '
        f"design's block (an opening at the side cannot be asked for yet); or widen the garment to {needs} there."
    )
    step = passage.level.path[0]
    line = pattern.piece(step.piece).inside_line(step.inside)
    at = as_point(line.curve.start) if line else None
    return Finding(
        "cannot-be-put-on", "error", passage.level.id, passage.girth, passage.needs, message, remedy, step.piece, at
    )


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


def _passages(level: Level, girth: float, body: list[tuple[str, float, float]], down: bool) -> list[Passage]:
    """What passes a level on its way to its place: pulled down over the head, or pulled up from the feet."""
    passing = [row for row in body if (row[1] > level.height if down else row[1] < level.height)]
    # What is not known is no obstacle.
    part, _, needs = max(passing, key=lambda row: row[2], default=(level.label.lower(), level.height, girth))
    return [Passage(level, girth, part, needs)]


def _opens(pattern: Pattern, level: Level) -> bool:
    """Whether an opening crosses the level: one of its lines ends on an opening edge or in a closure."""
    closures = [span for seam in pattern.seams if seam.kind == "closure" for span in seam.a + seam.b]
    for step in level.path:
        piece = pattern.piece(step.piece)
        line = piece.inside_line(step.inside)
        if line is None:
            continue
        ends = np.array([line.curve.start, line.curve.end])
        for edge in piece.edges:
            length = edge.curve.length
            stretches = [sorted((s.start * length, s.end * length)) for s in closures if s.edge == edge.id]
            if edge.kind == "opening":
                stretches.append([0.0, length])
            if stretches:
                apart, places = trace(edge.curve).nearest(ends)
                reach = TOLERANCES.seam
                on = places[apart <= reach + TOLERANCES.polyline]
                if any(low - reach <= place <= high + reach for low, high in stretches for place in on):
                    return True
    return False
