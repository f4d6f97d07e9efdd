"""Outlines made ready: they only grow, by little, and their parts cover them."""

import time

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from lay.search.stars import box, star

from panelwright.lay.search.outline import convex_parts, grown, simplified

CIRCLE = np.array([[np.cos(a), np.sin(a)] for a in np.linspace(0.0, 2 * np.pi, 120, endpoint=False)]) * 100.0


@given(st.integers(0, 10**6), st.integers(5, 60))
def test_a_simpler_outline_covers_the_first_and_is_near_it(seed: int, arms: int) -> None:
    outline = star(np.random.default_rng(seed), arms)
    simple = simplified(outline, most=2.0, few=8)
    whole, first = shapely.Polygon(simple), shapely.Polygon(outline)
    assert whole.is_valid
    assert first.difference(whole).area < 1e-6
    assert len(simple) <= len(outline)
    assert shapely.hausdorff_distance(whole.exterior, first.exterior, densify=0.02) <= 2.0 + 1e-9


def test_a_circle_of_many_points_becomes_one_of_few() -> None:
    simple = simplified(CIRCLE, most=2.5, few=24)
    assert len(simple) == 24
    assert 1.0 <= shapely.Polygon(simple).area / shapely.Polygon(CIRCLE).area <= 1.02


def test_no_vertex_goes_where_that_would_grow_too_much() -> None:
    assert simplified(CIRCLE, most=1e-6, few=24) == pytest.approx(CIRCLE)


def test_a_grown_box_keeps_its_distance_all_round() -> None:
    bigger = shapely.Polygon(grown(box(50.0, 30.0), 2.0))
    small = shapely.Polygon(box(50.0, 30.0))
    assert 2.0 - 1e-9 <= bigger.exterior.distance(small) <= 2.05
    assert bigger.exterior.is_ccw


@given(st.integers(0, 10**6), st.integers(3, 30))
def test_convex_parts_cover_exactly_the_outline(seed: int, arms: int) -> None:
    outline = star(np.random.default_rng(seed), arms)
    parts = [shapely.Polygon(part) for part in convex_parts(outline)]
    assert all(part.convex_hull.area == pytest.approx(part.area, rel=1e-6) for part in parts)
    whole = shapely.Polygon(outline)
    assert sum(part.area for part in parts) == pytest.approx(whole.area, rel=1e-9)
    assert shapely.union_all(parts).symmetric_difference(whole).area < 1e-6 * whole.area


def test_a_convex_outline_is_one_part() -> None:
    assert len(convex_parts(CIRCLE)) == 1


def test_a_jagged_outline_is_parted_exactly_and_soon() -> None:
    radius = np.tile([100.0, 94.0], 500)
    angles = np.linspace(0.0, 2 * np.pi, 1000, endpoint=False)
    jagged = np.column_stack([np.cos(angles), np.sin(angles)]) * radius[:, None]
    began = time.process_time()
    parts = convex_parts(jagged)
    assert time.process_time() - began < 2.0
    assert sum(shapely.Polygon(part).area for part in parts) == pytest.approx(shapely.Polygon(jagged).area)
