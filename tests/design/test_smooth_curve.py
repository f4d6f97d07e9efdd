import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.interpolate import CubicHermiteSpline, PchipInterpolator

from panelwright.design.smooth_curve import SmoothCurve, hermite
from panelwright.errors import GeometryError

STEPS = st.lists(st.floats(1.0, 100.0), min_size=3, max_size=8)


@given(st.floats(0.0, 1.0), st.floats(0.5, 50.0), st.tuples(*[st.floats(-20.0, 20.0)] * 4))
def test_a_cubic_between_two_knots_is_scipys(t: float, span: float, ends: tuple[float, float, float, float]) -> None:
    y0, y1, m0, m1 = ends
    spline = CubicHermiteSpline([0.0, span], [y0, y1], [m0, m1])
    value, slope = hermite(t, span, (y0, y1), (m0, m1))
    assert value == pytest.approx(float(spline(t * span)), abs=1e-9)
    assert slope == pytest.approx(float(spline(t * span, 1)), abs=1e-9)


@given(STEPS, STEPS)
def test_inner_slopes_are_scipys_monotone_ones(ways: list[float], rises: list[float]) -> None:
    count = min(len(ways), len(rises))
    x = [sum(ways[:k]) for k in range(count)]
    y = [sum(rises[:k]) for k in range(count)]
    curve = SmoothCurve.monotone(x, y)
    other = PchipInterpolator(x, y)
    for k in range(1, count - 1):
        assert curve.slopes[k] == pytest.approx(float(other(x[k], 1)), rel=1e-9)
    samples = [x[0] + (x[-1] - x[0]) * k / 50 for k in range(51)]
    values = [curve.at(s)[0] for s in samples]
    assert values == sorted(values)


@given(STEPS, STEPS, st.floats(-0.5, 1.5))
def test_the_inverse_takes_a_value_back(ways: list[float], rises: list[float], share: float) -> None:
    count = min(len(ways), len(rises))
    x = [sum(ways[:k]) for k in range(count)]
    curve = SmoothCurve.monotone(x, [sum(rises[:k]) for k in range(count)])
    way = x[0] + share * (x[-1] - x[0])
    assert curve.inverse(curve.at(way)[0]) == pytest.approx(way, abs=1e-6)


def test_beyond_its_ends_it_runs_straight_on() -> None:
    curve = SmoothCurve.monotone([0.0, 10.0, 20.0], [0.0, 10.0, 40.0])
    assert curve.at(30.0) == (70.0, 3.0)
    assert curve.at(-5.0) == (-5.0, 1.0)


@pytest.mark.parametrize("x", [(0.0,), (0.0, 0.0), (1.0, 0.0)])
def test_knots_that_do_not_rise_are_refused(x: tuple[float, ...]) -> None:
    with pytest.raises(GeometryError, match="each beyond the last"):
        SmoothCurve(x, x, x)


def test_many_places_at_once_are_those_of_one_by_one() -> None:
    curve = SmoothCurve.monotone([0.0, 10.0, 25.0, 40.0], [0.0, 4.0, 4.0, -9.0])
    ways = np.linspace(-12.0, 55.0, 68)
    values, slopes = curve.at_all(ways)
    one_by_one = [curve.at(float(way)) for way in ways]
    assert values == pytest.approx([value for value, _ in one_by_one])
    assert slopes == pytest.approx([slope for _, slope in one_by_one])
