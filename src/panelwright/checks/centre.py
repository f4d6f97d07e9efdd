"""Rule 6 at a centre that is closed or edge to edge: finished edges meet it at a right angle."""

import math
from collections.abc import Iterator

from panelwright.checks.corner import chain_corner
from panelwright.checks.fold import square_off, square_words
from panelwright.checks.shell import own_seams
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Seam


def check_centres(cutting: CuttingPattern) -> tuple[Finding, ...]:
    """`centre-angle` errors. A centre that stands open over a gap, or laps, is left free."""
    pattern = cutting.pattern
    centres = (seam for seam in own_seams(pattern) if seam.is_centre and not _apart(pattern, seam))
    return tuple(finding for seam in centres for finding in _check(pattern, seam))


def _apart(pattern: Pattern, seam: Seam) -> bool:
    pieces = {span.piece for span in seam.a}
    levels = (level for level in pattern.levels if pieces & {step.piece for step in level.path})
    return seam.kind == "closure" and any(level.gap or level.overlap for level in levels)


def _check(pattern: Pattern, seam: Seam) -> Iterator[Finding]:
    for at_end in (False, True):
        here, there = (chain_corner(pattern, chain[-1 if at_end else 0], at_end) for chain in (seam.a, seam.b))
        if here and there and square_off(here) > TOLERANCES.right_angle:
            off, limit = math.degrees(square_off(here)), math.degrees(TOLERANCES.right_angle)
            message, remedy = square_words(pattern, here, "the centre")
            yield Finding("centre-angle", "error", seam.id, off, limit, message, remedy, here.piece.id, here.at, "°")
