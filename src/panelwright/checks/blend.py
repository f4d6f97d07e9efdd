"""Rule 7: where a seam blends, the finished edges that meet at its ends run on across it."""

import math
from collections.abc import Iterator

from panelwright.checks.corner import chain_corner, degrees
from panelwright.checks.design_words import drawing_step, met_words
from panelwright.checks.shell import own_seams
from panelwright.file_words import in_file
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Seam


def check_blends(cutting: CuttingPattern) -> tuple[Finding, ...]:
    """`blend` errors: the two inner angles at a seam's end do not add to 180°, and no point was asked for."""
    seams = (seam for seam in own_seams(cutting.pattern) if seam.blend and not seam.is_centre)
    return tuple(finding for seam in seams for finding in _check(cutting.pattern, seam))


def _check(pattern: Pattern, seam: Seam) -> Iterator[Finding]:
    for at_end in (False, True):
        here, there = (chain_corner(pattern, chain[-1 if at_end else 0], at_end) for chain in (seam.a, seam.b))
        if here is None or there is None or here.pointed or there.pointed:
            continue
        total = here.angle + there.angle
        if abs(total - math.pi) > TOLERANCES.right_angle:
            edge, shape = met_words(pattern, here.finished.line), "point" if total < math.pi else "dip"
            message = (
                f"{here.piece.label} and {there.piece.label}: sewn together, {edge} has a {shape} at the seam; its "
                f"angles add to {degrees(total)}, not to 180°."
            )
            step = drawing_step(pattern, here.finished.line)
            remedy = "Lay the pieces together at the seam and redraw the edge to run on smoothly, or ask for a point."
            if step is not None:
                way = f"move or take out the points nearest to this seam{in_file('points')}"
                remedy = (
                    f"In {step} {way}, or make a point there a sharp turn if you want it so{in_file('corner, true')}."
                )
            off, limit = math.degrees(abs(total - math.pi)), math.degrees(TOLERANCES.right_angle)
            yield Finding("blend", "error", seam.id, off, limit, message, remedy, here.piece.id, here.at, "°")
