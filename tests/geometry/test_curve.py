import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from random_outline import curves
from scipy.integrate import quad
from scipy.interpolate import BPoly
from scipy.optimize import minimize_scalar
from shapely import LineString, Point

from panelwright.errors import GeometryError
from panelwright.geometry.curve import Curve
from panelwright.geometry.placement import Placement

SHARES = st.floats(0.0, 1.0)
INSIDE = st.floats(0.02, 0.98)


def as_scipy(curve: Curve) -> BPoly:
    """The same chain as scipy's Bernstein polynomials, one unit of parameter per cubic."""
    return BPoly(np.moveaxis(curve.cubics, 1, 0), np.arange(len(curve.cubics) + 1))


def arc_length(curve: Curve, upto: float) -> float:
    """By scipy's adaptive quadrature of the speed, up to parameter `upto`; each part is scaled to the unit interval,
    since the quadrature mistrusts intervals that are barely longer than nothing."""
    speed = as_scipy(curve).derivative()
    parts = [(k, min(1.0, upto - k)) for k in range(len(curve.cubics)) if k < upto]
    return float(
        sum(
            wide * quad(lambda s: np.hypot(*speed(k + wide * s)), 0.0, 1.0, epsabs=1e-11, limit=200)[0]  # noqa: B023
            for k, wide in parts
        )
    )


def quarter_circle(radius: float) -> Curve:
    """A well-known cubic for a quarter circle; it is at most 2.8e-4 of the radius off."""
    k = 4 / 3 * (math.sqrt(2) - 1) * radius
    return Curve.from_points([(radius, 0), (radius, k), (k, radius), (0, radius)])


# Length and place


@given(curves())
def test_length_is_that_of_adaptive_quadrature(curve: Curve) -> None:
    assert curve.length == pytest.approx(arc_length(curve, len(curve.cubics)), abs=1e-6)
    assert curve.joints[-1] == curve.length
    assert curve.joints[0] == 0.0


def test_length_of_a_quarter_circle() -> None:
    assert quarter_circle(100.0).length == pytest.approx(50 * math.pi, rel=3e-4)


def test_length_of_a_parabola() -> None:
    """y = x² / (4 f) from 0 to h: the closed form of its arc."""
    f, h = 50.0, 120.0
    curve = Curve.from_points([(0, 0), (h / 3, 0), (2 * h / 3, h * h / (12 * f)), (h, h * h / (4 * f))])
    u = h / (2 * f)
    assert curve.length == pytest.approx(f * (u * math.hypot(1, u) + math.asinh(u)), abs=1e-8)


@given(curves(), SHARES)
def test_the_point_at_an_arc_position_has_that_arc_before_it(curve: Curve, share: float) -> None:
    arc = share * curve.length
    k, t = curve._locate(arc)
    assert arc_length(curve, k + t) == pytest.approx(arc, abs=1e-6)
    assert np.allclose(curve.point(arc), as_scipy(curve)(k + t), atol=1e-9)


@given(curves())
def test_places_beyond_the_ends_are_held_to_them(curve: Curve) -> None:
    assert np.array_equal(curve.point(-5.0), curve.start)
    assert np.array_equal(curve.point(curve.length + 5.0), curve.end)


@given(curves(), INSIDE)
def test_tangent_and_curvature_are_those_of_scipys_polynomials(curve: Curve, share: float) -> None:
    arc = share * curve.length
    k, t = curve._locate(arc)
    first, second = as_scipy(curve).derivative()(k + t), as_scipy(curve).derivative(2)(k + t)
    assert np.allclose(curve.tangent(arc), first / np.hypot(*first), atol=1e-8)
    bend = (first[0] * second[1] - first[1] * second[0]) / np.hypot(*first) ** 3
    assert curve.curvature(arc) == pytest.approx(bend, abs=1e-7)


@given(curves(), SHARES)
def test_a_frame_is_the_point_and_the_tangent(curve: Curve, share: float) -> None:
    point, tangent = curve.frame(share * curve.length)
    assert np.array_equal(tangent, curve.tangent(share * curve.length))
    assert np.allclose(point, curve.point(share * curve.length), atol=1e-9)


@pytest.mark.parametrize("radius", [20.0, 150.0])
def test_a_circle_bends_left_by_one_over_its_radius(radius: float) -> None:
    curve = quarter_circle(radius)
    places = np.linspace(0, curve.length, 9)
    bends = np.array([curve.curvature(place) for place in places])
    assert np.allclose(bends, 1 / radius, rtol=0.022)  # the cubic itself is 2.15 % off at its ends: 2 (1 − k) / 3 k²
    assert np.allclose([curve.reversed().curvature(place) for place in places], -1 / radius, rtol=0.022)


def test_directions_at_the_ends_pass_over_control_points_on_them() -> None:
    lazy = Curve.from_points([(0, 0), (0, 0), (30, 40), (60, 40)])
    assert np.allclose(lazy.start_tangent, (0.6, 0.8))
    assert np.allclose(lazy.tangent(0.0), (0.6, 0.8))
    assert np.allclose(lazy.reversed().end_tangent, (-0.6, -0.8))
    assert np.allclose(lazy.end_tangent, (1.0, 0.0))


# Nearest


@given(curves(), st.floats(0.0, 1.0), st.floats(-15.0, 15.0))
def test_the_nearest_point_is_the_one_that_a_fine_search_finds(curve: Curve, share: float, aside: float) -> None:
    point, tangent = curve.frame(share * curve.length)
    target = point + aside * np.array([-tangent[1], tangent[0]])
    arc, gap = curve.nearest(target)
    assert np.hypot(*(curve.point(arc) - target)) == pytest.approx(gap, abs=1e-6)
    assert gap == pytest.approx(shapely.distance(LineString(curve.polyline(1e-4)), Point(target)), abs=1.5e-4)


def test_the_nearest_point_of_a_parabola_is_where_scipy_finds_it() -> None:
    curve = Curve.from_points([(-60, 36), (-20, -12), (20, -12), (60, 36)])
    target = (25.0, 40.0)
    found = minimize_scalar(lambda x: math.hypot(x - 25, x * x / 100 - 40), bounds=(0, 60), method="bounded")
    arc, gap = curve.nearest(target)
    assert curve.point(arc)[0] == pytest.approx(found.x, abs=1e-4)
    assert gap == pytest.approx(found.fun, abs=1e-8)


# Cutting and joining


@given(curves(), INSIDE)
def test_the_two_parts_of_a_split_are_the_curve(curve: Curve, share: float) -> None:
    arc = share * curve.length
    before, after = curve.split(arc)
    assert np.array_equal(before.end, after.start)
    assert before.length == pytest.approx(arc, abs=1e-6)
    assert before.length + after.length == pytest.approx(curve.length, abs=1e-6)
    for place in np.linspace(0, 1, 7):
        assert np.allclose(before.point(place * before.length), curve.point(place * before.length), atol=1e-5)
        assert np.allclose(after.point(place * after.length), curve.point(arc + place * after.length), atol=1e-5)


@given(curves(), INSIDE)
def test_a_split_and_a_join_change_no_point(curve: Curve, share: float) -> None:
    before, after = curve.split(share * curve.length)
    again = before.joined(after)
    assert again.length == pytest.approx(curve.length, abs=1e-6)
    line, line_again = LineString(curve.polyline(1e-3)), LineString(again.polyline(1e-3))
    assert shapely.hausdorff_distance(line, line_again) < 2.5e-3


@given(curves())
def test_a_split_at_a_joint_adds_no_cubic(curve: Curve) -> None:
    for k, joint in enumerate(curve.joints[1:-1], 1):
        before, after = curve.split(joint)
        assert (len(before.cubics), len(after.cubics)) == (k, len(curve.cubics) - k)


@given(curves(), SHARES, SHARES)
def test_a_stretch_is_as_long_as_its_ends_are_apart(curve: Curve, one: float, other: float) -> None:
    a, b = one * curve.length, other * curve.length
    if abs(a - b) < 0.01:
        return
    part = curve.between(a, b)
    assert part.length == pytest.approx(abs(b - a), abs=1e-6)
    assert np.allclose(part.start, curve.point(a), atol=1e-5)
    assert np.allclose(part.end, curve.point(b), atol=1e-5)


@given(curves())
def test_reversing_twice_is_the_curve_itself(curve: Curve) -> None:
    turned = curve.reversed()
    assert turned.reversed() == curve
    assert np.array_equal(turned.start, curve.end)
    assert np.allclose(turned.point(0.3 * curve.length), curve.point(0.7 * curve.length), atol=1e-6)
    assert np.allclose(turned.start_tangent, -curve.end_tangent)


@given(curves(), st.floats(-3.0, 3.0), st.floats(-900.0, 900.0), st.booleans())
def test_a_placed_curve_keeps_its_length_and_its_bend(curve: Curve, angle: float, shift: float, turned: bool) -> None:
    placed = curve.placed(Placement(angle, shift, -shift, turned))
    arc = 0.37 * curve.length
    assert placed.length == pytest.approx(curve.length, abs=1e-6)
    side = -1.0 if turned else 1.0
    assert placed.curvature(arc) == pytest.approx(side * curve.curvature(arc), abs=1e-6)


@given(curves(), st.floats(0.2, 4.0))
def test_a_scaled_curve_is_longer_by_the_factor(curve: Curve, factor: float) -> None:
    assert curve.scaled(factor).length == pytest.approx(factor * curve.length, rel=1e-9)


def test_ends_can_be_put_exactly_on_given_points() -> None:
    curve = Curve.straight((0, 0), (30, 0)).ending_at(start=(0.0, 1e-5), end=(30.0, 2e-5))
    assert curve.start.tolist() == [0.0, 1e-5]
    assert curve.end.tolist() == [30.0, 2e-5]
    assert curve.ending_at() == curve


def test_bezier_points_come_back_as_they_were_given() -> None:
    points = [(0, 0), (1, 2), (3, 2), (4, 0), (5, -2), (7, -2), (8, 0)]
    curve = Curve.from_points(points)
    assert curve.points.tolist() == [[float(x), float(y)] for x, y in points]
    assert curve.chord.tolist() == [8.0, 0.0]


# Polyline


@given(curves(), st.sampled_from([0.5, 0.02, 0.001]))
def test_a_polyline_stays_within_its_tolerance_and_has_its_points_on_the_curve(curve: Curve, tolerance: float) -> None:
    points = curve.polyline(tolerance)
    fine = as_scipy(curve)(np.linspace(0, len(curve.cubics), 600 * len(curve.cubics) + 1))
    assert shapely.distance(LineString(points), shapely.points(fine)).max() <= tolerance
    assert shapely.distance(LineString(fine), shapely.points(points)).max() < 1e-3
    assert np.array_equal(points[0], curve.start)
    assert np.array_equal(points[-1], curve.end)


def test_a_straight_line_needs_no_more_than_its_ends() -> None:
    assert Curve.straight((0, 0), (300, 40)).polyline(1e-6).tolist() == [[0, 0], [300, 40]]


# Values


def test_curves_are_equal_by_their_numbers() -> None:
    one, other = Curve.straight((0, 0), (30, 40)), Curve.straight((0, 0), (30, 40))
    assert one == other
    assert hash(one) == hash(other)
    assert one != Curve.straight((0, 0), (30, 41))
    assert one != "a curve"


def test_a_curve_cannot_be_changed_in_place() -> None:
    numbers = np.array([[[0.0, 0.0], [1.0, 0.0], [2.0, 0.0], [3.0, 0.0]]])
    curve = Curve(numbers)
    numbers[0, 0, 0] = 9.0
    assert curve.start[0] == 0.0
    with pytest.raises(ValueError, match="read-only"):
        curve.cubics[0, 0, 0] = 9.0


@pytest.mark.parametrize(
    ("cubics", "sentence"),
    [
        (np.zeros((0, 4, 2)), "an array of cubics"),
        (np.zeros((1, 3, 2)), "an array of cubics"),
        ([[[0, 0], [1, 0], [2, 0], [math.nan, 0]]], "not a finite number"),
        ([[[0, 0], [1, 0], [2, 0], [math.inf, 0]]], "not a finite number"),
        ([[[5, 5], [5, 5], [5, 5], [5, 5]]], "has no length"),
        ([[[0, 0], [1, 0], [2, 0], [3, 0]], [[3, 1], [4, 0], [5, 0], [6, 0]]], "do not follow one another"),
    ],
)
def test_a_curve_that_cannot_be_is_refused(cubics: object, sentence: str) -> None:
    with pytest.raises(GeometryError, match=sentence):
        Curve(np.array(cubics, float))


@pytest.mark.parametrize("count", [0, 1, 3, 5, 6])
def test_a_chain_needs_three_n_plus_one_points(count: int) -> None:
    with pytest.raises(GeometryError, match=r"3n\+1 points"):
        Curve.from_points(np.arange(2.0 * count).reshape(count, 2))


@pytest.mark.parametrize("arc", [-1.0, 0.0, 50.0, 51.0, math.nan])
def test_a_curve_is_not_cut_at_or_beyond_its_ends(arc: float) -> None:
    with pytest.raises(GeometryError, match="cannot be cut at"):
        Curve.straight((0, 0), (30, 40)).split(arc)


def test_curves_are_not_joined_across_a_gap() -> None:
    with pytest.raises(GeometryError, match=r"across a gap of 0\.500000 mm"):
        Curve.straight((0, 0), (30, 0)).joined(Curve.straight((30, 0.5), (60, 0)))
