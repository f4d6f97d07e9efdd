"""Corners of an outline: where its direction jumps, and not where it only bends."""

from collections.abc import Sequence
from typing import Final

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import make_lsq_spline
from scipy.ndimage import gaussian_filter1d

from panelwright.geometry.arrays import Array, cross, turn
from panelwright.intake.closed_line import even, line_noise

# (length of outline on either side that is looked at, mm; mm next to the corner that are not; least turn, degrees):
# the more is seen, the less is asked.
SCALES: Final = ((1.4, 0.3, 20.0), (2.4, 0.4, 17.0), (4.0, 0.5, 15.0), (7.0, 0.5, 12.0))
STEP: Final = 0.2
_SHORT: Final = 4.0  # mm: the longest edge beside a corner that is taken for straight
_NEAR: Final = 1.5  # mm: two corners nearer than this are one
_SURE: Final = 3.5  # standard deviations that a turn must have
_ALIKE: Final = 0.8  # mm along an outline over which its errors are alike
_SHARP: Final = np.radians(60.0)  # a larger turn within the smallest scale needs no second look
_ROOM: Final = 6.0  # mm on either side of a corner for the second look
_JOINT: Final = 2.4  # mm between the joints of a line that bends as sharply as any edge may
_FREE: Final = 4.8  # mm on either side that the second look needs to be as strict as it can
_WORSE: Final = 2.2  # times as far off as two lines with a corner
# On a rough outline, whose corners are rounded, less is asked of a clear turn.
_WORSE_ROUGH: Final = 1.2
_NOISY: Final = (0.02, 0.03)  # mm
_CLEAR_TURN: Final = np.radians(25.0)
# Two corners this near that one corner, or none, explains to within so much are no two, mm.
_TWINS: Final = 3.5
_ALL_ONE: Final = 0.45
_JOG: Final = 0.35
# Turn that a corner must have over the longest lines that it leaves room for, on a smooth outline and on a rough one.
_LEAST: Final = np.radians(11.0)
_LEAST_ROUGH: Final = np.radians(18.0)
_ROUGH: Final = (0.025, 0.035)  # mm


def corner_places(outline: Array) -> Array:
    """Corners of a closed outline, shape (k, 2), mm, in its order.

    On either side of every place a parabola is laid through the outline, over several lengths. Where the two do not go
    on in one direction there may be a corner: a bend is followed by the parabolas. The corner itself is where they
    cross. It is kept if a smooth line through the place, free to bend within 2 mm, stays farther off the outline than
    the outline's own noise explains.
    """
    line = even(outline, STEP)
    noise = line_noise(line, STEP)
    kept: list[tuple[int, tuple[float, float, float]]] = []
    for scale in SCALES:
        reach = scale[0]
        turns = np.abs(_turns(line, scale))
        least = max(np.radians(scale[2]), _SURE * _turn_error(noise, scale))
        peaks = [k for k in _peaks(turns, round(_NEAR / STEP)) if turns[k] > least]
        room = max(_NEAR, 0.75 * reach)
        for k in sorted(peaks, key=lambda k: -turns[k]):
            if all(_between(k, other, len(line)) * STEP > room for other, _ in kept):
                kept.append((int(k), scale))
    kept += _beside(line, noise, [k for k, _ in kept])
    kept.sort()
    sharp = kept
    for _ in range(2):  # a wrong neighbour leaves a corner too little room: once more among those that stood
        places = [k for k, _ in sharp]
        sharp = [each for each in kept if _is_sharp(line, noise, each[0], each[1], places)]
    stood = _settled(line, [k for k, _ in sharp], noise)
    return np.array([_corner(line, k, _widest(line, k, stood)) for k in stood]).reshape(-1, 2)


def _beside(line: Array, noise: float, places: list[int]) -> list[tuple[int, tuple[float, float, float]]]:
    """Corners at the other end of an edge too short for a parabola, where a straight line stands for it."""
    scale = SCALES[1]
    found: list[tuple[int, tuple[float, float, float]]] = []
    for corner in places:
        for side in (-1, 1):
            apart = np.arange(round(_NEAR / STEP), round(_SHORT / STEP) + 1)
            away = _arms(line, scale, side)[1][(corner + side * apart) % len(line)]
            turns = [
                abs(turn(side * way, _straight(line, corner, side, int(k)))) for way, k in zip(away, apart, strict=True)
            ]
            best = int(np.argmax(turns))
            k = (corner + side * int(apart[best])) % len(line)
            error = _SURE * noise * float(np.sqrt(12 * _ALIKE / apart[best])) / (STEP * float(apart[best]))
            free = all(_between(k, other, len(line)) * STEP > 1.2 for other in [*places, *(each[0] for each in found)])
            if 0 < best < len(turns) - 1 and turns[best] > max(np.radians(scale[2]), error) and free:
                found.append((k, scale))
    return found


def _straight(line: Array, corner: int, side: int, apart: int) -> Array:
    """Direction from a corner towards the place so many points on, along the outline between them."""
    skipped = round(0.3 / STEP)
    part = line[(corner + side * np.arange(skipped, apart - skipped + 1)) % len(line)]
    at = np.arange(len(part)) - (len(part) - 1) / 2
    return np.asarray(at @ part, float)


def _turn_error(noise: float, scale: tuple[float, float, float]) -> float:
    """Standard deviation of a turn, radians."""
    weights = _weights(scale, 1)[1][1]
    return float(np.linalg.norm(weights)) * noise * float(np.sqrt(2 * _ALIKE / STEP))


def _weights(scale: tuple[float, float, float], side: int) -> tuple[NDArray[np.intp], Array]:
    """(points on one side, from the place itself; what to multiply them by for each term of the parabola)."""
    reach, skipped, _ = scale
    at = side * np.arange(round(skipped / STEP), round(reach / STEP) + 1)
    return at, np.asarray(np.linalg.pinv(np.vander(at * STEP, 3, increasing=True)), float)


def _turns(line: Array, scale: tuple[float, float, float]) -> Array:
    """By how much the direction jumps at each point, radians, positive to the left."""
    before, after = (_arms(line, scale, side)[1] for side in (-1, 1))
    return np.asarray(np.arctan2(cross(before, after), (before * after).sum(axis=1)), float)


def _arms(line: Array, scale: tuple[float, float, float], side: int) -> tuple[Array, Array]:
    """(place, direction of travel) at each point of the parabola through the outline on one side of it."""
    at, weights = _weights(scale, side)
    near = line[(np.arange(len(line))[:, None] + at) % len(line)]
    place, way = (np.einsum("m,nmk->nk", weights[k], near) for k in (0, 1))
    return place, way


def _peaks(values: Array, reach: int) -> NDArray[np.intp]:
    """Where a closed row of values is highest within `reach` on both sides."""
    around = np.stack([np.roll(values, k) for k in range(-reach, reach + 1)])
    return np.flatnonzero(values >= around.max(axis=0))


def _between(a: int, b: int, count: int) -> int:
    apart = abs(a - b)
    return min(apart, count - apart)


def _is_sharp(line: Array, noise: float, k: int, scale: tuple[float, float, float], places: list[int]) -> bool:
    """Whether a smooth line misses the place by more than two lines that meet there do."""
    if scale is SCALES[0] and abs(_turns(np.roll(line, -k, axis=0), scale)[0]) > _SHARP:
        return True
    room = []
    for side in (-1, 1):
        apart = [(side * (other - k)) % len(line) for other in places if other != k]
        room.append(max(round(1.2 / STEP), min([round(_ROOM / STEP), *(a - round(0.4 / STEP) for a in apart)])))
    part = line[np.arange(k - room[0], k + room[1] + 1) % len(line)]
    whole = _off(part, [])
    parted = _off(part, [room[0]])
    near = slice(max(0, room[0] - round(1.6 / STEP)), room[0] + round(1.6 / STEP) + 1)
    # Between near corners a smooth line has little to follow and comes closer.
    floor = max((0.8 * noise + 0.012) * min(1.0, (min(room) * STEP / _FREE) ** 2), 0.4 * noise)
    clear = scale[0] > 2.0 and abs(_turn_at(line, k, scale)) > _CLEAR_TURN
    worse = float(np.interp(noise, _NOISY, (_WORSE, _WORSE_ROUGH))) if clear else _WORSE
    return float(np.abs(whole[near]).max()) > worse * max(float(np.abs(parted[near]).max()), floor)


def _off(part: Array, corners: list[int]) -> Array:
    """How far smooth lines stay off a part of the outline, noise aside, shape (n,); they meet at the `corners`."""
    along = STEP * np.arange(len(part))
    joints = np.linspace(0.0, along[-1], max(2, round(along[-1] / _JOINT) + 1))[1:-1]
    triple = [along[k] for k in corners for _ in range(3)]
    if corners:
        joints = joints[np.abs(joints - along[corners[0]]) > 0.5 * _JOINT]
    knots = np.concatenate([[along[0]] * 4, np.sort([*joints, *triple]), [along[-1]] * 4])
    try:
        rest = part - make_lsq_spline(along, part, knots, 3)(along)
    except (ValueError, np.linalg.LinAlgError):
        return np.zeros(len(part))
    way = np.gradient(gaussian_filter1d(part, 0.6 / STEP, axis=0, mode="nearest"), axis=0)
    normal = np.column_stack([-way[:, 1], way[:, 0]]) / np.maximum(np.hypot(*way.T), 1e-9)[:, None]
    return np.asarray(gaussian_filter1d((rest * normal).sum(axis=1), 0.4 / STEP, mode="nearest"), float)


def _settled(line: Array, places: list[int], noise: float) -> list[int]:
    """The corners without those that a speck of the table beside the edge makes: twins, jogs and slight kinks."""
    kept = sorted(places)
    for _ in range(len(kept)):
        pair = next(
            (p for p in zip(kept, kept[1:] + kept[:1], strict=True) if _instead(line, kept, *p) is not None), None
        )
        if pair is None or len(kept) < 3:
            break
        one = _instead(line, kept, *pair)
        kept = sorted({*(k for k in kept if k not in pair), *(one or [])})
    least = float(np.interp(noise, _ROUGH, (_LEAST, _LEAST_ROUGH)))
    return [k for k in kept if _turn_at(line, k, _widest(line, k, kept, SCALES)) > least]


def _instead(line: Array, places: list[int], a: int, b: int) -> list[int] | None:
    """What stands for two corners that follow each other: one in [], none as [], or None where both are to stay."""
    if a == b or ((b - a) % len(line)) * STEP > _TWINS:
        return None
    rest = [k for k in places if k not in (a, b)]
    before = _straight_arm(line, a, -1, rest)
    after = _straight_arm(line, b, 1, rest)
    turning = float(cross(before[1], after[1]))
    part = line[np.arange(a, a + (b - a) % len(line) + 1) % len(line)]
    if abs(turning) < np.sin(_LEAST):
        off = max(float(np.abs(cross(part - point, way)).max()) for point, way in (before, after))
        return [] if float(before[1] @ after[1]) > 0 and off < _JOG else None
    crossing = before[0] + float(cross(after[0] - before[0], after[1])) / turning * before[1]
    near = np.hypot(*(part - crossing).T)
    if near.min() > _ALL_ONE:
        return None
    return [int((a + int(near.argmin())) % len(line))]


def _straight_arm(line: Array, k: int, side: int, others: list[int]) -> tuple[Array, Array]:
    """(end at the corner, direction of travel) of the parabola through the outline on one side of a corner."""
    scale = _widest(line, k, others)
    window = np.roll(line, len(line) // 2 - k, axis=0)
    place, way = (part[len(line) // 2] for part in _arms(window, scale, side))
    return np.asarray(place, float), np.asarray(way / np.linalg.norm(way), float)


def _turn_at(line: Array, k: int, scale: tuple[float, float, float]) -> float:
    return float(abs(_turns(np.roll(line, len(line) // 2 - k, axis=0), scale)[len(line) // 2]))


def _widest(
    line: Array, k: int, corners: list[int], scales: Sequence[tuple[float, float, float]] = SCALES[:3]
) -> tuple[float, float, float]:
    """The longest scale, usually up to 4 mm, that reaches no other corner."""
    room = min((_between(k, other, len(line)) * STEP for other in corners if other != k), default=np.inf)
    return max((scale for scale in scales if scale[0] < room - 0.4), default=SCALES[0])


def _corner(line: Array, k: int, scale: tuple[float, float, float]) -> Array:
    """Where the parabolas before and after point k cross; the middle of their ends where they hardly do."""
    window = np.roll(line, len(line) // 2 - k, axis=0)
    middle = len(line) // 2
    (p, u), (q, v) = (tuple(part[middle] for part in _arms(window, scale, side)) for side in (-1, 1))
    turning = float(cross(u, v))
    halfway = np.asarray((p + q) / 2, float)
    if abs(turning) < 0.2 * float(np.linalg.norm(u) * np.linalg.norm(v)):
        return halfway
    crossing = p + float(cross(q - p, v)) / turning * u
    return np.asarray(crossing if np.linalg.norm(crossing - halfway) < 1.5 else halfway, float)
