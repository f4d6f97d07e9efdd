"""The corner of a cut line: how the allowances of two edges that meet are led to each other.

Points and directions here are complex numbers, x + iy: a turn is a product, a dot product a real part.
"""

import math
from dataclasses import dataclass
from typing import Any, Final, Literal

import numpy as np
from numpy.typing import NDArray

CornerStyle = Literal["mitre", "square", "fold_back"]
Run = NDArray[np.complex128]

# A mitre's tip is cut off square where it is farther from the corner than this many times the wider allowance.
MITRE_LIMIT: Final = 2.5
# So far at most a turned end cuts into the neighbour's allowance, as a multiple of the wider of both; beyond, it is
# mitred: on a hollow edge it would reach farther along the stitch line than a corner may.
EATEN_LIMIT: Final = 4 / 3
# A squared or folded end would run away along its neighbour at inner angles below 45° or above 135°, and where it would
# pass that limit: such a corner is mitred.
_LEAST_SINE: Final = math.sqrt(0.5) - 1e-9
# Edges that turn by less than this run on smoothly, radians.
_SMOOTH: Final = 1e-4
_SAME: Final = 1e-9


@dataclass(frozen=True)
class Arm:
    """One of the two edges at a corner.

    Attributes:
        out: unit direction in which the edge would run on through the corner, off its own end.
        normal: unit direction away from the piece.
        width: its allowance, mm.
    """

    out: complex
    normal: complex
    width: float


def dot(direction: complex, vectors: Any) -> Any:
    """Dot product of a plane vector with one vector or with each of an array of them."""
    return (direction.conjugate() * vectors).real


def meet(
    before: Run, after: Run, corner: complex, arms: tuple[Arm, Arm], style: CornerStyle, turned: Literal[0, 1]
) -> tuple[Run, Run]:
    """The cut lines of two edges, lengthened or cut short so that they meet at a corner which turns left.

    Args:
        before, after: offset points of the edge that ends at the corner and of the one that starts there, shape (m,).
        arms: the two edges, in the same order.
        turned: the arm whose allowance is squared or folded back.

    Returns:
        The two runs in the same order. Between the end of one and the start of the other the cut line is straight.

    - `mitre`: both cut lines run straight on until they meet. Each allowance is the flat prolongation of its
      piece, which matches when both allowances of a seam are pressed to the other side.
    - `square`: the turned allowance ends square to its stitch line, at the place where that line crosses the other
      cut line. Both allowances of a seam then end alike at whatever angles the pieces meet: right for a seam that
      is bagged out.
    - `fold_back`: the turned allowance ends in the mirror image of the other cut line, mirrored at its own stitch
      line. Pressed back on its own piece it ends with it: right for a hem that is turned up, and for a seam
      that is pressed open.
    """
    sine, cosine = float(dot(arms[0].out, arms[1].normal)), float(dot(arms[0].normal, arms[1].normal))
    if abs(sine) < _SMOOTH and cosine > 0:
        return _smooth(before, after, arms)
    if style != "mitre" and sine > _LEAST_SINE and arms[turned].width:
        widest = max(arm.width for arm in arms)
        limit = MITRE_LIMIT * widest
        if turned == 0:
            found = _turned(before, after, corner, arms[0], arms[1], style)
        else:
            run, other = _turned(after[::-1], before[::-1], corner, arms[1], arms[0], style)
            found = other[::-1], run[::-1]
        reach = [abs(found[0][-1] - corner), abs(found[1][0] - corner)]
        if max(reach) <= limit and reach[1 - turned] <= EATEN_LIMIT * widest:
            return found
    return _mitred(before, after, corner, arms, sine, cosine)


def _smooth(before: Run, after: Run, arms: tuple[Arm, Arm]) -> tuple[Run, Run]:
    """Two runs of one width meet in the middle of the hair's breadth between them; of two, the wide one steps down."""
    if abs(before[-1] - after[0]) < 0.01:
        middle = (before[-1] + after[0]) / 2
        return np.append(before[:-1], middle), np.append(middle, after[1:])
    if arms[0].width > arms[1].width:
        return np.append(before, after[0]), after
    return before, np.append(before[-1], after)


def _mitred(
    before: Run, after: Run, corner: complex, arms: tuple[Arm, Arm], sine: float, cosine: float
) -> tuple[Run, Run]:
    """Both run straight on; a wide allowance that the narrow one would cut into ends square to its edge instead."""
    one, two = arms
    if two.width < one.width * cosine:
        return before, np.append(corner + one.normal * two.width / cosine, after)
    if one.width < two.width * cosine:
        return np.append(before, corner + two.normal * one.width / cosine), after
    tip = one.normal * one.width + one.out * (two.width - one.width * cosine) / max(sine, _SAME)
    limit = MITRE_LIMIT * max(one.width, two.width)
    if abs(tip) > limit:
        way = tip / abs(tip)
        first, second = (arm.normal * arm.width + arm.out * _reach(arm, way, limit) for arm in arms)
        return np.append(before, corner + first), np.append(corner + second, after)
    if abs(corner + tip - before[-1]) < _SAME:
        return before, after
    return np.append(before, corner + tip), np.append(corner + tip, after)


def _reach(arm: Arm, way: complex, limit: float) -> float:
    """How far an arm's cut line runs on until it is `limit` away from the corner, measured along `way`."""
    return float((limit - dot(way, arm.normal) * arm.width) / dot(way, arm.out))


def _turned(run: Run, other: Run, corner: complex, arm: Arm, beside: Arm, style: CornerStyle) -> tuple[Run, Run]:
    """`arm` squared or folded back: `run` leads to the corner along it, `other` leads away along `beside`."""
    side = float(dot(arm.normal, other[0] - corner))
    if side > _SAME:
        other = trimmed(other[::-1], corner, arm.normal)[::-1]
    elif side < -_SAME:
        other = np.append(corner + arm.out * beside.width / float(dot(arm.out, beside.normal)), other)
    mirrored = 2 * dot(arm.out, -beside.out) * arm.out + beside.out
    end_line = arm.normal if style == "square" else mirrored
    beyond = end_line * (1j if dot(end_line * 1j, arm.out) > 0 else -1j)
    start = complex(other[0])
    if dot(beyond, run[-1] - start) > _SAME:
        return trimmed(run, start, beyond), other
    return np.append(run, start + end_line * float(arm.width / dot(arm.normal, end_line))), other


def at_fold(run: Run, fold: complex, outward: complex, arm: Arm) -> Run:
    """`run`, which leads to a fold along `arm`, cut off or run straight on to end on the fold's own line.

    Args:
        fold: a point on the fold line.
        outward: unit normal of the fold, away from the piece.
    """
    beyond = float(dot(outward, run[-1] - fold))
    if beyond > _SAME:
        return trimmed(run, fold, outward)
    if beyond < -_SAME:
        return np.append(run, run[-1] - arm.out * beyond / max(float(dot(outward, arm.out)), _SAME))
    return run


def trimmed(run: Run, origin: complex, beyond: complex) -> Run:
    """`run`, which ends beyond the line through `origin` with normal `beyond`, up to where it last crosses that line.

    A run that lies beyond it entirely keeps its first point.
    """
    over = dot(beyond, run - origin)
    inside = np.flatnonzero(over <= 0)
    if not len(inside):
        return run[:1]
    k = int(inside[-1])
    if k + 1 == len(run):
        return run
    share = over[k] / (over[k] - over[k + 1])
    return np.append(run[: k + 1], run[k] + share * (run[k + 1] - run[k]))
