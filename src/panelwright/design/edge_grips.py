"""What can be taken hold of on a top edge and a hem: their heights and their free points."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

import numpy as np

from panelwright.design.body_chart import BodyChart, half_chart
from panelwright.design.chart_place import chart_places
from panelwright.design.finished_edge import FreePoint
from panelwright.design.grip import Grip, Handle, tracked
from panelwright.design.hem import Hem
from panelwright.design.line_start import EdgeStep
from panelwright.design.moved_height import SHARE_DIGITS, SNAP, moved_between, moved_on_line
from panelwright.design.on_paper import OnPaper, on_paper
from panelwright.design.position import BodyPoint, Height, height_at, place_on
from panelwright.design.profile import Profile, way_of
from panelwright.design.step import Step
from panelwright.design.track import Track
from panelwright.geometry.arrays import Array
from panelwright.pattern.pattern import Pattern

ANCHORS: Final = {"centre": "height at centre front", "side": "height at side", "back": "height at centre back"}
SAME_WAY: Final = 1.0  # mm round the body between an anchor and a free point that stands in its place


def edge_grips(step: EdgeStep, pattern: Pattern, block: Pattern, name: str | None = None) -> Iterator[Grip]:
    """The heights at centre front, side and centre back, unless a free point stands there, and every free point; on
    pieces that still end in the step's line.

    Args:
        step: a top edge or hem.
        pattern: after the steps of the design.
        block: the unmodified block.
        name: of the one that is wanted; None for all.

    Raises:
        DesignError: if the line cannot be drawn on this block.
    """
    ended = {piece.id for piece, _ in pattern.pieces_on_line(f"{step.uid}/line")}
    yield from (grip for grip in _all(step, pattern, half_chart(block), name) if grip.handle.piece in ended)


def _all(step: EdgeStep, pattern: Pattern, chart: BodyChart, wanted: str | None) -> Iterator[Grip]:
    profile = step.design.profile(chart)
    held = [way_of(profile.seams, place_on(chart, point.at).across) for point in step.points]
    for name, across in (("centre", 0.0), ("side", chart.side), ("back", float(len(chart.panels)))):
        way = way_of(profile.seams, across)
        if wanted in (None, name) and all(abs(way - other) >= SAME_WAY for other in held):
            yield from _anchor(step, pattern, chart, profile, name, across)
    for number, point in enumerate(step.points, 1):
        if wanted in (None, _point_name(number)):
            yield from _free_point(step, pattern, chart, profile, number, point)


def _point_name(number: int) -> str:
    return f"point {number}"


def _beside(step: EdgeStep, chart: BodyChart, profile: Profile, across: float) -> list[float]:
    """Heights of the edge at the anchors and free points next to a place on it, mm above the waist; a straight hem,
    which moves as a whole, has none."""
    if isinstance(step, Hem) and step.shape == "straight":
        return []
    ends = [0.0, chart.side, float(len(chart.panels)), *(place_on(chart, point.at).across for point in step.points)]
    ways = [way_of(profile.seams, end) for end in ends]
    here = way_of(profile.seams, across)
    before = max((way for way in ways if way < here - SAME_WAY), default=None)
    after = min((way for way in ways if way > here + SAME_WAY), default=None)
    return [profile.at(way)[0] for way in (before, after) if way is not None]


def upright_track(chart: BodyChart, upright: int, height: float, pattern: Pattern) -> Track | None:
    """The track along an upright line by mm up it, on the panel nearer the centre front; None if that panel is gone.

    `height` is where on it to be, mm above the waist.
    """
    line = chart.uprights[upright]
    panel = chart.panels[max(upright - 1, 0)]
    curve = (panel.exit_edge if upright else panel.entry_edge).line_curve
    stretch = curve.length / line.length
    here = line.shares.at(height)[0] * line.length
    paper = on_paper(pattern, panel.piece.id, curve.point(here * stretch))
    if paper is None:
        return None
    return Track(paper.piece, here, 0.0, line.length, lambda arc: paper.place(curve.point(arc * stretch)))


def across_track(
    chart: BodyChart, k: int, share: float, height: float, pattern: Pattern
) -> tuple[Track, OnPaper] | None:
    """The track up panel k at a share of the way across it, by mm above the waist, and where the panel lies."""
    surface, across = chart.surfaces[k], np.array([share])

    def place(up: float) -> Array:
        found: Array = surface.points(across, np.array([up]))[0]
        return found

    paper = on_paper(pattern, chart.panels[k].piece.id, place(height))
    if paper is None:
        return None
    low, high = chart.rows[0].height, chart.rows[-1].height
    return Track(paper.piece, height, low, high, lambda up: paper.place(place(up))), paper


def _anchor(
    step: EdgeStep, pattern: Pattern, chart: BodyChart, profile: Profile, name: str, across: float
) -> Iterator[Grip]:
    height = profile.at(way_of(profile.seams, across))[0]
    like: Height = getattr(step, name) or step.side
    k = int(across)

    beside = _beside(step, chart, profile, across)

    def on_line(arc: float, snap: bool) -> Step:
        return _with_height(step, name, moved_on_line(chart, k, arc, like, snap, beside))

    def between(up: float, snap: bool) -> Step:
        def drawn(height: Height) -> float:
            return _drawn_at(_with_height(step, name, height), chart, across)

        return _with_height(step, name, moved_between(chart, drawn, up, like, snap, beside))

    if across == k:
        track = upright_track(chart, k, height, pattern)
        if track is not None:
            yield tracked(step, name, ANCHORS[name], track, on_line)
        return
    found = across_track(chart, k, across - k, height, pattern)
    if found is not None:
        yield tracked(step, name, ANCHORS[name], found[0], between)


def _drawn_at(step: EdgeStep, chart: BodyChart, across: float) -> float:
    """Height of the step's line at a place, mm above the waist."""
    profile = step.design.profile(chart)
    return profile.at(way_of(profile.seams, across))[0]


def _with_height(step: EdgeStep, name: str, height: Height) -> EdgeStep:
    """The step with one of its heights changed; a straight hem is moved as a whole."""
    if isinstance(step, Hem) and step.shape == "straight":
        return replace(step, centre=height, side=height, back=height if step.back else None)
    changed = {"centre": step.centre, "side": step.side, "back": step.back, name: height}
    return replace(step, centre=changed["centre"], side=changed["side"], back=changed["back"])  # type: ignore[arg-type]  # only back may be None


def _free_point(
    step: EdgeStep, pattern: Pattern, chart: BodyChart, profile: Profile, number: int, point: FreePoint
) -> Iterator[Grip]:
    place = place_on(chart, point.at)
    beside = _beside(step, chart, profile, place.across)
    name, label = _point_name(number), f"point {number} of the line"

    def put(at: BodyPoint) -> Step:
        moved = replace(point, at=at)
        return replace(step, points=(*step.points[: number - 1], moved, *step.points[number:]))

    def on_line(arc: float, snap: bool) -> Step:
        height = moved_on_line(chart, int(place.across), arc, point.at.height, snap, beside)
        return put(replace(point.at, height=height))

    if point.at.towards is None:
        track = upright_track(chart, int(place.across), place.height, pattern)
        if track is not None:
            yield tracked(step, name, label, track, on_line)
        return
    k = min(chart.index(point.at.line), chart.index(point.at.towards))
    found = across_track(chart, k, place.across - k, place.height, pattern)
    if found is not None:
        track, paper = found
        handle = Handle(step.uid, name, label, paper.piece, track, anywhere=True)
        yield Grip(handle, lambda to, snap: put(_put_between(chart, point.at, paper.panel_place(to), snap, beside)))


def _put_between(chart: BodyChart, point: BodyPoint, to: Array, snap: bool, beside: Sequence[float]) -> BodyPoint:
    """A point between two lines put on a place of its panel, no farther than those lines.

    Args:
        chart: of the block.
        point: as it was.
        to: the place on the panel, mm.
        snap: whether to snap to levels, to the seams on both sides, and to the heights beside it.
        beside: those heights, mm above the waist.
    """
    line, other = chart.index(point.line), chart.index(point.towards or point.line)
    k = min(line, other)
    share, height = chart_places(chart, k, to[None])[0].tolist()
    share = _on_seam(chart, k, share, height) if snap else share
    fraction = round(share if other > line else 1.0 - share, SHARE_DIGITS)
    across = line + fraction * (other - line)
    found = moved_between(chart, lambda h: height_at(chart, across, h), height, point.height, snap, beside)
    return replace(point, height=found, fraction=fraction)


def _on_seam(chart: BodyChart, k: int, share: float, height: float) -> float:
    """0 or 1 for a place across panel k within 3 mm of the seam there, else the place itself."""
    width = chart.widths[k].at(height)[0]
    near = 0.0 if share < 1 / 2 else 1.0
    return near if abs(share - near) * width <= SNAP else share
