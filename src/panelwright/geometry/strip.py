"""The strip of allowance along each edge of an outline, as points on the edge and offset from it.

Points and directions are complex numbers, x + iy, as in `corner`.
"""

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from numpy.typing import NDArray

from panelwright.geometry.arrays import Array
from panelwright.geometry.corner import Run
from panelwright.geometry.curve import Curve
from panelwright.geometry.tolerances import TOLERANCES

# Two offset points of one place on the edge that are nearer than this are one: its cubics run on smoothly there.
_SAME: Final = 1e-3
_PROBES: Final = np.array([0.1, 0.3, 0.5, 0.7, 0.9])
# A cubic whose end control point lies on its end has no speed there; its direction is read this little farther on.
_SLOW: Final = 1e-6
_NUDGE: Final = 1e-5
# Curvature varies between the probes, so chords are aimed this near, mm.
_AIM: Final = 0.6 * TOLERANCES.polyline


@dataclass(frozen=True)
class Strip:
    """An edge and its offset.

    Attributes:
        line: points on the edge, within `TOLERANCES.polyline` of it, shape (m,).
        run: points of the true offset, away from the piece, within the same of it, shape (k,).
        enter, leave: unit directions of travel where the edge starts and where it ends.
        regular: the offset never turns back: no hollow of the edge is tighter than its allowance.
    """

    line: Run
    run: Run
    enter: complex
    leave: complex
    regular: bool


def strips(curves: Sequence[Curve], widths: Sequence[float]) -> list[Strip]:
    """The strip of each edge, all sampled at once; a bend inside an edge that turns left is rounded."""
    counts = [len(curve.cubics) for curve in curves]
    cubics: Run = np.concatenate([curve.cubics for curve in curves]).view(np.complex128)[..., 0]
    width = np.repeat(np.asarray(widths, float), counts)
    steps = _steps(cubics, width)
    first = np.concatenate([[0], np.cumsum(steps + 1)])
    which = np.repeat(np.arange(len(cubics)), steps + 1)
    t = (np.arange(len(which)) - first[which]) / steps[which]
    line, travel = _frames(cubics[which], t)
    run = line - 1j * width[which] * travel
    forward = (travel[:-1].conjugate() * np.diff(run)).real >= 0
    forward[first[1:-1] - 1] = True
    found, cubic = [], 0
    for count in counts:
        low, high = int(first[cubic]), int(first[cubic + count])
        joints = first[cubic + 1 : cubic + count] - low
        ends, regular = (complex(travel[low]), complex(travel[high - 1])), bool(forward[low : high - 1].all())
        strip = Strip(line[low:high], run[low:high], *ends, regular)
        found.append(_joined(strip, joints, float(width[cubic])) if count > 1 else strip)
        cubic += count
    return found


def _joined(strip: Strip, joints: NDArray[np.intp], width: float) -> Strip:
    """The strip without the doubled points at the joints of its cubics, and with an arc where the edge bends there."""
    single = np.full(len(strip.line), True)
    single[joints] = False
    line = strip.line[single]
    bent = np.abs(strip.run[joints] - strip.run[joints - 1]) > _SAME
    if not bent.any():
        return replace(strip, line=line, run=strip.run[single])
    parts: list[Run] = []
    regular = strip.regular
    for k, part in enumerate(np.split(strip.run, joints)):
        if k and bent[k - 1]:
            middle = complex(strip.line[joints[k - 1]])
            arc = _arc(middle, complex(parts[-1][-1]), complex(part[0]), width)
            regular = regular and arc is not None
            parts += [] if arc is None else [arc]
        parts.append(part if not k or bent[k - 1] else part[1:])
    return replace(strip, line=line, run=np.concatenate(parts), regular=regular)


def _arc(middle: complex, start: complex, end: complex, radius: float) -> Run | None:
    """Points between `start` and `end` on their circle about `middle`; None if it turns right."""
    angle = cmath.phase((end - middle) / (start - middle))
    if angle < 0:
        return None
    parts = math.ceil(angle / (2 * math.acos(max(0.0, 1 - TOLERANCES.polyline / radius))))
    arc: Run = middle + (start - middle) * np.exp(1j * angle * np.arange(1, parts) / parts)
    return arc


def _steps(cubics: Run, width: Array) -> NDArray[np.intp]:
    """Equal parameter steps per cubic that keep the chords of both the edge and its offset within tolerance.

    The chord error of B is at most |B''| h² / 8; the offset by w of a curve of curvature k is (1 + w k) times as long.
    """
    second = 6 * np.abs(np.diff(cubics, 2, axis=1))
    velocity, acceleration = _derivatives(cubics[:, None], _PROBES)
    speed = np.maximum(np.abs(velocity), 1e-9)
    curvature = (velocity.conjugate() * acceleration).imag / speed**3
    stretch = np.clip((1 + width[:, None] * curvature).max(axis=1), 1.0, 25.0)
    steps = np.sqrt(second.max(axis=1) * stretch / (8 * _AIM))
    whole: NDArray[np.intp] = np.maximum(1, np.ceil(steps)).astype(np.intp)
    return whole


def _frames(cubics: Run, t: Array) -> tuple[Run, Run]:
    """(point, unit direction of travel) of each cubic at its own parameter."""
    s = 1 - t
    points = s**3 * cubics[:, 0] + 3 * s * s * t * cubics[:, 1] + 3 * s * t * t * cubics[:, 2] + t**3 * cubics[:, 3]
    velocity, _ = _derivatives(cubics, t)
    speed = np.abs(velocity)
    slow = speed < _SLOW
    if slow.any():
        velocity[slow], _ = _derivatives(cubics[slow], np.clip(t[slow], _NUDGE, 1 - _NUDGE))
        speed[slow] = np.abs(velocity[slow])
    return points, velocity / np.maximum(speed, 1e-300)


def _derivatives(cubics: Run, t: Array) -> tuple[Run, Run]:
    """First and second derivative of cubics (..., 4) at parameters that broadcast with (...)."""
    s = 1 - t
    d = 3 * np.diff(cubics, axis=-1)
    e = 2 * np.diff(d, axis=-1)
    return s * s * d[..., 0] + 2 * s * t * d[..., 1] + t * t * d[..., 2], s * e[..., 0] + t * e[..., 1]
