"""Where on the body: a line or a place between two lines, and a height from a level."""

import math
from dataclasses import dataclass

from panelwright.body.worded_length import given_words, length_words, range_words
from panelwright.design.body_chart import BodyChart, half_chart
from panelwright.errors import DesignError
from panelwright.pattern.mark import Point
from panelwright.pattern.pattern import Pattern

LARGEST_OFFSET = 1000.0  # mm
OUTSIDE = 0.5  # mm by which a place may lie beyond the block


@dataclass(frozen=True)
class Height:
    """A level of the wearer and how far from it.

    Attributes:
        level: id of a level of the block.
        offset: mm above the level (below: negative), measured along whatever line the place is on.
        share: instead of `offset`, a share of the way to the next level, 0 … 1 up or 0 … -1 down.

    Both numbers are kept to a millionth, so that what is saved and read again is the same.

    Raises:
        DesignError: if a number is out of range or both are given.
    """

    level: str
    offset: float = 0.0
    share: float = 0.0

    def __post_init__(self) -> None:
        if not (math.isfinite(self.offset) and abs(self.offset) <= LARGEST_OFFSET):
            raise DesignError(
                f"an offset of {given_words(self.offset)} from the {spoken(self.level)} level is not between "
                f"{range_words(-LARGEST_OFFSET, LARGEST_OFFSET, 'and')}",
                self.level,
            )
        if not (math.isfinite(self.share) and abs(self.share) <= 1.0):
            raise DesignError(
                f"a share of {self.share:g} of the way from the {spoken(self.level)} level is not between -1 and 1",
                self.level,
            )
        if self.offset and self.share:
            raise DesignError(f"give an offset from the {spoken(self.level)} level or a share, not both", self.level)
        object.__setattr__(self, "offset", round(float(self.offset), 6) + 0.0)
        object.__setattr__(self, "share", round(float(self.share), 6) + 0.0)


@dataclass(frozen=True)
class BodyPoint:
    """A place on the wearer: across, on a line or between two, and up, from a level.

    It is always resolved on the unmodified block, so it means the same place in every step.

    Attributes:
        height: how high.
        line: id of an upright line of the block.
        towards: for a place between lines, the neighbour of `line`; None for a place on `line`.
        fraction: how far from `line` to `towards`, 0 … 1.

    Raises:
        DesignError: if the fraction is not 0 … 1, or given without a second line.
    """

    height: Height
    line: str
    towards: str | None = None
    fraction: float = 0.0

    def __post_init__(self) -> None:
        if not (math.isfinite(self.fraction) and 0.0 <= self.fraction <= 1.0):
            raise DesignError(f"a place is 0 to 1 of the way from {self.line}, not {self.fraction:g}", self.line)
        if self.towards is None and self.fraction:
            raise DesignError(f"a place part of the way from {self.line} needs a second line", self.line)
        object.__setattr__(self, "fraction", round(float(self.fraction), 6) + 0.0)


@dataclass(frozen=True)
class ChartPlace:
    """A `BodyPoint` on the chart: `across` in panels from centre front, `height` in mm above the waist."""

    across: float
    height: float


@dataclass(frozen=True)
class BodyPlace:
    """A `BodyPoint` on the block.

    Attributes:
        piece: id of the panel; on a line, of the panel nearer the centre front.
        point: on the panel, mm.
        arc: on a line, mm up from its lower end; None between lines.
    """

    piece: str
    point: Point
    arc: float | None


def arc_on(chart: BodyChart, upright: int, height: Height) -> float:
    """Arc position of a height on an upright line, mm up from its lower end; may lie beyond the block.

    Raises:
        DesignError: if the block lacks the level, or a level beyond it that a share reaches for.
    """
    line, row = chart.uprights[upright], chart.row(height.level)
    if not height.share:
        return line.rows[row] * line.length + height.offset
    other = row + (1 if height.share > 0 else -1)
    if not 0 <= other < len(chart.rows):
        way = "above" if height.share > 0 else "below"
        raise DesignError(
            f"there is no level {way} {chart.rows[row].label} to go part of the way to; give an offset instead",
            height.level,
        )
    return (line.rows[row] + abs(height.share) * (line.rows[other] - line.rows[row])) * line.length


def height_at(chart: BodyChart, across: float, height: Height) -> float:
    """A height on the chart, mm above the waist; between two lines, blended evenly from both."""
    low = min(math.floor(across), len(chart.panels) - 1)
    share = across - low
    here = chart.uprights[low].height(arc_on(chart, low, height)) if share < 1 else 0.0
    there = chart.uprights[low + 1].height(arc_on(chart, low + 1, height)) if share > 0 else 0.0
    return (1 - share) * here + share * there


def place_on(chart: BodyChart, point: BodyPoint) -> ChartPlace:
    """A body point on the chart.

    Raises:
        DesignError: if the block lacks a line or level, or the two lines are not neighbours.
    """
    across = float(chart.index(point.line))
    if point.towards is not None:
        there = chart.index(point.towards)
        if abs(there - across) != 1:
            raise DesignError(
                f"{spoken(point.line)} and {spoken(point.towards)} are not neighbours on this block", point.line
            )
        across += point.fraction * (there - across)
    return ChartPlace(across, height_at(chart, across, point.height))


def resolve(point: BodyPoint, block: Pattern) -> BodyPlace:
    """Where a body point lies on the unmodified block.

    Raises:
        DesignError: if the block lacks a line or level that it names, or the place lies beyond the block; the
            message says how far, and what to do.
    """
    chart = half_chart(block)
    place = place_on(chart, point)
    arc = None
    if place.across == int(place.across):
        arc = arc_on(chart, int(place.across), point.height)
        refuse_beyond(chart, int(place.across), arc)
    elif not chart.rows[0].height - 1e-6 <= place.height <= chart.rows[-1].height + 1e-6:
        raise DesignError(
            f"a place between {spoken(point.line)} and {spoken(point.towards or '')} lies beyond the block; choose a "
            "height between "
            f"{chart.rows[0].label} and {chart.rows[-1].label}",
            point.line,
        )
    return BodyPlace(*chart.point(place.across, place.height), arc)


def refuse_beyond(chart: BodyChart, upright: int, arc: float) -> float:
    """`arc` held to the line; what lies more than half a millimetre beyond the block is refused.

    Raises:
        DesignError: one sentence with the line, how far beyond the block, and the remedy.
    """
    line = chart.uprights[upright]
    beyond, way = (arc - line.length, "above") if arc > line.length else (-arc, "below")
    if beyond > OUTSIDE:
        edge = chart.rows[-1 if way == "above" else 0].label
        change = "lower" if way == "above" else "raise"
        raise DesignError(
            f"at the {spoken(line.line)} line it would lie {length_words(beyond)} {way} the block, which ends at "
            f"{edge}; {change} it by that much or choose another level",
            line.line,
        )
    return min(max(arc, 0.0), line.length)


def spoken(line: str) -> str:
    """A line's id as a maker says it: `front princess`."""
    return line.replace("-", " ")
