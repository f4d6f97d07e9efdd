"""How much of every pixel a shape covers, held against closed forms and shapely's areas."""

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from panelwright.output.coverage import coverage


def test_a_rectangle_off_the_grid_covers_parts_of_its_outer_pixels() -> None:
    found = coverage([np.array([(1.25, 2.0), (3.5, 2.0), (3.5, 3.5), (1.25, 3.5)])])
    assert found is not None
    assert (found.row, found.column) == (2, 1)
    assert found.share == pytest.approx(np.array([[0.75, 1.0, 0.5], [0.375, 0.5, 0.25]]))


def test_a_hole_that_runs_the_other_way_is_left_out() -> None:
    outer = np.array([(0, 0), (9, 0), (9, 9), (0, 9)], float)
    inner = np.array([(3, 3), (3, 6), (6, 6), (6, 3)], float)
    found = coverage([outer, inner])
    assert found is not None
    assert found.share.sum() == pytest.approx(81 - 9)
    assert found.share[4, 4] == 0.0


def test_a_line_without_area_covers_nothing() -> None:
    assert coverage([np.array([(0.0, 1.0), (5.0, 1.0)])]) is None


@given(st.lists(st.tuples(st.floats(-20, 20), st.floats(-20, 20)), min_size=3, max_size=12))
def test_what_is_covered_is_the_area(corners: list[tuple[float, float]]) -> None:
    """A star-shaped outline about its middle, either way round; eight lines a row leave some error at slanted ends."""
    middle = np.mean(corners, axis=0)
    ring = np.array(sorted(corners, key=lambda corner: np.arctan2(corner[1] - middle[1], corner[0] - middle[0])))
    shape = shapely.Polygon(ring)
    if not shape.is_valid:
        return
    found = coverage([ring])
    total = 0.0 if found is None else float(found.share.sum())
    assert total == pytest.approx(shape.area, abs=0.02 * shape.length + 0.15)
