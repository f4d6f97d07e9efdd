"""A grown strap on the two panels of one half: which panel carries which part of it, and its edges there."""

import math
from collections.abc import Callable
from dataclasses import replace
from itertools import product
from typing import Final, Literal

import numpy as np
from scipy.optimize import brentq
from shapely import LineString, Polygon

from panelwright.body.worded_length import length_words
from panelwright.design.strap_cut import HalfStrap, PanelStrap, Part, StrapCut
from panelwright.design.strap_panel import StrapHalf, StrapPanel
from panelwright.design.strap_rail import (
    CLEAR,
    MAKE_ROOM,
    SHARP_HELD,
    Axis,
    Landing,
    Top,
    arriving,
    beside,
    foot_arc,
    landed,
    rail,
)
from panelwright.errors import DesignError, GeometryError
from panelwright.geometry.arrays import Array, cross, turn
from panelwright.geometry.curve import Curve
from panelwright.geometry.placement import Placement
from panelwright.pattern.spoken_piece import spoken_piece

Bearing = Literal["inner", "outer", "across", "both"]

WIDENINGS: Final = (1.0, 1.35, 1.8, 2.4)  # of a foot whose width was not given
LEAST_BRIDGE: Final = 8.0  # mm of cloth between a strap's neckline edge and the princess seam beside it
LEAST_PART: Final = 5.0  # mm of a strap's width on each of two panels
SHALLOWEST: Final = math.radians(35.0)  # at which an edge may cross the princess seam
TIGHTEST_BEND: Final = (
    22.0  # mm: radius of the princess seam below a crossing, or the allowances there lie on each other
)
BEND_REACH, BEND_LOOKS = 45.0, 10  # mm below a crossing, and how many places there
NARROWEST: Final = 0.65  # of the narrower end's width, anywhere along the strap
SHIFTS: Final = (
    0.0,
    6.0,
    -6.0,
    12.0,
    -12.0,
    18.0,
    -18.0,
    25.0,
    -25.0,
    33.0,
    -33.0,
    42.0,
    -42.0,
    -52.0,
)  # mm along the top edge
FOOT_FOLLOWS: Final = 0.8  # mm that a foot moves for each mm that the strap moves along the shoulder
LEAST_RAISED: Final = 20.0  # mm above the top edge at which an edge may cross the princess seam
COARSE: Final = 0.1  # mm
LOOKS: Final = 7  # places on the princess line where a crossing is looked for
_HERE = Placement()


def bearing(half: StrapHalf, cut: StrapCut) -> tuple[Bearing, ...]:
    """Which panels carry the strap, best first.

    Raises:
        DesignError: if it does not lie on the shoulder, or a sliver of it would lie on one of two panels.
    """
    if cut.outer > half.shoulder + 1e-6:
        raise DesignError(
            f"its outer edge would lie {length_words(cut.outer - half.shoulder)} beyond the shoulder, which is "
            f"{length_words(half.shoulder)} long; move it towards the neck or make it narrower"
        )
    if not half.reaches_shoulder:
        return "inner", "across"
    on_inner, on_outer = half.middle - cut.inner, cut.outer - half.middle
    if on_outer <= 1e-6:
        return "inner", "across"
    if on_inner <= 1e-6:
        return ("outer",)
    if min(on_inner, on_outer) < LEAST_PART - 1e-6:
        inwards = on_outer < on_inner
        move = min(on_inner, on_outer)
        raise DesignError(
            f"only {length_words(move, 2)} of its width would lie on the {half.half} panel "
            f"{'beside' if inwards else 'at'} the {'princess seam' if inwards else 'centre'}; move it "
            f"{length_words(move, 2)} "
            f"{'towards the neck' if inwards else 'outwards'}"
        )
    return ("both",)


def drawn(half: StrapHalf, cut: StrapCut, foot: float | None, lift: float = 0.0) -> HalfStrap:
    """The strap on one half.

    Args:
        half: the two panels.
        cut: what is chosen.
        foot: of the strap's middle from the princess seam along the top edge, mm, outwards above 0; None: below its
            place on the shoulder, or as near as there is room.
        lift: mm by which it ends above the shoulder line (below: negative).

    Raises:
        DesignError: if it has no room; the message is about the place first tried.
    """
    first: DesignError | None = None
    start = FOOT_FOLLOWS * (cut.middle - half.shoulder / 2)
    places = [foot] if foot is not None else [start + shift for shift in SHIFTS]
    ways = bearing(half, cut)
    for widening in WIDENINGS if cut.may_widen else (1.0,):
        tried = replace(cut, foot_width=widening * cut.foot_width, may_widen=False)
        for place, way in product(places if widening == 1.0 else places[::2], ways):
            try:
                return _sound(half, _WAYS[way](half, tried, place, lift))
            except (DesignError, GeometryError) as error:
                first = first or DesignError(str(error))
    raise first or DesignError("it has no room")


def _sound(half: StrapHalf, made: HalfStrap) -> HalfStrap:
    """The strap, if the outlines of its panels do not cross themselves."""
    for panel, strap in zip((half.inner, half.outer), made.panels, strict=True):
        if strap is not None:
            _refuse_crossed(panel, strap, half.seam)
    return made


def _one(half: StrapHalf, cut: StrapCut, foot: float, lift: float, inner: bool) -> HalfStrap:
    """The whole strap on one panel."""
    panel = half.inner if inner else half.outer
    arc = panel.top.length + foot if inner else foot
    if not 0 < arc < panel.top.length:
        raise DesignError(f"its foot has no room on the top edge of one panel; {MAKE_ROOM}")
    base = 0.0 if inner else half.middle
    starts = [_on_shoulder(panel, at - base, lift) for at in (cut.inner, cut.middle, cut.outer)]
    top = Top(panel, _HERE)
    axis = Axis(starts[1][0], top.at(arc)[0])
    feet = [foot_arc(top, axis, off, arc) for off in (-cut.foot_width / 2, cut.foot_width / 2)]
    room = (top.from_centre if inner else CLEAR, top.length - CLEAR)
    low, high = (_come_down(starts[2 * k], top, feet[k], axis, cut, bool(k), room) for k in (0, 1))
    _refuse_thin(low.rail, high.rail, cut)
    shoulder = Part("shoulder", Curve.straight(low.curve.start, high.curve.start))
    parts = (Part("neckline", low.curve.reversed()), shoulder, Part("armhole", high.curve))
    strap = PanelStrap(low.arc, high.arc, parts, panel.cut)
    return HalfStrap((strap, None) if inner else (None, strap), (low.rail.length, high.rail.length), foot, cut)


def _both(half: StrapHalf, cut: StrapCut, foot: float, lift: float) -> HalfStrap:
    """The princess seam runs on up the strap to the shoulder."""
    end = _raised_end(half, lift)
    on_inner = (half.middle - cut.inner) / cut.width
    low = _beside_seam(half.inner, end, cut, on_inner, foot, False)
    high = _beside_seam(half.outer, end, cut, 1 - on_inner, foot, True)
    tops = [panel.on_upright(end)[0] for panel in (half.inner, half.outer)]
    inner = PanelStrap(
        low.arc,
        None,
        (
            Part("neckline", low.curve.reversed()),
            Part("shoulder", Curve.straight(low.curve.start, tops[0]), (0.0, on_inner)),
        ),
        end,
    )
    outer = PanelStrap(
        None,
        high.arc,
        (Part("shoulder", Curve.straight(tops[1], high.curve.start), (on_inner, 1.0)), Part("armhole", high.curve)),
        end,
    )
    return HalfStrap((inner, outer), (low.rail.length, high.rail.length), foot, cut, on_inner)


def _raised_end(half: StrapHalf, lift: float) -> float:
    """Arc on the princess line at which the strap ends."""
    sines = []
    for panel in (half.inner, half.outer):
        along = _shoulder_way(panel)
        sines.append(abs(float(cross(panel.upright.end_tangent, along))))
    return half.inner.upright.length + lift / max(sum(sines) / 2, 0.3)


def _beside_seam(panel: StrapPanel, end: float, cut: StrapCut, share: float, foot: float, outwards: bool) -> Landing:
    """One edge of a strap that has the princess seam inside it."""
    sign = 1.0 if outwards else -1.0
    top = Top(panel, _HERE)
    seam = panel.raised_upright(end).reversed()
    seam_foot = 0.0 if outwards else top.length
    way = _shoulder_way(panel)
    widths = sign * share * cut.width, sign * share * cut.foot_width + foot
    if sign * widths[1] < LEAST_PART:
        raise DesignError("its foot would leave no strap on one of its two panels; move it")
    axis = Axis(seam.end - seam.end_tangent, seam.end)
    at = foot_arc(top, axis, widths[1], seam_foot)
    foot_way, flare = arriving(axis.way, sign * top.at(at)[1], cut.rounded(outwards))
    at += sign * flare
    edge = beside(seam, seam.start + widths[0] * way, _left(way), (top.at(at)[0], foot_way), widths)
    room = (0.0, top.length - CLEAR) if outwards else (top.from_centre, top.length)
    return landed(edge, top, at, outwards, cut.rounded(outwards), room)


def _across(half: StrapHalf, cut: StrapCut, foot: float, lift: float) -> HalfStrap:
    """The strap comes down on the inner panel, and its outer edge crosses the princess seam above the top edge."""
    panel, other = half.inner, half.outer
    starts = [_on_shoulder(panel, at, lift) for at in (cut.inner, cut.middle, cut.outer)]
    tops = Top(panel, _HERE), Top(other, half.joined_at(panel.cut))
    arc = panel.top.length + foot if foot < 0 else foot
    axis = Axis(starts[1][0], tops[foot >= 0].at(arc)[0])
    near = min(panel.top.length, panel.top.length + foot)
    inner_foot = foot_arc(tops[0], axis, -cut.foot_width / 2, near)
    outer_foot = foot_arc(tops[1], axis, cut.foot_width / 2, max(0.0, foot))
    low = _come_down(starts[0], tops[0], inner_foot, axis, cut, False, (tops[0].from_centre, tops[0].length))
    own_way = tops[1].laid.inverse.vectors(axis.way)

    def path(at: float) -> tuple[Landing, Placement]:
        laid = half.joined_at(at)
        top = Top(other, laid)
        point = top.at(outer_foot)[0]
        turned = Axis(point - axis.length * laid.vectors(own_way), point)
        return _come_down(starts[2], top, outer_foot, turned, cut, True, (0.0, top.length - CLEAR)), laid

    at, high, laid = _crossing(half, path)
    _refuse_thin(low.rail, high.rail, cut)
    _refuse_narrow(low.curve, panel.raised_upright(at))
    split = high.curve.nearest(panel.on_upright(at)[0])[0]
    upper, lower = high.curve.split(split)
    upper = upper.ending_at(end=panel.on_upright(at)[0])
    lower = lower.placed(laid.inverse).ending_at(start=other.on_upright(at)[0])
    share = split / high.curve.length
    shoulder = Part("shoulder", Curve.straight(low.curve.start, high.curve.start))
    inner_parts = (Part("neckline", low.curve.reversed()), shoulder, Part("armhole", upper, (0.0, share)))
    inner = PanelStrap(low.arc, None, inner_parts, at)
    outer = PanelStrap(None, high.arc, (Part("armhole", lower, (share, 1.0)),), at)
    return HalfStrap((inner, outer), (low.rail.length, high.rail.length), foot, cut)


def _crossing(half: StrapHalf, path: Callable[[float], tuple[Landing, Placement]]) -> tuple[float, Landing, Placement]:
    """(arc on the princess line, edge, how the outer panel lies there) where the edge crosses the seam."""

    def side(at: float) -> float:
        curve = path(at)[0].curve
        point = half.inner.on_upright(at)[0]
        arc, _ = curve.nearest(point)
        foot, way = curve.frame(arc)
        return float(cross(way, point - foot))

    low, high = half.inner.cut, half.inner.upright.length
    arcs = [float(arc) for arc in np.linspace(low, high, LOOKS)]
    above = next((k for k, arc in enumerate(arcs) if side(arc) < 0), 0)
    if not above:
        raise DesignError("its outer edge does not cross the princess seam; move its foot or change its width")
    at = float(brentq(side, arcs[above - 1], arcs[above], xtol=1e-9))
    landing, laid = path(at)
    point, up = half.inner.on_upright(at)
    arc = landing.curve.nearest(point)[0]
    angle = abs(turn(-up, landing.curve.tangent(arc)))
    if not SHALLOWEST < angle < math.pi - SHALLOWEST or at - low < LEAST_RAISED:
        raise DesignError("its outer edge would run along the princess seam; move its foot or the strap")
    for upright in (half.inner.upright, half.outer.upright):
        bends = [abs(upright.curvature(arc)) for arc in np.linspace(max(low, at - BEND_REACH), at, BEND_LOOKS)]
        if max(bends) > 1 / TIGHTEST_BEND:
            raise DesignError(
                "its outer edge would cross the princess seam where that bends too sharply for its allowances; move "
                "the strap along the shoulder or make it wider"
            )
    return at, landing, laid


def _on_shoulder(panel: StrapPanel, along: float, lift: float) -> tuple[Array, Array]:
    """(place, direction downwards) at a distance along a panel's shoulder."""
    if panel.shoulder is None:
        raise DesignError("this panel does not reach the shoulder; move the strap")
    way = _shoulder_way(panel)
    return panel.shoulder.start + along * way - lift * _left(way), _left(way)


def _shoulder_way(panel: StrapPanel) -> Array:
    if panel.shoulder is None:
        raise DesignError("this panel does not reach the shoulder; move the strap")
    return panel.shoulder.start_tangent


def _come_down(
    start: tuple[Array, Array],
    top: Top,
    arc: float,
    axis: Axis,
    cut: StrapCut,
    outwards: bool,
    room: tuple[float, float],
) -> Landing:
    """One edge of the strap, from the shoulder to its foot at `arc` of the top edge (see `landed`)."""
    sign = 1.0 if outwards else -1.0
    way, flare = arriving(axis.way, sign * top.at(arc)[1], cut.rounded(outwards))
    foot = arc + sign * flare
    held = SHARP_HELD if flare else None
    edge = rail(*start, top.at(foot)[0], way, axis.length, held)
    return landed(edge, top, foot, outwards, cut.rounded(outwards), room)


def _left(way: Array) -> Array:
    """The direction a right angle to the left: from the shoulder into the panel."""
    return np.array([-way[1], way[0]])


def _refuse_thin(low: Curve, high: Curve, cut: StrapCut) -> None:
    gap = LineString(low.polyline()).distance(LineString(high.polyline()))
    if gap < NARROWEST * min(cut.width, cut.foot_width):
        raise DesignError(
            f"it would be only {length_words(gap)} wide somewhere on its way; move its foot before or behind "
            "nearer to its place on the shoulder, or leave its place out"
        )


def _refuse_narrow(edge: Curve, seam: Curve) -> None:
    gap = LineString(edge.polyline()).distance(LineString(seam.polyline()))
    if gap < LEAST_BRIDGE:
        raise DesignError(
            f"it would leave {length_words(gap)} between its neckline edge and the princess seam; move its foot "
            "or make it wider there"
        )


def _refuse_crossed(panel: StrapPanel, strap: PanelStrap, seam: str) -> None:
    """A panel whose outline would cross itself."""
    top = panel.top
    runs = [top.between(0.0, strap.leave)] if strap.leave else []
    runs += [part.curve for part in strap.parts]
    runs += [top.between(strap.enter, top.length)] if strap.enter is not None else []
    above = panel.raised_upright(strap.upright) if strap.upright > panel.cut else None
    for edge in panel.rest:
        raised = above if edge.line == seam else None
        runs += [raised.reversed()] if raised and not edge.along_line else []
        runs.append(edge.curve)
        runs += [raised] if raised and edge.along_line else []
    if not Polygon(np.concatenate([run.polyline(COARSE)[:-1] for run in runs])).is_valid:
        raise DesignError(
            f"its edges would cross each other or the top edge of {spoken_piece(panel.piece)}; move it, or "
            "make it narrower"
        )


_WAYS: Final[dict[Bearing, Callable[[StrapHalf, StrapCut, float, float], HalfStrap]]] = {
    "inner": lambda half, cut, foot, lift: _one(half, cut, foot, lift, True),
    "outer": lambda half, cut, foot, lift: _one(half, cut, foot, lift, False),
    "across": _across,
    "both": _both,
}
