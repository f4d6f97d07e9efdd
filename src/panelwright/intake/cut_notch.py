"""Small gaps in an outline: notches that were cut with scissors, and signs drawn so near the edge that they look so."""

from typing import Final

import numpy as np

from panelwright.geometry.arrays import Array, cross
from panelwright.intake.closed_line import even

STEP: Final = 0.3
_WIDE: Final = 6.0  # mm: a wider gap is part of the shape
_DEEP: Final = (1.0, 8.0)  # mm
_LONG: Final = 18.0  # mm round a gap
_MORE: Final = 1.2  # mm that the way round is longer than the way across
_BENT: Final = np.radians(16.0)  # between the gap's mouth and the outline on either side
_ARM: Final = 3.0  # mm of outline on either side


def without_gaps(outline: Array) -> tuple[Array, list[Array]]:
    """(the outline straight across its small gaps, shape (n, 2); the middle of the mouth of each).

    A gap is a narrow bay whose two sides begin on one smooth run of the outline.

    Args:
        outline: closed, anticlockwise, mm.
    """
    line = even(outline, STEP)
    mouths: list[Array] = []
    for _ in range(40):
        found = _widest(line)
        if found is None:
            break
        start, count = found
        line = np.roll(line, -start, axis=0)
        mouths.append((line[0] + line[count]) / 2)
        share = np.linspace(0, 1, count + 1)[:, None]
        line[: count + 1] = (1 - share) * line[0] + share * line[count]
    return (line, mouths) if mouths else (outline, mouths)


def _widest(line: Array) -> tuple[int, int] | None:
    """(first point, points) of the gap round which the way is longest against the way across."""
    best, found = _MORE, None
    arm = round(_ARM / STEP)
    for count in range(round(2.4 / STEP), min(round(_LONG / STEP), len(line) // 3)):
        across = np.roll(line, -count, axis=0) - line
        chord = np.hypot(*across.T)
        more = count * STEP - chord
        for k in np.flatnonzero((chord < _WIDE) & (chord > 0.4) & (more > best)):
            if more[k] > best and _is_gap(line, int(k), count, arm):
                best, found = float(more[k]), (int(k), count)
    return found


def _is_gap(line: Array, k: int, count: int, arm: int) -> bool:
    part = line[(k + np.arange(-arm, count + arm + 1)) % len(line)]
    before, after = part[arm] - part[0], part[-1] - part[-1 - arm]
    mouth = part[-1 - arm] - part[arm]
    bends = [abs(np.arctan2(cross(a, b), a @ b)) for a, b in ((before, mouth), (mouth, after), (before, after))]
    deep = cross(mouth / np.hypot(*mouth), part[arm:-arm] - part[arm])
    return bool(max(bends) < _BENT and _DEEP[0] < deep.max() < _DEEP[1] and deep.min() > -0.4)
