"""The straight line along the middle of a tie that is the back: from the side past the centre back."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from panelwright.body.worded_length import length_words
from panelwright.design.joined_back import JoinedBack
from panelwright.design.position import Height, arc_on, refuse_beyond
from panelwright.errors import DesignError
from panelwright.geometry.arrays import Array
from panelwright.pattern import level as levels
from panelwright.pattern.edge import Edge

LEAST_RISE: Final = 5.0  # mm by which each edge draws in between the side and the tie
STEEPEST: Final = 1.2  # mean slope of an edge on its way to the tie; a higher garment tapers on past the centre back
SLACK: Final = 1.15  # of it and the width, because the side does not stand quite square to the tie


@dataclass(frozen=True, eq=False)
class TieAxis:
    """A line across the joined piece at one height of the wearer, and the corners of the edge at the side.

    Attributes:
        side, centre: where it starts and where it passes the centre back, shape (2,).
        top, bottom: the corners at the side, shape (2,).
        height: on the wearer, mm above the waist.
        width: of the tie, mm.
    """

    side: Array
    centre: Array
    top: Array
    bottom: Array
    height: float
    width: float

    @property
    def reach(self) -> float:
        """From the side to the centre back, mm."""
        return float(np.linalg.norm(self.centre - self.side))

    @property
    def direction(self) -> Array:
        """Unit vector towards the centre back and on: a tie that is pulled tight lies straight."""
        run: Array = (self.centre - self.side) / self.reach
        return run

    @property
    def across(self) -> Array:
        """Unit vector square to it, upwards."""
        return np.array([self.direction[1], -self.direction[0]])

    @property
    def draws_in(self) -> tuple[float, float]:
        """How far the upper edge falls and the lower edge rises from the side to the tie, mm."""
        half = self.width / 2
        return (
            float((self.top - self.centre) @ self.across) - half,
            float((self.centre - self.bottom) @ self.across) - half,
        )

    @property
    def run_out(self) -> float:
        """How far past the centre back the edges still draw in, because the back is narrow for its height, mm."""
        ways = [float((self.centre - corner) @ self.direction) for corner in (self.top, self.bottom)]
        return max(0.0, *(drop / STEEPEST - way for drop, way in zip(self.draws_in, ways, strict=True)))


def tie_axis(back: JoinedBack, height: Height | None, width: float) -> TieAxis:
    """The middle of the tie.

    Args:
        back: the joined piece.
        height: at the centre back; None: the waist, or as near to it as there is room.
        width: of the tie, mm.

    Raises:
        DesignError: if the side is too low for the width, or the height is off the garment.
    """
    share = _usual(back, width) if height is None else _given(back, height)
    axis = _at(back, share, width)
    if min(axis.draws_in) < LEAST_RISE:
        high = float(np.linalg.norm(axis.top - axis.bottom))
        what = "raise the top edge or lower the hem at the side" if height is None else "leave the height out"
        raise DesignError(
            f"the edge at the side is {length_words(high)} high and leaves a tie of {length_words(width)} no room to "
            f"draw in; give it less width, or {what}",
            back.piece.id,
        )
    return axis


def _at(back: JoinedBack, share: float, width: float) -> TieAxis:
    """The axis that passes the centre back at a share of its line, and starts at the same height of the wearer.

    Where the side is too low for that, it starts as near to it as lets both edges draw in.
    """
    side = back.side
    height = back.at_centre.height(share * back.at_centre.length)
    low, high = _room(back, width)
    at_side = min(max(back.at_side.shares.at(height)[0], low), high)
    ends = side.line_curve
    return TieAxis(_point(side, at_side), _point(back.centre, share), ends.end, ends.start, height, width)


def _room(back: JoinedBack, width: float) -> tuple[float, float]:
    """The shares of the line at the side between which the middle of a tie may start."""
    side = back.side
    low, high = side.interval
    inset = SLACK * (width / 2 + LEAST_RISE) / side.curve.length
    return low + min(inset, 0.5) * (high - low), high - min(inset, 0.5) * (high - low)


def _point(edge: Edge, share: float) -> Array:
    """The place on an edge at a share of its line."""
    low, high = edge.interval
    return edge.line_curve.point((share - low) / (high - low) * edge.curve.length)


def _usual(back: JoinedBack, width: float) -> float:
    """The waist's share of the centre back, or as near as the side, and then the centre back, leave room for."""
    rows = [row.level for row in back.chart.rows]
    waist = back.chart.rows[rows.index(levels.WAIST)].height if levels.WAIST in rows else 0.0
    lowest, highest = (back.at_side.height(share * back.at_side.length) for share in _room(back, width))
    low, high = back.centre.interval
    inset = min(width / 2 / back.at_centre.length, (high - low) / 2)
    share = back.at_centre.shares.at(min(max(waist, lowest), highest))[0]
    return min(max(share, low + inset), high - inset)


def _given(back: JoinedBack, height: Height) -> float:
    """The share of the centre back that the maker asked for."""
    number, upright = len(back.chart.panels), back.at_centre
    share = refuse_beyond(back.chart, number, arc_on(back.chart, number, height)) / upright.length
    low, high = back.centre.interval
    if not low <= share <= high:
        off = (low - share if share < low else share - high) * upright.length
        way, change = ("below the hem", "raise") if share < low else ("above the top edge", "lower")
        raise DesignError(
            f"at the centre back the middle of the tie would lie {length_words(off)} {way}; {change} it by that much "
            "or leave the height out",
            upright.line,
        )
    return share
