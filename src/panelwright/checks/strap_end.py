"""Where the two halves of a strap meet at the shoulder: as wide in front as behind, with squared ends."""

import math
from collections.abc import Iterator
from typing import Final

from panelwright.body.units import Unit, format_length
from panelwright.checks.corner import Corner, chain_corner, degrees
from panelwright.checks.shell import own_seams
from panelwright.checks.shoulder import is_shoulder_seam
from panelwright.checks.wearing import Wearing
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.line import SHOULDER
from panelwright.pattern.mark import as_point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Seam

SAME_WIDTH: Final = 1.0  # mm that front and back may differ (CP)


def check_strap_ends(cutting: CuttingPattern, wearing: Wearing) -> tuple[Finding, ...]:
    """`strap-width` and `strap-end`, warnings: front and back do not meet in one width, or not at a right angle.

    Only straps are judged, whose line is a step's own; the shoulder of a bodice may be eased and slant.
    """
    pattern = cutting.pattern
    straps = [
        seam
        for seam in own_seams(pattern)
        if is_shoulder_seam(pattern, seam) and pattern.edge(seam.a[0]).line != SHOULDER
    ]
    return tuple(finding for seam in straps for finding in (*_width(pattern, seam, wearing), *_ends(pattern, seam)))


def _width(pattern: Pattern, seam: Seam, wearing: Wearing) -> Iterator[Finding]:
    front, back = pattern.chain_length(seam.a), pattern.chain_length(seam.b)
    off = abs(front - back)
    if off <= SAME_WIDTH:
        return
    alike = format_length(front, wearing.unit) == format_length(back, wearing.unit)
    shown = [format_length(length, Unit.MM if alike else wearing.unit) for length in (front, back, off)]
    yield Finding(
        "strap-width", "warning", seam.id, off, SAME_WIDTH,
        f"At the shoulder the strap is {shown[0]} wide on one side of its seam and {shown[1]} on the other, {shown[2]} "
        "apart: its edge has a step there.",
        "Draw both halves in one width where they meet, and let the rest taper away from the shoulder.",
        seam.a[0].piece, as_point(pattern.span_curve(seam.a[0]).start),
    )  # fmt: skip


def _ends(pattern: Pattern, seam: Seam) -> Iterator[Finding]:
    corners = [corner for chain in (seam.a, seam.b) for at_end in (False, True)
               if (corner := chain_corner(pattern, chain[-1 if at_end else 0], at_end))]  # fmt: skip
    worst = max((corner for corner in corners if not corner.pointed), key=_off, default=None)
    if worst is None or _off(worst) <= TOLERANCES.right_angle:
        return
    off, limit = math.degrees(_off(worst)), math.degrees(TOLERANCES.right_angle)
    yield Finding(
        "strap-end", "warning", seam.id, off, limit,
        f"{worst.piece.label}: the strap's edge meets its shoulder seam at {degrees(worst.angle)}, not at 90°: sewn "
        "and turned, the edge has a point or a dip over the shoulder.",
        "Square the strap's end: let its last stretch run straight and at right angles to the shoulder seam.",
        worst.piece.id, worst.at, "°",
    )  # fmt: skip


def _off(corner: Corner) -> float:
    """How far from a right angle, radians."""
    return abs(corner.angle - math.pi / 2)
