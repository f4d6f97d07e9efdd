"""A style line's profile: its height on the body as it goes round."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from panelwright.design.body_chart import BodyChart
from panelwright.design.smooth_curve import SmoothCurve, hermite
from panelwright.errors import DesignError
from panelwright.geometry.arrays import Array

# Two places of one line nearer than this are one place, mm round the body.
SAME_PLACE = 1e-6


@dataclass(frozen=True)
class Node:
    """A place that a profile passes, `way` mm round the body and `rise` mm above the line that it is drawn from.

    Attributes:
        slopes: rise per way just before and just after; they differ only at a corner.
        corner: the line turns sharply here and starts a new edge.
        straight: from here to the next node the line is straight on paper.
    """

    way: float
    rise: float
    slopes: tuple[float, float] = (0.0, 0.0)
    corner: bool = False
    straight: bool = False


@dataclass(frozen=True)
class FreePlace:
    """A place, on the chart's terms, that the maker moved the line to: `way` and height, mm."""

    way: float
    height: float
    corner: bool = False


@dataclass(frozen=True)
class Stretch:
    """A cubic between two ways."""

    start: float
    end: float
    ends: tuple[float, float]
    slopes: tuple[float, float]
    straight: bool = False

    def at(self, way: float) -> tuple[float, float]:
        """(value, slope)."""
        span = self.end - self.start
        return hermite((way - self.start) / span, span, self.ends, self.slopes)


@dataclass(frozen=True)
class Profile:
    """Height as the sum of a level course, a shape drawn from it, and what free points bend it by.

    Attributes:
        seams: way of each upright line.
        course: way -> height of the level that the line is drawn from, mm.
        shape: from the first upright line to the last, without gaps.
        bend: the same, or empty without free points.
        corners: ways where the line turns sharply.
        held: ways of free points: later smoothing does not move the line there.
    """

    seams: tuple[float, ...]
    course: SmoothCurve
    shape: tuple[Stretch, ...]
    bend: tuple[Stretch, ...] = ()
    corners: tuple[float, ...] = ()
    held: tuple[float, ...] = ()

    def at(self, way: float, within: float | None = None) -> tuple[float, float]:
        """(height, slope) at a way; `within` tells on which side of a corner to look."""
        look = way if within is None else within
        height, slope = self.course.at(way)
        for stretches in (self.shape, self.bend):
            if stretches:
                rise, rate = _holding(stretches, look).at(way)
                height, slope = height + rise, slope + rate
        return height, slope

    def at_all(self, ways: Array) -> tuple[Array, Array]:
        """(heights, slopes) at many ways, shape (n,) each, as `at` gives them."""
        height, slope = self.course.at_all(ways)
        for stretches in (self.shape, self.bend):
            if stretches:
                rise, rate = _at_all(stretches, ways)
                height, slope = height + rise, slope + rate
        return height, slope

    def sections(self, start: float, end: float) -> tuple[tuple[float, float, bool], ...]:
        """(start, end, straight) of the smooth or straight parts of the line between two ways."""
        joints = {s.end for s in self.shape} | set(self.corners) | set(self.held)
        inside = sorted(way for way in joints if start + SAME_PLACE < way < end - SAME_PLACE)
        cuts = [way for k, way in enumerate(inside) if k == 0 or way - inside[k - 1] > SAME_PLACE]
        return tuple((a, b, _holding(self.shape, (a + b) / 2).straight) for a, b in pairwise((start, *cuts, end)))

    def is_corner(self, way: float) -> bool:
        """Whether the line turns sharply at a way."""
        return any(abs(way - corner) < SAME_PLACE for corner in self.corners)

    def is_held(self, way: float) -> bool:
        """Whether a free point or a corner holds the line at a way."""
        return self.is_corner(way) or any(abs(way - held) < SAME_PLACE for held in self.held)

    def bent(self, places: Sequence[FreePlace], anchors: Sequence[float], pointed: bool) -> "Profile":
        """The profile bent through free places, smoothly and no farther than the anchors on either side.

        A part that was straight on paper is so no longer when a place lies within it.

        Args:
            places: where the line shall pass.
            anchors: ways that stay as they are unless a place lies on them; the line's ends among them.
            pointed: whether the line may turn at its first anchor, the centre.

        Raises:
            DesignError: if two places lie one above the other.
        """
        if not places:
            return self
        found = sorted(places, key=lambda place: place.way)
        for a, b in pairwise(found):
            if b.way - a.way < 1.0:
                raise DesignError("two points of the line lie one above the other; move them apart or take one out")
        knots = [(place.way, place.height - self.at(place.way)[0], place.corner) for place in found]
        taken = [way for way, _, _ in knots]
        rests = [way for way in anchors if all(abs(way - other) >= 1.0 for other in taken)]
        knots += [(way, 0.0, False) for way in rests]
        bend = _bend(sorted(knots), set(rests), pointed)
        corners = tuple(place.way for place in found if place.corner)
        shape = tuple(
            replace(each, straight=each.straight and not any(each.start < way < each.end for way in taken))
            for each in self.shape
        )
        held = tuple(place.way for place in found)
        return Profile(self.seams, self.course, shape, bend, self.corners + corners, held)


def shaped(seams: tuple[float, ...], course: SmoothCurve, nodes: Sequence[Node]) -> Profile:
    """The profile through nodes, whose first and last lie on the first and last seam."""
    stretches = tuple(
        Stretch(a.way, b.way, (a.rise, b.rise), (a.slopes[1], b.slopes[0]), a.straight) for a, b in pairwise(nodes)
    )
    return Profile(seams, course, stretches, corners=tuple(node.way for node in nodes[1:-1] if node.corner))


def laid_out(chart: BodyChart, height: float, build: Callable[[tuple[float, ...]], Profile]) -> Profile:
    """`build(seams)`, where the ways of the seams are measured along the line itself.

    Panels change their share of the girth up the body, so a first line is built with the widths at one height and
    the line proper with the widths where the first one runs.
    """
    first = build(_seams(chart, [height] * len(chart.panels)))
    return build(_seams(chart, [first.at((a + b) / 2)[0] for a, b in pairwise(first.seams)]))


def way_of(seams: Sequence[float], across: float) -> float:
    """Way of a place `across` panels from the first line."""
    k = min(int(across), len(seams) - 2)
    return seams[k] + (across - k) * (seams[k + 1] - seams[k])


def ways_of(seams: Sequence[float], across: Array) -> Array:
    """Ways of places `across` panels from the first line, shape (n,)."""
    return np.interp(across, np.arange(len(seams)), seams)


def _at_all(stretches: Sequence[Stretch], ways: Array) -> tuple[Array, Array]:
    """(values, slopes) of the stretches that hold the ways."""
    rows = np.array([(s.start, s.end, *s.ends, *s.slopes) for s in stretches]).T
    holding = np.minimum(np.searchsorted(rows[1] + SAME_PLACE, ways), len(stretches) - 1)
    start, end, low, high, first, last = rows[:, holding]
    span = end - start
    return hermite((ways - start) / span, span, (low, high), (first, last))


def _seams(chart: BodyChart, heights: Iterable[float]) -> tuple[float, ...]:
    ways = [0.0]
    for width, height in zip(chart.widths, heights, strict=True):
        low, high = width.x[0], width.x[-1]
        ways.append(ways[-1] + width.at(min(max(height, low), high))[0])
    return tuple(ways)


def _holding(stretches: tuple[Stretch, ...], way: float) -> Stretch:
    return next((s for s in stretches if way <= s.end + SAME_PLACE), stretches[-1])


def _bend(knots: list[tuple[float, float, bool]], rests: set[float], pointed: bool) -> tuple[Stretch, ...]:
    """Monotone cubics between anchors at rest (slope 0 there) and corners (free to turn there): a hill stands on its
    point, and moving one point changes the line only as far as the points beside it."""
    cuts = [0] + [k for k in range(1, len(knots) - 1) if knots[k][2] or knots[k][0] in rests] + [len(knots) - 1]
    stretches: list[Stretch] = []
    for a, b in pairwise(cuts):
        run = knots[a : b + 1]
        smooth = SmoothCurve.monotone([way for way, _, _ in run], [rise for _, rise, _ in run])
        turning = run[0][2] or (a == 0 and pointed), run[-1][2]
        slopes = _with_ends(smooth, turning)
        stretches += [
            Stretch(smooth.x[k], smooth.x[k + 1], (smooth.y[k], smooth.y[k + 1]), (slopes[k], slopes[k + 1]))
            for k in range(len(run) - 1)
        ]
    return tuple(stretches)


def _with_ends(curve: SmoothCurve, turning: tuple[bool, bool]) -> list[float]:
    """The curve's slopes with 0 at an end at rest, and at one that is free to turn the slope that bends least."""
    slopes = [0.0, *curve.slopes[1:-1], 0.0]
    for end, beside, free in ((0, 1, turning[0]), (-1, -2, turning[1])):
        if free:
            rate = (curve.y[end] - curve.y[beside]) / (curve.x[end] - curve.x[beside])
            both = len(slopes) == 2 and all(turning)
            slopes[end] = rate if both else (3 * rate - slopes[beside]) / 2
    return slopes
