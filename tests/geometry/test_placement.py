import cmath
import math

import numpy as np
import pytest
import shapely.affinity
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon

from panelwright.geometry.placement import Placement

LENGTHS = st.floats(-2000.0, 2000.0)
ANGLES = st.floats(-math.pi, math.pi)
PLACEMENTS = st.builds(Placement, angle=ANGLES, x=LENGTHS, y=LENGTHS, mirrored=st.booleans())
POINTS = st.tuples(LENGTHS, LENGTHS).map(np.array)


@given(PLACEMENTS, POINTS)
def test_a_placement_is_a_turn_and_shift_of_the_complex_plane(placement: Placement, point: np.ndarray) -> None:
    z = complex(*point)
    if placement.mirrored:
        z = complex(-point[0], point[1])
    wanted = z * cmath.exp(1j * placement.angle) + complex(placement.x, placement.y)
    assert placement.points(point) == pytest.approx([wanted.real, wanted.imag], abs=1e-8)


@given(PLACEMENTS)
def test_a_placement_moves_a_shape_as_shapelys_affinity_does(placement: Placement) -> None:
    corners = np.array([(0.0, 0.0), (40.0, 0.0), (25.0, 30.0)])
    shape = Polygon(corners)
    if placement.mirrored:
        shape = shapely.affinity.scale(shape, xfact=-1, origin=(0, 0))
    shape = shapely.affinity.rotate(shape, placement.angle, origin=(0, 0), use_radians=True)
    wanted = shapely.affinity.translate(shape, placement.x, placement.y)
    assert np.allclose(placement.points(corners), np.array(wanted.exterior.coords)[:3], atol=1e-8)


@given(PLACEMENTS, POINTS, POINTS)
def test_distances_are_kept_and_a_mirror_turns_the_sense_round(
    placement: Placement, one: np.ndarray, other: np.ndarray
) -> None:
    apart = placement.points(one) - placement.points(other)
    assert np.hypot(*apart) == pytest.approx(np.hypot(*(one - other)), abs=1e-8)
    assert apart == pytest.approx(placement.vectors(one - other), abs=1e-8)
    assert np.linalg.det(placement.matrix) == pytest.approx(-1.0 if placement.mirrored else 1.0)


@given(PLACEMENTS, PLACEMENTS, POINTS)
def test_one_placement_after_another(second: Placement, first: Placement, point: np.ndarray) -> None:
    both = second.after(first)
    assert both.points(point) == pytest.approx(second.points(first.points(point)), abs=1e-7)


@given(PLACEMENTS, POINTS)
def test_the_inverse_takes_everything_back(placement: Placement, point: np.ndarray) -> None:
    assert placement.inverse.points(placement.points(point)) == pytest.approx(point, abs=1e-7)
    assert placement.points(placement.inverse.points(point)) == pytest.approx(point, abs=1e-7)


@given(POINTS, ANGLES, POINTS, ANGLES)
def test_carrying_lays_point_on_point_and_direction_on_direction(
    point: np.ndarray, angle: float, to: np.ndarray, to_angle: float
) -> None:
    direction, to_direction = (np.array([math.cos(a), math.sin(a)]) for a in (angle, to_angle))
    placement = Placement.carrying(point, direction, to, to_direction)
    assert not placement.mirrored
    assert placement.points(point) == pytest.approx(to, abs=1e-7)
    assert placement.vectors(direction) == pytest.approx(to_direction, abs=1e-9)


def test_arrays_of_any_shape_are_placed() -> None:
    grid = np.arange(24.0).reshape(3, 4, 2)
    placed = Placement(0.3, 1.0, 2.0, mirrored=True).points(grid)
    assert placed.shape == grid.shape
    assert np.allclose(placed[1, 2], Placement(0.3, 1.0, 2.0, mirrored=True).points(grid[1, 2]))


def test_no_placement_changes_nothing() -> None:
    assert Placement().points(np.array([3.0, 4.0])).tolist() == [3.0, 4.0]
