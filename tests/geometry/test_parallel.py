import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from panelwright.errors import GeometryError
from panelwright.geometry.curve import Curve
from panelwright.geometry.parallel import extended, parallel


def quarter_circle(radius: float) -> Curve:
    """Anticlockwise about the origin, in four cubics with the tangents of the circle: within 3e-6 of its radius."""
    angles = np.linspace(0.0, math.pi / 2, 5)
    handle = 4 / 3 * math.tan((angles[1] - angles[0]) / 4)
    spots = np.column_stack([np.cos(angles), np.sin(angles)])
    ways = np.column_stack([-np.sin(angles), np.cos(angles)])
    cubics = [
        [a, a + handle * u, b - handle * v, b] for a, b, u, v in zip(spots, spots[1:], ways, ways[1:], strict=False)
    ]
    return Curve(radius * np.array(cubics))


@given(st.floats(60.0, 400.0), st.floats(-50.0, 50.0))
def test_a_circle_becomes_a_circle(radius: float, distance: float) -> None:
    """G: the parallel of a circle of radius r, d to the left of its sense, is the circle of radius r - d."""
    moved = parallel(quarter_circle(radius), distance)
    away = np.linalg.norm(moved.polyline(0.001), axis=1)
    assert np.abs(away - (radius - distance)).max() < 0.01
    assert moved.length == pytest.approx((radius - distance) * math.pi / 2, abs=0.01)
    assert moved.start == pytest.approx([radius - distance, 0.0], abs=0.01)


@given(st.lists(st.floats(-25.0, 25.0), min_size=4, max_size=4), st.floats(-40.0, 40.0))
def test_every_place_is_as_far_from_the_curve_as_asked(bends: list[float], distance: float) -> None:
    """Measured from either curve to the other, so that neither strays."""
    points = np.column_stack([np.linspace(0.0, 400.0, 4), bends])
    curve = Curve.from_points(points)
    moved = parallel(curve, distance)
    for one, other in ((curve, moved), (moved, curve)):
        line = shapely.LineString(extended(other, 100.0).polyline(0.002))
        away = shapely.distance(line, shapely.points(one.polyline()))
        assert np.abs(away - abs(distance)).max() < 0.01
    if distance > 1.0:
        assert moved.start[1] > curve.start[1]


def test_a_straight_line_moves_as_it_is() -> None:
    moved = parallel(Curve.straight((0.0, 0.0), (0.0, 100.0)), 20.0)
    assert moved == Curve.straight((-20.0, 0.0), (-20.0, 100.0))


def test_a_curve_runs_on_straight_at_both_ends() -> None:
    longer = extended(quarter_circle(100.0), 30.0)
    assert longer.start == pytest.approx([100.0, -30.0])
    assert longer.end == pytest.approx([-30.0, 100.0])
    assert longer.length == pytest.approx(100.0 * math.pi / 2 + 60.0, abs=0.01)


def test_a_bend_that_is_sharper_than_the_distance_is_refused() -> None:
    with pytest.raises(GeometryError, match=r"bends too sharply to be moved by 12\.0 cm"):
        parallel(quarter_circle(100.0), 120.0)
    parallel(quarter_circle(100.0), -120.0)


def test_a_corner_is_refused() -> None:
    bent = Curve.straight((0, 0), (100, 0)).joined(Curve.straight((100, 0), (100, 100)))
    with pytest.raises(GeometryError, match="an edge with a corner in it"):
        parallel(bent, 5.0)
