"""Column profiles never say that two outlines are clear of each other when shapely finds that they are not."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon, affinity, box

from panelwright.lay.column_profile import COLUMN, ColumnProfile


@st.composite
def stars(draw: st.DrawFn) -> np.ndarray:
    """A star-shaped outline about the origin: simple, hollow in places."""
    count = draw(st.integers(3, 14))
    radii = draw(st.lists(st.floats(3, 60), min_size=count, max_size=count))
    late = draw(st.lists(st.floats(0, 0.6), min_size=count, max_size=count))
    angles = 2 * np.pi * (np.arange(count) + np.array(late)) / count
    return np.column_stack([radii * np.cos(angles), radii * np.sin(angles)])


def at_origin(outline: np.ndarray) -> Polygon:
    return Polygon(outline - outline.min(axis=0))


@given(stars())
def test_a_profile_covers_its_outline_and_touches_it_in_every_column(outline: np.ndarray) -> None:
    profile, area = ColumnProfile.of(outline), at_origin(outline)
    assert profile.columns * COLUMN >= area.bounds[2] - 1e-9
    for k, (low, high) in enumerate(zip(profile.low, profile.high, strict=True)):
        column = area.intersection(box(k * COLUMN, -1.0, (k + 1) * COLUMN, 200.0))
        if not column.is_empty:
            assert (low, high) == pytest.approx((column.bounds[1], column.bounds[3]), abs=1e-7)


@given(stars(), stars(), st.floats(-1, 1), st.floats(-200, 200))
def test_what_is_not_forbidden_is_clear(a: np.ndarray, b: np.ndarray, place: float, lift: float) -> None:
    moving, still = ColumnProfile.of(a), ColumnProfile.of(b)
    starts, stops = moving.forbidden(still)
    assert len(starts) == still.columns + moving.columns - 1
    k = round((place + 1) / 2 * (len(starts) - 1))
    shift = (k - (moving.columns - 1)) * COLUMN
    for y in (lift, starts[k], stops[k]):
        if not starts[k] < y < stops[k]:
            shared = affinity.translate(at_origin(a), shift, y).intersection(at_origin(b))
            assert shared.area < 1e-6


def test_two_boxes_may_not_share_a_height_closed_form() -> None:
    """A box 30 high may not have its foot between 30 below the foot and the head of a box 50 high."""
    moving = ColumnProfile.of(np.array([(0.0, 0.0), (20.0, 0.0), (20.0, 30.0), (0.0, 30.0)]))
    still = ColumnProfile.of(np.array([(0.0, 0.0), (40.0, 0.0), (40.0, 50.0), (0.0, 50.0)]))
    starts, stops = moving.forbidden(still)
    assert (starts == -30.0).all()
    assert (stops == 50.0).all()
    assert len(starts) == 20 / COLUMN + 40 / COLUMN - 1


def test_the_hollow_of_a_waist_can_take_a_bulge() -> None:
    """A profile in columns keeps the hollows across the cloth, where panels nest."""
    waist = np.array([(0.0, 0.0), (100.0, 0.0), (100.0, 40.0), (50.0, 20.0), (0.0, 40.0)])
    bulge = np.array([(0.0, 20.0), (50.0, 0.0), (100.0, 20.0), (100.0, 60.0), (0.0, 60.0)])
    starts, stops = ColumnProfile.of(bulge).forbidden(ColumnProfile.of(waist))
    assert stops[len(stops) // 2] == pytest.approx(20.0, abs=1.0)
    assert starts[len(starts) // 2] == pytest.approx(-60.0, abs=1e-9)
