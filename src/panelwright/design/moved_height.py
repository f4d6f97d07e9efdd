"""Another height of the same kind: what was an offset stays one, what was in proportion stays so."""

from collections.abc import Callable, Sequence
from typing import Final

import numpy as np

from panelwright.design.body_chart import BodyChart
from panelwright.design.position import Height, refuse_beyond
from panelwright.errors import DesignError

SNAP: Final = 3.0  # mm from a level within which a height snaps to it
OFFSET_DIGITS = 1  # of mm: what a hand places is kept to a tenth of a mm
SHARE_DIGITS = 4
_ROUNDS: Final = 40
_FOUND: Final = 1e-4  # mm


def moved_on_line(
    chart: BodyChart, upright: int, arc: float, like: Height, snap: bool = False, square: Sequence[float] = ()
) -> Height:
    """The height of a place on an upright line.

    Args:
        chart: of the block.
        upright: number of the line.
        arc: mm up it.
        like: a height whose kind and, as far as it reaches, level is kept.
        snap: a place within 3 mm of a level is on it, else one within 3 mm of a height of `square` at that height.
        square: heights of the neighbours on the edge, mm above the waist: level with one, the edge runs square to the
            upright lines.

    Raises:
        DesignError: if the place lies beyond the block.
    """
    line = chart.uprights[upright]
    held = refuse_beyond(chart, upright, arc)
    arcs = [share * line.length for share in line.rows]
    if snap and (level := snapped(chart, arcs, held)) is not None:
        return Height(level)
    if snap:
        held = _squared(held, [line.shares.at(height)[0] * line.length for height in square])
    if like.share:
        return shared(chart, float(np.interp(held, arcs, range(len(arcs)))), like.level)
    return Height(like.level, round(held - arcs[chart.row(like.level)], OFFSET_DIGITS))


def moved_between(
    chart: BodyChart,
    measure: Callable[[Height], float],
    target: float,
    like: Height,
    snap: bool = False,
    square: Sequence[float] = (),
) -> Height:
    """The height for which a measure comes to a target.

    Args:
        chart: of the block.
        measure: height -> mm above the waist at the place in question; it rises about as the height does.
        target: mm above the waist.
        like: a height whose kind and level is kept.
        snap: within 3 mm of a level the height is that level, else within 3 mm of a height of `square` that one.
        square: as for `moved_on_line`.

    Raises:
        DesignError: if the target lies beyond the block.
    """
    rows = chart.rows
    if not rows[0].height <= target <= rows[-1].height:
        way, row = ("above", rows[-1]) if target > rows[-1].height else ("below", rows[0])
        change = "lower" if way == "above" else "raise"
        raise DesignError(f"it would lie {way} the block, which ends at {row.label}; {change} it", like.level)
    if snap:
        heights = [measure(Height(row.level)) if row.level else row.height for row in rows]
        if (level := snapped(chart, heights, target)) is not None:
            return Height(level)
        target = _squared(target, square)
    if like.share:
        return _shared_between(chart, measure, target, like)
    offset = like.offset
    for _ in range(_ROUNDS):
        off = target - measure(Height(like.level, offset))
        offset += off
        if abs(off) < _FOUND:
            break
    return Height(like.level, round(offset, OFFSET_DIGITS))


def _squared(to: float, places: Sequence[float]) -> float:
    """The nearest of the places if it is within 3 mm, else the place itself."""
    near = min(places, key=lambda place: abs(place - to), default=to)
    return near if abs(near - to) <= SNAP else to


def snapped(chart: BodyChart, places: list[float], to: float, within: float = SNAP) -> str | None:
    """The level that a place snaps to, or None where none is near.

    Args:
        chart: of the block.
        places: of every row of the chart, mm up whatever line the place is on.
        to: the place, mm up the same line.
        within: mm.
    """
    near = [(abs(place - to), row.level) for place, row in zip(places, chart.rows, strict=True) if row.level]
    gap, level = min(near)
    return level if gap <= within else None


def shared(chart: BodyChart, rung: float, level: str) -> Height:
    """A height in proportion: `rung` counts rows of the chart, 2.25 is a quarter of the way from row 2 to row 3.

    It is told from `level` while that is one of the two rows beside it, else from the nearer of those that have a name.
    """
    row = chart.row(level)
    if abs(rung - row) > 1:
        beside = [k for k in (int(rung), int(rung) + 1) if k < len(chart.rows) and chart.rows[k].level]
        row = min(beside, key=lambda k: abs(rung - k))
    share = min(max(rung - row, -1.0), 1.0)
    return Height(chart.rows[row].level or level, share=round(share, SHARE_DIGITS))


def _shared_between(chart: BodyChart, measure: Callable[[Height], float], target: float, like: Height) -> Height:
    low, high = 0.0, float(len(chart.rows) - 1)
    for _ in range(_ROUNDS):
        middle = (low + high) / 2
        low, high = (middle, high) if measure(shared(chart, middle, like.level)) < target else (low, middle)
    return shared(chart, (low + high) / 2, like.level)
