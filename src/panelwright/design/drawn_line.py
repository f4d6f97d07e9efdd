"""A line drawn by hand over flat pieces, taken onto the chart of the body and smoothed."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np

from panelwright.body.worded_length import least_words, length_words
from panelwright.design.body_chart import BodyChart
from panelwright.design.chart_place import chart_places
from panelwright.design.evened import evened
from panelwright.design.on_paper import OnPaper
from panelwright.errors import DesignError
from panelwright.geometry.arrays import Array
from panelwright.pattern.mark import Point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.spoken_piece import spoken_piece

MOST_PLACES: Final = 5000  # that a line may be drawn with
CLOSE: Final = 2.0  # mm between places of a line that is filled in
OFF_PANEL: Final = 6.0  # mm by which a place may lie beside the panel
MOST_OFF: Final = 0.34  # share of places that may lie farther off
LEAST_LENGTH: Final = 25.0  # mm
DOUBLED: Final = 8.0  # mm by which a line may run back
MOST_STEP: Final = 40.0  # mm by which a line may come out of a gap between pieces higher or lower than it went in
MOST_GAP: Final = 30.0  # mm round the body that a line may leave out at a seam


@dataclass(frozen=True)
class Stroke:
    """One stretch of a line, drawn on one piece: places in mm on it, in the order in which they were drawn."""

    piece: str
    points: tuple[Point, ...]


@dataclass(frozen=True, eq=False)
class DrawnLine:
    """A drawn line once round the body, from the centre front on, its tremor evened out.

    Attributes:
        across: panels from the centre front, never falling, shape (n,).
        ways: the same in mm round the body.
        heights: mm above the waist.
        corners: places (numbers of the above) where it turns sharply.
    """

    across: Array
    ways: Array
    heights: Array
    corners: tuple[int, ...]

    @classmethod
    def of(cls, strokes: Sequence[Stroke], pattern: Pattern, chart: BodyChart) -> "DrawnLine":
        """The line of several strokes.

        Args:
            strokes: on outer pieces, in any order and either way round.
            pattern: that they were drawn on.
            chart: of the block's half.

        Raises:
            DesignError: one sentence, if there is too little of it, it lies off the panels, or it doubles back.
        """
        if sum(len(stroke.points) for stroke in strokes) > MOST_PLACES:
            raise DesignError(
                f"the line was drawn with more than {MOST_PLACES} places; draw it again, quicker", "points"
            )
        runs = [run for stroke in strokes for run in _on_chart(stroke, pattern, chart)]
        if sum(len(across) for across, _ in runs) < 2:
            raise DesignError("the line does not lie on the panels; draw it over the pieces of the bodice", "points")
        level = float(np.median(np.concatenate([heights for _, heights in runs])))
        laid = [np.column_stack([ways_of(chart, across, level), heights]) for across, heights in runs]
        forwards = [run if run[-1, 0] >= run[0, 0] else run[::-1] for run in laid]
        line = np.concatenate(run_on(sorted(forwards, key=lambda run: float(run[:, 0].mean()))))
        back = float((np.maximum.accumulate(line[:, 0]) - line[:, 0]).max())
        if back > DOUBLED:
            raise DesignError(
                f"the line runs back over itself by {length_words(back)}; draw it once, from centre front to "
                "centre back",
                "points",
            )
        if np.ptp(line[:, 0]) < LEAST_LENGTH:
            raise DesignError(
                f"the line is {length_words(np.ptp(line[:, 0]))} long round the body; draw at least "
                f"{least_words(LEAST_LENGTH)}",
                "points",
            )
        smooth, corners = evened(_filled(line))
        ways = np.maximum.accumulate(smooth[:, 0])
        return cls(across_of(chart, ways, level), ways, smooth[:, 1], corners)

    def height(self, across: float) -> float:
        """Height at a place within the line, mm above the waist."""
        return float(np.interp(across, self.across, self.heights))

    def covers(self, across: float, slack: float = 0.0) -> bool:
        """Whether a place lies within the line or, in panels, `slack` beyond its ends."""
        return bool(self.across[0] - slack <= across <= self.across[-1] + slack)


def ways_of(chart: BodyChart, across: Array, height: float) -> Array:
    """mm round the body from the centre front, along one height."""
    seams = _seams(chart, height)
    ways: Array = np.interp(across, np.arange(len(seams)), seams)
    return ways


def across_of(chart: BodyChart, ways: Array, height: float) -> Array:
    """Panels from the centre front, the other way round."""
    seams = _seams(chart, height)
    across: Array = np.interp(ways, seams, np.arange(len(seams)))
    return across


def _seams(chart: BodyChart, height: float) -> Array:
    widths = [width.at(min(max(height, width.x[0]), width.x[-1]))[0] for width in chart.widths]
    return np.concatenate([[0.0], np.cumsum(widths)])


def _on_chart(stroke: Stroke, pattern: Pattern, chart: BodyChart) -> Iterator[tuple[Array, Array]]:
    """(across, heights) of a stroke on each panel that its piece holds."""
    points = np.asarray(stroke.points, float).reshape(-1, 2)
    if not np.isfinite(points).all():
        raise DesignError("a place of the line is not two numbers in mm", "points")
    if not pattern.has_piece(stroke.piece):
        raise DesignError(f"the pattern has no piece {stroke.piece[:40]!r}; open the design again", "points")
    filled = _filled(points)
    near = [
        (k, paper, chart_places(chart, k, paper.panel_place(filled))) for k, paper in _panels(stroke, pattern, chart)
    ]
    if not near or not len(filled):
        return
    gaps = np.array([_gaps(chart, k, paper.panel_place(filled), places) for k, paper, places in near])
    best = gaps.argmin(axis=0)
    kept = gaps.min(axis=0) <= OFF_PANEL
    if np.mean(~kept) > MOST_OFF:
        raise DesignError(
            f"the line leaves {spoken_piece(pattern.piece(stroke.piece))}; draw it over the block's panels", "points"
        )
    for number, (k, _, places) in enumerate(near):
        mine = places[kept & (best == number)]
        if len(mine):
            yield k + mine[:, 0], mine[:, 1]


def _panels(stroke: Stroke, pattern: Pattern, chart: BodyChart) -> Iterator[tuple[int, OnPaper]]:
    piece = pattern.piece(stroke.piece)
    for k, panel in enumerate(chart.panels):
        found = [OnPaper(piece.id, region.placement) for region in piece.material if region.panel == panel.piece.id]
        yield from ((k, paper) for paper in found)


def _gaps(chart: BodyChart, k: int, points: Array, places: Array) -> Array:
    gaps: Array = np.linalg.norm(chart.surfaces[k].points(places[:, 0], places[:, 1]) - points, axis=1)
    return gaps


def run_on(runs: Sequence[Array]) -> list[Array]:
    """Stretches of a line on neighbouring panels, each shape (n, 2), made to meet where one ends and the next begins.

    A hand draws across the gap between two pieces of paper, and on a slope it comes out higher or lower than it went
    in; that the pieces are sewn together there it means all the same. Each side gives way by half of the step, and
    evenly less towards its other end.
    """
    meant = [run.copy() for run in runs]
    shifts = np.zeros((len(runs), 2))
    for k, (before, after) in enumerate(pairwise(runs)):
        step = float(after[0, 1] - before[-1, 1])
        if abs(step) <= MOST_STEP and after[0, 0] - before[-1, 0] <= MOST_GAP:
            shifts[k, 1], shifts[k + 1, 0] = step / 2, -step / 2
    for run, (first, last) in zip(meant, shifts, strict=True):
        wide = max(float(np.ptp(run[:, 0])), CLOSE)
        run[:, 1] += np.interp(run[:, 0], [run[0, 0], run[0, 0] + wide], [first, last])
    return meant


def _filled(points: Array) -> Array:
    """The places with others between them, so that a quick hand counts as much as a slow one."""
    if len(points) < 2:
        return points
    steps = np.linalg.norm(np.diff(points, axis=0), axis=1)
    arcs = np.concatenate([[0.0], np.cumsum(steps)])
    even = np.linspace(0.0, arcs[-1], max(2, int(arcs[-1] / CLOSE) + 1))
    return np.column_stack([np.interp(even, arcs, points[:, axis]) for axis in (0, 1)])
