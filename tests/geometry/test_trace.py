"""Distances of many points from a polyline, against shapely and closed forms."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from panelwright.geometry.curve import Curve
from panelwright.geometry.trace import Trace, spaced, trace

COORDINATES = st.floats(-300, 300).map(lambda x: round(x, 3))


def points(least: int, most: int) -> st.SearchStrategy[np.ndarray]:
    return st.integers(least, most).flatmap(lambda n: arrays(float, (n, 2), elements=COORDINATES))


@given(points(2, 12).filter(lambda p: np.all(np.any(np.diff(p, axis=0) != 0, axis=1))), points(1, 20))
def test_distance_and_foot_agree_with_shapely(line: np.ndarray, places: np.ndarray) -> None:
    own, other = Trace(line), shapely.LineString(line)
    apart, arcs = own.nearest(places)
    assert apart == pytest.approx(shapely.distance(other, shapely.points(places)), abs=1e-9)
    feet = shapely.get_coordinates(shapely.line_interpolate_point(other, arcs))
    assert np.hypot(*(feet - places).T) == pytest.approx(apart, abs=1e-6)
    assert own.length == pytest.approx(other.length)


def quarter_circle(radius: float) -> Curve:
    """The usual cubic for a quarter of a circle, anticlockwise from (radius, 0): at most 0.03 % of it off."""
    k = radius * 4 / 3 * math.tan(math.pi / 8)
    return Curve.from_points([(radius, 0), (radius, k), (k, radius), (0, radius)])


def test_a_circle_is_one_radius_from_its_middle_and_its_normals_point_away() -> None:
    own = trace(quarter_circle(100.0))
    apart, _ = own.nearest(np.array([[0.0, 0.0]]))
    assert apart[0] == pytest.approx(100.0, abs=0.05)
    on, normals = own.at(np.linspace(0.0, own.length, 50))
    assert np.hypot(*on.T) == pytest.approx(100.0, abs=0.05)
    # Anticlockwise travel has the outside on its right.
    assert np.sum(normals * on, axis=1) / 100 == pytest.approx(1.0, abs=1e-3)


def test_many_points_are_worked_in_blocks_with_the_same_answer(monkeypatch: pytest.MonkeyPatch) -> None:
    own = trace(quarter_circle(100.0))
    places = np.random.default_rng(5).uniform(-150, 150, (500, 2))
    whole = own.nearest(places)
    monkeypatch.setattr("panelwright.geometry.trace._BLOCK", 40)
    for one, other in zip(own.nearest(places), whole, strict=True):
        assert np.array_equal(one, other)
    assert own.nearest(np.empty((0, 2)))[0].shape == (0,)


def test_a_curve_that_stands_still_is_traced_without_a_step_of_no_length() -> None:
    still = Curve.from_points([(0, 0), (1, 0), (2, 0), (3, 0), (3, 0), (3, 0), (3, 0), (4, 1), (5, 2), (6, 3)])
    assert (np.hypot(*trace(still).steps.T) > 0).all()


@given(points(3, 12), st.floats(0.5, 50))
def test_spaced_points_keep_the_corners_and_no_gap_is_too_wide(line: np.ndarray, step: float) -> None:
    places, which = spaced(line, step)
    closed = np.vstack([places, places[:1]])
    assert np.hypot(*np.diff(closed, axis=0).T).max() <= step + 1e-9
    first = np.searchsorted(which, np.arange(len(line)))
    assert np.array_equal(places[first], line)
    ring = shapely.LinearRing(line)
    assert shapely.distance(ring, shapely.points(places)).max() < 1e-9
