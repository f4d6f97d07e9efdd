import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from plain_block import plain_block
from scipy.integrate import quad
from scipy.optimize import brentq

from panelwright.design.arc_points import arc_frames, arc_points
from panelwright.geometry.curve import Curve

COORDINATE = st.floats(-100.0, 100.0)
POINT = st.tuples(COORDINATE, COORDINATE)


def by_integration(points: np.ndarray, arc: float) -> np.ndarray:
    """The point of one cubic at an arc position, by scipy's quadrature and root finding."""

    def speed(t: float) -> float:
        d = np.diff(points, axis=0) * 3
        return float(np.linalg.norm((1 - t) ** 2 * d[0] + 2 * t * (1 - t) * d[1] + t * t * d[2]))

    t = brentq(lambda end: quad(speed, 0, end, epsabs=1e-12)[0] - arc, 0.0, 1.0, xtol=1e-14)
    r = 1 - t
    return r**3 * points[0] + 3 * r * r * t * points[1] + 3 * r * t * t * points[2] + t**3 * points[3]


@pytest.mark.parametrize("arc", [0.0, 1.0, 37.5, 80.0])
def test_places_agree_with_quadrature(arc: float) -> None:
    points = np.array([(0.0, 0.0), (30.0, 10.0), (60.0, -5.0), (95.0, 20.0)])
    assert arc_points(Curve.from_points(points), [arc])[0] == pytest.approx(by_integration(points, arc), abs=1e-7)


def test_places_and_directions_agree_with_the_curve_one_by_one() -> None:
    curve = plain_block().piece("SF").edges[1].curve
    arcs = np.linspace(0.0, curve.length, 41)
    points, tangents = arc_frames([curve] * len(arcs), arcs)
    assert np.abs(points - [curve.point(arc) for arc in arcs]).max() < 1e-8
    assert np.abs(tangents[:-1] - [curve.tangent(arc) for arc in arcs[:-1]]).max() < 1e-8
    assert tangents[-1] == pytest.approx(curve.end_tangent)


@given(POINT, POINT, st.floats(0.0, 1.0))
def test_on_a_straight_line_shares_of_length_are_shares_of_the_way(
    a: tuple[float, float], b: tuple[float, float], share: float
) -> None:
    if np.hypot(a[0] - b[0], a[1] - b[1]) < 1.0:
        return
    curve = Curve.straight(a, b)
    there = np.add(a, share * np.subtract(b, a))
    assert arc_points(curve, [share * curve.length])[0] == pytest.approx(there, abs=1e-8)
