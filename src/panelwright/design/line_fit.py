"""The search for the top edge or hem that follows a drawn line with as few points as it needs."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property, partial
from typing import Final

import numpy as np

from panelwright.design.body_chart import BodyChart
from panelwright.design.departures import departures
from panelwright.design.drawn_line import DrawnLine
from panelwright.design.edge_shape import HEM_SHAPES, TOP_SHAPES
from panelwright.design.finished_edge import FreePoint
from panelwright.design.hem import Hem
from panelwright.design.line_start import ENDS, NEAT, EdgeKind, EdgeStep, height_like, starts
from panelwright.design.position import BodyPoint, Height, place_on
from panelwright.design.profile import Profile, way_of, ways_of
from panelwright.errors import DesignError
from panelwright.geometry.arrays import Array

Lift = Callable[[EdgeStep, float], EdgeStep]

MOST_POINTS: Final = 16
APART: Final = 14.0  # mm round the body between two free points, and between one and an anchor
CORNERS_APART: Final = 4.0  # the same between corners
ADJUSTED: Final = 2  # times that heights are adjusted
MOST_LIFT: Final = 15.0  # mm by which a height is adjusted at a time
ON_SEAM: Final = 7.0  # mm from an upright line within which a free point is put on it
BLENDS: Final = 15.0  # mm beyond what was drawn where the line may leave the one that was there
FRACTION_DIGITS: Final = 3
PLAINER: Final = 1.15  # times the mean square of its departures that a plainer line may cost
UNSEEN: Final = 0.02  # mm² of it that nobody sees


@dataclass(frozen=True, eq=False)
class Targets:
    """Places that the line shall pass: panels from the centre front, and mm above the waist."""

    across: Array
    heights: Array


def targets_of(chart: BodyChart, drawn: DrawnLine, before: EdgeStep | None) -> Targets:
    """What was drawn and, a little beyond its ends, what was there before."""
    sure = np.ones(len(drawn.across), bool)
    sure[list(drawn.corners)] = False  # where the two sides of a corner meet is told by the places beside it
    mine = drawn.across[sure], drawn.heights[sure]
    if before is None:
        return Targets(*mine)
    profile = before.design.profile(chart)
    every = np.linspace(0.0, len(chart.panels), 30 * len(chart.panels) + 1)
    ways = ways_of(profile.seams, every)
    ends = [way_of(profile.seams, float(across)) for across in drawn.across[[0, -1]]]
    rest = every[(ways < ends[0] - BLENDS) | (ways > ends[1] + BLENDS)]
    heights = [profile.at(way_of(profile.seams, float(across)))[0] for across in rest]
    across = np.concatenate([mine[0], rest])
    order = np.argsort(across)
    return Targets(across[order], np.concatenate([mine[1], heights])[order])


@dataclass(frozen=True, eq=False)
class Fit:
    """The search for the step that follows a drawn line.

    Attributes:
        misses: of every try that was given up, how far it is off where it departs most, mm, and on which panel of the
            chart that is.
    """

    chart: BodyChart
    drawn: DrawnLine
    targets: Targets
    tolerance: float
    misses: list[tuple[float, int]] = field(default_factory=list)

    def best(self, kind: EdgeKind, uid: str, before: EdgeStep | None) -> EdgeStep | None:
        """Of the shapes that follow the line with the fewest points, the first that runs about as near as the nearest:
        the shape that was there before, then straight and so on."""
        shapes = TOP_SHAPES if kind == "top-edge" else HEM_SHAPES
        found: list[EdgeStep] = []
        for shape in sorted(shapes, key=lambda shape: before is None or shape != before.shape):
            for start in starts(kind, shape, uid, self.chart, self.drawn, before):
                step = self.followed(start, min((len(other.points) for other in found), default=MOST_POINTS))
                found += [step] if step is not None else []
        fewest = min((len(step.points) for step in found), default=0)
        few = [(self._mean(step), step) for step in found if len(step.points) == fewest]
        if not few:
            return None
        near = PLAINER * min(mean for mean, _ in few) + UNSEEN
        best = next(step for mean, step in few if mean <= near)
        return best if before is not None and before.back is not None else self._plainer(best)

    def _plainer(self, step: EdgeStep) -> EdgeStep:
        """The step with its back at the side's level, if it follows about as well."""
        if step.back is None:
            return step
        plain = self._adjusted(replace(step, back=None))
        return plain if self._follows(plain) and self._mean(plain) <= PLAINER * self._mean(step) + UNSEEN else step

    def _mean(self, step: EdgeStep) -> float:
        """Mean square of the departures, mm²."""
        return float(np.square(self._signed(step)).mean())

    def followed(self, start: EdgeStep, most: int) -> EdgeStep | None:
        """The step with points added where it departs most until it follows, and those taken out that it does not
        need; None if that takes more than `most`."""
        off: Array | None = None
        try:
            step = self._adjusted(start)
            while (worst := self._worst(step)) is not None:
                off = worst
                point = self._point(step, worst)
                if point is None or len(step.points) >= most:
                    break
                step = self._adjusted(replace(step, points=(*step.points, point)))
            else:
                return self._pruned(step) if len(step.points) <= most else None
        except DesignError:  # a line of this shape cannot be drawn there
            pass
        if off is not None:
            self.misses.append((float(off.max()), int(self.which[off.argmax()])))
        return None

    def _pruned(self, step: EdgeStep) -> EdgeStep:
        number = 0
        while number < len(step.points):
            without = replace(step, points=step.points[:number] + step.points[number + 1 :])
            tried = self._adjusted(without) if self._is_drawn(step.points[number]) else step
            if len(tried.points) < len(step.points) and self._follows(tried):
                step = tried
            else:
                number += 1
        ordered = sorted(step.points, key=lambda point: place_on(self.chart, point.at).across)
        return replace(step, points=tuple(ordered))

    def _follows(self, step: EdgeStep) -> bool:
        try:
            return self._worst(step) is None
        except DesignError:
            return False

    def _is_drawn(self, point: FreePoint) -> bool:
        """Whether a point lies where the line was drawn, and is not one that was there before."""
        return self.drawn.covers(place_on(self.chart, point.at).across, ENDS)

    def _adjusted(self, step: EdgeStep) -> EdgeStep:
        """The step with the heights of anchors and points that were drawn where the whole line follows best: a few
        steps of least squares, as the line changes nearly in proportion to them."""
        for _ in range(ADJUSTED):
            better = self._nearer(step)
            if better == step:
                break
            step = better
        return step

    def _nearer(self, step: EdgeStep) -> EdgeStep:
        lifts = list(self._lifts(step))
        try:
            off = self._signed(step)
            # How the line changes is told well enough, and quickly, on the chart.
            seams = step.design.profile(self.chart).seams
            here = self._on_chart(step, seams)
            rates = np.column_stack([self._on_chart(lift(step, 1.0), seams) - here for lift in lifts])
            tried = step
            for lift, by in zip(lifts, np.linalg.lstsq(rates, -off)[0].tolist(), strict=True):
                tried = lift(tried, round(min(max(by, -MOST_LIFT), MOST_LIFT) * NEAT) / NEAT)
            return tried if np.square(self._signed(tried)).sum() < np.square(off).sum() else step
        except DesignError:  # a height that cannot be: the step stays as it is
            return step

    def _lifts(self, step: EdgeStep) -> Iterator[Lift]:
        """Ways to raise parts of the line by some mm; heights in proportion are left alone."""
        if isinstance(step, Hem) and step.shape == "straight":
            yield lambda it, by: replace(
                it, centre=_raised(it.centre, by), side=_raised(it.side, by), back=it.back and _raised(it.back, by)
            )
            return
        if self.drawn.covers(0.0, ENDS) and not step.centre.share:
            yield lambda it, by: replace(it, centre=_raised(it.centre, by))
        if self.drawn.covers(self.chart.side, ENDS) and not step.side.share:
            yield lambda it, by: replace(it, side=_raised(it.side, by))
        if self.drawn.covers(float(len(self.chart.panels)), ENDS) and step.back and not step.back.share:
            yield lambda it, by: replace(it, back=it.back and _raised(it.back, by))
        for number, point in enumerate(step.points):
            if self._is_drawn(point) and not point.at.height.share:
                yield partial(_with_point_raised, number)

    def _worst(self, step: EdgeStep) -> Array | None:
        """Departures from the targets, mm, if any is more than the tolerance; else None.

        Raises:
            DesignError: if the line follows on the chart and yet cannot be drawn on the panels.
        """
        off = np.abs(self._signed(step))
        if off.max() > self.tolerance:
            return off
        step.design.line(self.chart)
        return None

    def _signed(self, step: EdgeStep) -> Array:
        """Departures of the line as it is drawn on the panels, mm, above 0 where it lies too high; on the chart while
        it cannot be drawn (because it leaves the block, as yet)."""
        try:
            line = step.design.line(self.chart)
        except DesignError:
            return self._on_chart(step)
        off = np.empty(len(self.targets.across))
        for k, panel in enumerate(line.panels):
            mine = self.which == k
            off[mine] = departures(panel.curves, self.places[mine])
        return off

    def _on_chart(self, step: EdgeStep, seams: tuple[float, ...] | None = None) -> Array:
        profile = step.design.profile(self.chart, seams)
        at, slopes = profile.at_all(ways_of(profile.seams, self.targets.across))
        off: Array = (at - self.targets.heights) / np.hypot(1.0, slopes)
        return off

    @cached_property
    def which(self) -> Array:
        """Number of the panel of each target."""
        last = len(self.chart.panels) - 1
        number: Array = np.clip(np.ceil(self.targets.across) - 1.0, 0.0, float(last))
        return number

    @cached_property
    def places(self) -> Array:
        """Each target on its panel, mm, shape (n, 2)."""
        found = np.empty((len(self.targets.across), 2))
        for k, surface in enumerate(self.chart.surfaces):
            mine = self.which == k
            found[mine] = surface.points(self.targets.across[mine] - k, self.targets.heights[mine])
        return found

    def _point(self, step: EdgeStep, off: Array) -> FreePoint | None:
        """A point where the line departs most and has room for one: on a corner of what was drawn, on an upright line
        or between two."""
        profile = step.design.profile(self.chart)
        taken = [0.0, self.chart.side, float(len(self.chart.panels))]
        taken += [place_on(self.chart, point.at).across for point in step.points]
        ways = ways_of(profile.seams, self.targets.across)
        room = np.min([np.abs(ways - way_of(profile.seams, across)) for across in taken], axis=0)
        inside = (self.targets.across >= self.drawn.across[0]) & (self.targets.across <= self.drawn.across[-1])
        free = (room >= APART) & inside & (off > self.tolerance / 2)
        if not free.any():
            return None
        worst = int(np.argmax(np.where(free, off, -1.0)))
        corner = self._corner(ways[worst], profile)
        if corner is None:
            across = float(self.targets.across[worst])
            return self._placed(profile.seams, (across, self._height(across)), False, taken)
        place = float(self.drawn.across[corner]), float(self.drawn.heights[corner])
        return self._placed(profile.seams, place, True, taken)

    def _corner(self, way: float, profile: Profile) -> int | None:
        """A corner of what was drawn, near a way, where the line has no point or corner yet."""
        taken = (*profile.corners, *profile.held)
        for k in self.drawn.corners:
            across = float(self.drawn.across[k])
            at = way_of(profile.seams, across)
            if abs(at - way) < APART and all(abs(at - other) >= CORNERS_APART for other in taken):
                return k
        return None

    def _placed(
        self, seams: Sequence[float], place: tuple[float, float], corner: bool, taken: Sequence[float]
    ) -> FreePoint:
        """A point at a place of the chart: on an upright line that is near, unless it is a corner or one is there."""
        across, height = place
        way, nearest = way_of(seams, across), round(across)
        if abs(way - seams[nearest]) < ON_SEAM and nearest not in taken and not corner:
            on_line = height_like(self.chart, float(nearest), self._height(nearest), None)
            return FreePoint(BodyPoint(on_line, self.chart.uprights[nearest].line))
        k = min(int(across), len(self.chart.panels) - 1)
        fraction = round(across - k, FRACTION_DIGITS)
        between = height if corner else self._height(k + fraction)
        lines = self.chart.uprights[k].line, self.chart.uprights[k + 1].line
        return FreePoint(BodyPoint(height_like(self.chart, k + fraction, between, None), *lines, fraction), corner)

    def _height(self, across: float) -> float:
        return float(np.interp(across, self.targets.across, self.targets.heights))


def _raised(height: Height, by: float) -> Height:
    return replace(height, offset=height.offset + by)


def _with_point_raised(number: int, step: EdgeStep, by: float) -> EdgeStep:
    point = step.points[number]
    moved = replace(point, at=replace(point.at, height=_raised(point.at.height, by)))
    return replace(step, points=(*step.points[:number], moved, *step.points[number + 1 :]))
