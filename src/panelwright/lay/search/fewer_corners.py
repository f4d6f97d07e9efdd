"""An outline with fewer corners, in machine code: it only ever grows."""

from typing import Any

import numpy as np

from panelwright.geometry.arrays import Array
from panelwright.lay.search.machine_code import compiled

NEVER = 1e300


@compiled
def distance(x: float, y: float, a: Array, b: Array) -> float:
    """Of a point from a stretch."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    square = dx * dx + dy * dy
    along = 0.0 if square <= 0.0 else min(max(((x - a[0]) * dx + (y - a[1]) * dy) / square, 0.0), 1.0)
    px, py = x - a[0] - along * dx, y - a[1] - along * dy
    return float(np.sqrt(px * px + py * py))


@compiled
def side(a: Array, b: Array, c: Array) -> float:
    """Above 0 where c lies left of the way from a to b."""
    return float((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]))


@compiled
def touch(a: Array, b: Array, c: Array, d: Array) -> bool:
    """Whether two stretches cross or touch, or nearly so in one line."""
    if max(a[0], b[0]) < min(c[0], d[0]) or max(c[0], d[0]) < min(a[0], b[0]):
        return False
    if max(a[1], b[1]) < min(c[1], d[1]) or max(c[1], d[1]) < min(a[1], b[1]):
        return False
    one, two, three, four = side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b)
    apart = (one > 0.0 and two > 0.0) or (one < 0.0 and two < 0.0)
    return not (apart or (three > 0.0 and four > 0.0) or (three < 0.0 and four < 0.0))


@compiled
def is_free(points: Array, after: Any, made: Array, first: int, last: int) -> bool:
    """Whether a new way (start, corner, end), shape (3, 2), touches no edge from corner `first` on to `last`."""
    left, right = min(made[0, 0], made[1, 0], made[2, 0]), max(made[0, 0], made[1, 0], made[2, 0])
    low, high = min(made[0, 1], made[1, 1], made[2, 1]), max(made[0, 1], made[1, 1], made[2, 1])
    k = first
    while k != last:
        end = after[k]
        beside = max(points[k, 0], points[end, 0]) < left or min(points[k, 0], points[end, 0]) > right
        if not (beside or max(points[k, 1], points[end, 1]) < low or min(points[k, 1], points[end, 1]) > high):
            a, b = points[k], points[end]
            if touch(made[0], made[1], a, b) or touch(made[1], made[2], a, b):
                return False
        k = end
    return True


@compiled
def step_at(points: Array, before: Any, after: Any, k: int, corner: Array) -> float:
    """How much area grows if corner k goes (a hollow) or the edge from it does, its neighbours made to meet.

    `corner` takes the place where they meet. Of what cannot be done comes `NEVER`.
    """
    a, here, b = points[before[k]], points[k], points[after[k]]
    turn = side(a, here, b)
    if turn <= 0.0:
        return abs(turn)
    c = points[after[after[k]]]
    ux, uy, vx, vy = here[0] - a[0], here[1] - a[1], c[0] - b[0], c[1] - b[1]
    edge_x, edge_y = b[0] - here[0], b[1] - here[1]
    span = ux * vy - uy * vx
    if side(here, b, c) <= 0.0 or span <= 1e-9 * np.sqrt((ux * ux + uy * uy) * (vx * vx + vy * vy)):
        return NEVER
    share = (edge_x * vy - edge_y * vx) / span
    corner[0], corner[1] = here[0] + share * ux, here[1] + share * uy
    return float(abs(edge_x * share * uy - edge_y * share * ux))


@compiled
def fewer_corners(outline: Array, most: float, few: int) -> Array:
    """The outline, shape (n, 2), anticlockwise and open, with fewer corners.

    Args:
        outline: to simplify.
        most: how far it may grow anywhere, in its own unit.
        few: corners at which it is simple enough.

    What grows it least is done first. `off` of an edge bounds how far it is from the first outline.
    """
    count = len(outline)
    points, off, left = outline.copy(), np.zeros(count), count
    before, after = (np.arange(count) - 1) % count, (np.arange(count) + 1) % count
    gone = np.zeros(count, np.bool_)
    corner, way = np.empty(2), np.empty((3, 2))
    grows = np.array([step_at(points, before, after, k, corner) for k in range(count)])
    while left > max(few, 3):
        k = int(np.argmin(grows))
        if grows[k] >= NEVER:
            break
        a, b = before[k], after[k]
        step_at(points, before, after, k, corner)
        hollow = side(points[a], points[k], points[b]) <= 0.0
        grows[k] = NEVER
        if hollow:
            error = max(off[a], off[k]) + distance(points[k, 0], points[k, 1], points[a], points[b])
            way[0], way[1], way[2] = points[a], points[b], points[b]
            # The edges next to the new one share its ends: of them only what turns back onto it is in the way.
            if error > most or not is_free(points, after, way, after[b], before[a]):
                continue
            if turns_back(points[before[a]], points[a], points[b]) or turns_back(
                points[after[b]], points[b], points[a]
            ):
                continue
            off[a], lost = error, k
        else:
            error = off[k] + distance(corner[0], corner[1], points[k], points[b])
            way[0], way[1], way[2] = points[k], corner, points[b]
            if error > most or not is_free(points, after, way, after[after[b]], before[a]):
                continue
            if is_in_way(points, before[a], a, way) or is_in_way(points, after[b], after[after[b]], way):
                continue
            off[a], off[b] = max(off[a], error), max(off[b], error)
            points[k], lost = corner, b
            off[k] = off[b]
        gone[lost], grows[lost] = True, NEVER
        after[before[lost]], before[after[lost]] = after[lost], before[lost]
        left -= 1
        near = before[before[before[lost]]]
        for _ in range(7):
            grows[near] = step_at(points, before, after, near, corner)
            near = after[near]
    return points[~gone]


@compiled
def turns_back(other: Array, end: Array, far: Array) -> bool:
    """Whether an edge from `end` to `other` runs along one from `end` to `far`."""
    ux, uy, vx, vy = other[0] - end[0], other[1] - end[1], far[0] - end[0], far[1] - end[1]
    return bool(ux * vx + uy * vy > 0.0 and abs(ux * vy - uy * vx) <= 1e-12 * (ux * ux + uy * uy + vx * vx + vy * vy))


@compiled
def is_in_way(points: Array, start: int, end: int, way: Array) -> bool:
    """Whether an edge touches a new corner's two edges."""
    a, b = points[start], points[end]
    return touch(way[0], way[1], a, b) or touch(way[1], way[2], a, b)
