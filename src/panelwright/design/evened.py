"""A line with a hand's tremor evened out, and its corners kept sharp."""

from itertools import pairwise
from typing import Final

import numpy as np

from panelwright.geometry.arrays import Array, turn

GRID: Final = 5.0  # mm between the places that come back
WINDOW: Final = 12.0  # mm to either side over which the tremor is evened out
TURN: Final = np.radians(38.0)  # by which a line turns at a corner
LOOK: Final = 18.0  # mm to either side where that is seen
NEAR: Final = 4.0  # mm to either side of a corner where it is not
FARTHEST: Final = 10.0  # mm from where a corner was seen to where its two sides meet


def evened(line: Array) -> tuple[Array, tuple[int, ...]]:
    """(places about 5 mm apart along the line, shape (n, 2); the numbers of those that are corners).

    Each place lies on the straight line that fits its neighbours best, and neighbours beyond a corner do not count.

    Args:
        line: places in mm as they were drawn, shape (m, 2).
    """
    arcs = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(line, axis=0), axis=1))])
    turns = _corners(arcs, line)
    cuts = [0.0, *(arc for arc, _ in turns), float(arcs[-1])]
    places: list[Array] = []
    corners: list[int] = []
    for k, (start, end) in enumerate(pairwise(cuts)):
        own = (arcs >= start) & (arcs <= end)
        if not own.any():  # two corners with nothing drawn between them
            own = np.ones(len(arcs), bool)
        grid = np.linspace(start, end, max(2, round((end - start) / GRID) + 1))
        if k:
            corners.append(len(places))
            places.append(turns[k - 1][1])
            grid = grid[1:]
        if k + 1 < len(cuts) - 1:
            grid = grid[:-1]
        places += [_fitted(arcs[own], line[own], arc) for arc in grid]
    return np.array(places), tuple(corners)


def _fitted(arcs: Array, line: Array, arc: float) -> Array:
    """The place at an arc on the straight line that fits the places near it best."""
    apart = np.abs(arcs - arc)
    reach = max(WINDOW, float(np.sort(apart)[min(4, len(apart) - 1)]) * 1.01)
    near = apart <= reach
    if near.sum() < 3:
        return np.array([np.interp(arc, arcs, line[:, axis]) for axis in (0, 1)])
    weights = (1 - (apart[near] / (1.01 * reach)) ** 3) ** 1.5
    return np.array([np.polyfit(arcs[near] - arc, line[near, axis], 1, w=weights)[1] for axis in (0, 1)])


def _corners(arcs: Array, line: Array) -> list[tuple[float, Array]]:
    """(arc, where its two sides meet) of every corner."""
    grid = np.arange(LOOK, float(arcs[-1]) - LOOK, 1.0)
    turns = np.array([abs(turn(*(way for _, way in _sides(arcs, line, arc)))) for arc in grid])
    found: list[tuple[float, Array]] = []
    for k in np.flatnonzero(turns > TURN).tolist():
        near = turns[max(0, k - int(LOOK / 2)) : k + int(LOOK / 2) + 1]
        if turns[k] == near.max():
            arc = float(grid[k])
            (a, along), (b, onwards) = _sides(arcs, line, arc)
            meet = a + np.linalg.solve(np.column_stack([along, -onwards]), b - a)[0] * along
            seen = np.array([np.interp(arc, arcs, line[:, axis]) for axis in (0, 1)])
            if np.linalg.norm(meet - seen) < FARTHEST and (not found or arc - found[-1][0] > LOOK / 2):
                found.append((arc, meet))
    return found


def _sides(arcs: Array, line: Array, arc: float) -> tuple[tuple[Array, Array], tuple[Array, Array]]:
    """(a place, the direction) of the straight lines that fit best before and after an arc."""
    one, other = ((arcs >= arc - LOOK) & (arcs <= arc - NEAR)), ((arcs >= arc + NEAR) & (arcs <= arc + LOOK))
    return _straight(arcs[one] - arc, line[one], line), _straight(arcs[other] - arc, line[other], line)


def _straight(arcs: Array, places: Array, line: Array) -> tuple[Array, Array]:
    if len(arcs) < 3:  # hardly drawn there: the line as a whole, which shows no corner
        return line.mean(axis=0), line[-1] - line[0]
    fits = np.array([np.polyfit(arcs, places[:, axis], 1) for axis in (0, 1)])
    return fits[:, 1], fits[:, 0]
