"""Rule 9: every piece has a grain line, inside it and long enough, along the centre front or square to the waist."""

import math
import re
from collections.abc import Iterator

import numpy as np
import shapely
from shapely import LineString

from panelwright.body.worded_length import least_words, length_words
from panelwright.checks.corner import degrees
from panelwright.checks.fold import between_lines
from panelwright.checks.outline import is_sound
from panelwright.checks.shell import own_pieces
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.level import WAIST
from panelwright.pattern.line import is_centre_front
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece


def check_grains(cutting: CuttingPattern) -> tuple[Finding, ...]:
    """`grain-outside`, `grain-short` and `grain` (its direction) errors. At a fold, `check_folds` judges it."""
    pattern = cutting.pattern
    free = _turned_by_design(pattern)
    found: list[Finding] = []
    for piece in filter(is_sound, own_pieces(pattern)):
        found += _outside(piece)
        found += _short(piece)
        if not free:
            found += _direction(piece)
    return tuple(found)


def _turned_by_design(pattern: Pattern) -> bool:
    """Whether a step speaks of grain: that is how a design says otherwise."""
    return any("grain" in re.split(r"[^a-z]+", step.kind.lower()) for step in pattern.steps)


def _outside(piece: Piece) -> Iterator[Finding]:
    line = LineString([piece.grain.start, piece.grain.end])
    if piece.outline.contains(line):
        return
    out = line.difference(piece.outline.buffer(TOLERANCES.grain_inside))
    if out.length > 0:
        message = f"{piece.label}: {length_words(out.length)} of the grain line lies outside the piece."
        remedy = "Move the grain line into the piece, or shorten it."
        x, y = shapely.get_coordinates(out)[0]
        yield Finding(
            "grain-outside", "error", piece.id, out.length, 0, message, remedy, piece.id, (float(x), float(y))
        )


def _short(piece: Piece) -> Iterator[Finding]:
    along = piece.grain.vector / piece.grain.length
    reach = float(np.ptp(shapely.get_coordinates(piece.outline) @ along))
    least = reach * TOLERANCES.grain_share
    if piece.grain.length < least:
        message = (
            f"{piece.label}: the grain line is {length_words(piece.grain.length)} long, less than a third of the "
            f"piece's {length_words(reach)} along it."
        )
        remedy = f"Draw it at least {least_words(least)} long, so that both its ends can be measured to the selvage."
        yield Finding(
            "grain-short", "error", piece.id, piece.grain.length, least, message, remedy, piece.id, piece.grain.start
        )


def _direction(piece: Piece) -> Iterator[Finding]:
    if any(edge.kind == "fold" for edge in piece.edges):
        return
    centre = next((edge.curve.chord for edge in piece.edges if is_centre_front(edge.line)), None)
    waist = piece.inside_line(WAIST)
    if centre is not None:
        skew, what = between_lines(centre, piece.grain.vector), "along the centre front"
    elif waist is not None and waist.kind == "level":
        skew = math.pi / 2 - between_lines(waist.curve.chord, piece.grain.vector)
        what = "square to the waist line"
    else:
        return
    if skew > TOLERANCES.grain:
        limit = TOLERANCES.grain
        message = f"{piece.label}: the grain line is {degrees(skew)} off {what}; the limit is {degrees(limit)}."
        remedy = f"Turn the grain line {what}; to cut on another grain on purpose, add a step that turns the grain."
        numbers = math.degrees(skew), math.degrees(limit)
        yield Finding("grain", "error", piece.id, *numbers, message, remedy, piece.id, piece.grain.start, "°")
