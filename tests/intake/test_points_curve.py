"""The curve through typed points, against closed forms and an independent spline."""

import numpy as np
import pytest
from scipy.interpolate import make_interp_spline

from panelwright.errors import GeometryError
from panelwright.intake.points_curve import curve_through


def test_it_passes_through_every_point_and_nowhere_jumps() -> None:
    points = np.array([(0, 0), (10, 4), (25, 3), (40, 9), (52, 2)], float)
    curve = curve_through(points)
    assert np.abs(np.concatenate([curve.cubics[:, 0], curve.cubics[-1:, 3]]) - points).max() == 0.0
    for arc in curve.joints[1:-1]:
        assert np.allclose(curve.tangent(arc - 1e-6), curve.tangent(arc + 1e-6), atol=1e-5)
        assert curve.curvature(arc - 1e-6) == pytest.approx(curve.curvature(arc + 1e-6), abs=1e-5)


def test_a_circle_read_at_points_has_its_closed_length() -> None:
    angles = np.linspace(0, np.pi / 2, 9)
    curve = curve_through(100 * np.column_stack([np.cos(angles), np.sin(angles)]))
    assert curve.length == pytest.approx(100 * np.pi / 2, abs=0.002)
    assert curve.curvature(60.0) == pytest.approx(0.01, rel=3e-3)


def test_it_is_the_cubic_spline_of_another_routine() -> None:
    points = np.array([(0, 0), (3, 8), (9, 12), (20, 11), (31, 15)], float)
    along = np.concatenate([[0], np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1))])
    other = make_interp_spline(along, points, k=3)(np.linspace(0, along[-1], 50))
    assert max(curve_through(points).nearest(place)[1] for place in other) < 1e-6


@pytest.mark.parametrize("points", [[(1, 1)], [(0, 0), (5, 5), (5, 5), (9, 1)]])
def test_no_line_runs_through_one_place(points: list[tuple[float, float]]) -> None:
    with pytest.raises(GeometryError, match=r"two points or more|points 2 and 3 are in one place"):
        curve_through(points)
