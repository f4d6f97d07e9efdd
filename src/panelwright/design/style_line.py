"""A style line: one line drawn over all panels that stays one line when they are sewn."""

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from panelwright.body.worded_length import length_words
from panelwright.design.arc_points import arc_frames
from panelwright.design.body_chart import BodyChart, Upright
from panelwright.design.panel_walk import MIRROR, WalkedPanel
from panelwright.design.position import OUTSIDE, refuse_beyond, spoken
from panelwright.design.profile import Profile
from panelwright.design.run import Run, chained
from panelwright.errors import DesignError
from panelwright.geometry.arrays import Array, turn
from panelwright.geometry.curve import Curve

# Shares of half a girth, so that a larger body's line is the same line, larger.
LONGEST_CUBIC = 0.11
SPREAD = 0.18  # over which the line settles from its direction at a seam to its own
# A line that meets a seam or centre at less than this runs along it rather than across.
LEAST_CROSSING = math.radians(8.0)
LEAST_EDGE = 3.0  # mm between a corner and a seam
Half = Literal["both", "right", "left"]


@dataclass(frozen=True)
class LinePlace:
    """A place on an upright line of the block: `share` of its length from the hem up."""

    line: str
    share: float


@dataclass(frozen=True)
class PanelCurve:
    """A style line's part in one panel of the block, in that panel's own coordinates.

    Attributes:
        panel: id.
        half: whose panel it is for: `both` when one line serves the two halves.
        curves: from entry to exit, one for each part between corners.
        entry, exit: where it enters and leaves.
        pointed: whether a point is wanted at the entry and at the exit.
        shares: where its curves start and end, as shares of the whole style line.
    """

    panel: str
    half: Half
    curves: tuple[Curve, ...]
    entry: LinePlace
    exit: LinePlace
    pointed: tuple[bool, bool]
    shares: tuple[float, ...]


@dataclass(frozen=True)
class StyleLine:
    """The whole line, panel by panel in the order of the walk."""

    panels: tuple[PanelCurve, ...]

    @property
    def length(self) -> float:
        """mm along the line, of one half or of both."""
        return sum(curve.length for panel in self.panels for curve in panel.curves)


@dataclass(frozen=True, eq=False)
class _Crossings:
    """Where the line crosses the upright lines.

    Attributes:
        shares: of each upright line's length, from the hem up.
        turning: whether the line has a corner there.
        points, upwards, climbs: place, upward direction and change of place with height on each upright edge: the
            entry and exit of the first panel, of the second, and so on; shape (2 · panels, 2).
    """

    shares: list[float]
    turning: list[bool]
    points: Array
    upwards: Array
    climbs: Array


def style_line(chart: BodyChart, profile: Profile, pointed: tuple[bool, bool] = (False, False)) -> StyleLine:
    """The line of a profile, drawn on every panel.

    On both sides of a seam it has the same share of the seam's length and the same angle to it, so the sewn line
    has no kink. That angle lies between those that the two panels' own level lines ask for, nearer to the shorter
    run's, which is the choice that bends the two runs least. At the first and last upright line, the centres, it
    stands square unless `pointed`.

    Raises:
        DesignError: if the line leaves the block, runs along a seam instead of across it, or has a corner within 3 mm
            of a seam.
    """
    crossings = _crossings(chart, profile)
    runs = [_runs(chart, profile, k, crossings) for k in range(len(chart.panels))]
    last = len(runs)
    for k, upright in enumerate(chart.uprights):
        meeting = [(runs[k - 1][-1], -1, crossings.upwards[2 * k - 1])] if k else []
        meeting += [(runs[k][0], 0, crossings.upwards[2 * k])] if k < last else []
        free = crossings.turning[k] or (k in (0, last) and pointed[bool(k)])
        _align(meeting, upright, free)
    return _assembled(chart, crossings, [chained(run) for run in runs], pointed)


def _crossings(chart: BodyChart, profile: Profile) -> _Crossings:
    shares, climbs = [], []
    for k, line in enumerate(chart.uprights):
        share, climb = line.shares.at(profile.at(profile.seams[k])[0])
        shares.append(refuse_beyond(chart, k, share * line.length) / line.length)
        climbs.append(climb)
    curves = chart.side_curves
    lengths = np.array([curve.length for curve in curves])
    uprights = [(n + 1) // 2 for n in range(len(curves))]
    points, upwards = arc_frames(curves, [shares[k] * length for k, length in zip(uprights, lengths, strict=True)])
    rates = lengths * [climbs[k] for k in uprights]
    turning = [profile.is_corner(way) for way in profile.seams]
    return _Crossings(shares, turning, points, upwards, upwards * rates[:, None])


def _runs(chart: BodyChart, profile: Profile, k: int, crossings: _Crossings) -> list[Run]:
    """The runs of panel k, their own directions at both ends not yet aligned with the neighbours'."""
    start, end = profile.seams[k], profile.seams[k + 1]
    half = profile.seams[-1] - profile.seams[chart.centre]
    runs: list[Run] = []
    was_straight = False
    for a, b, straight in profile.sections(start, end):
        count = 1 if straight else max(1, math.ceil((b - a) / (LONGEST_CUBIC * half)))
        run = _run(chart, profile, k, np.linspace(a, b, count + 1), crossings)
        _refuse_short(profile, run)
        if straight:
            run.velocities = np.tile((run.points[1] - run.points[0]) / (b - a), (2, 1))
        if runs and not profile.is_held(a) and straight == was_straight:
            runs[-1] = _merged(runs[-1], run)
        else:
            if runs:
                runs[-1].corner_after = profile.is_corner(a)
                if straight != was_straight and not profile.is_corner(a):
                    _follow(runs[-1], run, straight)
            runs.append(run)
        was_straight = straight
    return runs


def _refuse_outside(chart: BodyChart, k: int, heights: Array) -> None:
    over, under = float(heights.max()) - chart.rows[-1].height, chart.rows[0].height - float(heights.min())
    if max(over, under) > OUTSIDE:
        way, row = ("above", chart.rows[-1]) if over > under else ("below", chart.rows[0])
        before, after = (spoken(upright.line) for upright in chart.uprights[k : k + 2])
        raise DesignError(
            f"between the {before} and {after} lines it would lie {length_words(max(over, under))} {way} the block, "
            f"which ends at {row.label}; {'lower' if way == 'above' else 'raise'} it there"
        )


def _refuse_short(profile: Profile, run: Run) -> None:
    length = float(np.linalg.norm(run.points[-1] - run.points[0]))
    if length < LEAST_EDGE and any(profile.is_corner(float(way)) for way in run.ways[[0, -1]]):
        raise DesignError(
            f"a corner of the line lies {length:.1f} mm from a seam or another corner; put it on the seam or at least "
            f"{LEAST_EDGE:g} mm from it"
        )


def _run(chart: BodyChart, profile: Profile, k: int, ways: Array, crossings: _Crossings) -> Run:
    start, width = profile.seams[k], profile.seams[k + 1] - profile.seams[k]
    middle = float(ways.mean())
    found = [profile.at(float(way), middle) for way in ways]
    heights, slopes = np.array([h for h, _ in found]), np.array([m for _, m in found])
    _refuse_outside(chart, k, heights)
    across = (ways - start) / width
    surface = chart.surfaces[k]
    points = surface.points(across, heights)
    by_across, by_height = surface.directions(across, heights)
    for node, place, side in ((0, across[0], 2 * k), (-1, 1 - across[-1], 2 * k + 1)):
        if place < 1e-9:
            points[node], by_height[node] = crossings.points[side], crossings.climbs[side]
    half = profile.seams[-1] - profile.seams[chart.centre]
    return Run(ways, points, by_across / width + by_height * slopes[:, None], SPREAD * half)


def _merged(first: Run, second: Run) -> Run:
    return Run(
        np.concatenate([first.ways, second.ways[1:]]),
        np.concatenate([first.points, second.points[1:]]),
        np.concatenate([first.velocities, second.velocities[1:]]),
        first.spread,
    )


def _follow(before: Run, after: Run, straight_after: bool) -> None:
    """The smooth one of two runs takes the straight one's direction where they meet."""
    angle = turn(before.velocities[-1], after.velocities[0])
    if straight_after:
        before.turns[1] = angle
    else:
        after.turns[0] = -angle


def _align(meeting: list[tuple[Run, int, Array]], upright: Upright, free: bool) -> None:
    """Turn the runs' ends so that all meet the upright line at one angle: square to it where there is one run only.

    Args:
        meeting: (run, its node on the line, upward direction of its panel's edge there), of the panel before and
            the panel after.
        upright: the line.
        free: leave the angles as they are.

    Raises:
        DesignError: if a run does not cross the line.
    """
    angles = [turn(up, run.velocities[node]) for run, node, up in meeting]
    if not free:
        common = math.pi / 2
        if len(meeting) == 2:
            share = meeting[0][0].length / (meeting[0][0].length + meeting[1][0].length)
            common = angles[0] + share * (angles[1] - angles[0])
        for (run, node, _), angle in zip(meeting, angles, strict=True):
            run.turns[node] = common - angle
        angles = [common]
    for angle in angles:
        if not LEAST_CROSSING < angle < math.pi - LEAST_CROSSING:
            raise DesignError(
                f"at the {spoken(upright.line)} line it runs along that line or back instead of across it; "
                "make the heights on either side less different"
            )


def _assembled(
    chart: BodyChart, crossings: _Crossings, curves: list[tuple[Curve, ...]], pointed: tuple[bool, bool]
) -> StyleLine:
    whole = sum(curve.length for part in curves for curve in part)
    last = len(curves) - 1
    done, panels = 0.0, []
    for k, (panel, part) in enumerate(zip(chart.panels, curves, strict=True)):
        shares = [done / whole]
        for curve in part:
            done += curve.length
            shares.append(min(done / whole, 1.0))
        if k == last:
            shares[-1] = 1.0
        places = [LinePlace(chart.uprights[n].line, crossings.shares[n]) for n in (k, k + 1)]
        sharp = (
            crossings.turning[k] or (k == 0 and pointed[0]),
            crossings.turning[k + 1] or (k == last and pointed[1]),
        )
        half: Half = "both" if chart.centre == 0 else "left" if panel.mirrored else "right"
        own = _own(panel, part)
        panels.append(PanelCurve(panel.piece.id, half, own, places[0], places[1], sharp, tuple(shares)))
    return StyleLine(tuple(panels))


def _own(panel: WalkedPanel, curves: tuple[Curve, ...]) -> tuple[Curve, ...]:
    """Curves in the coordinates of the block's panel, which a left half mirrors."""
    return tuple(curve.placed(MIRROR) for curve in curves) if panel.mirrored else curves
