import numpy as np
import shapely

from panelwright.drawing.free_space import FreeSpace
from panelwright.drawing.path import Path

ROOM = shapely.box(0, 0, 100, 50)


def box(x: float, y: float, width: float = 10.0, height: float = 4.0) -> np.ndarray:
    return np.array([(x, y), (x + width, y), (x + width, y + height), (x, y + height)])


def test_the_first_box_that_is_clear_is_chosen() -> None:
    space = FreeSpace(ROOM, [Path.polyline([(0, 20), (100, 20)])], 1.0)
    assert space.first_free(np.array([box(10, 18), box(10, 22), box(50, 22)])) == 1


def test_the_clearance_counts_on_both_sides() -> None:
    space = FreeSpace(ROOM, [Path.polyline([(0, 20), (100, 20)])], 1.0)
    assert space.first_free(np.array([box(10, 20.99)])) is None
    assert space.first_free(np.array([box(10, 21.01)])) == 0
    assert space.first_free(np.array([box(0.99, 30)])) is None
    assert space.first_free(np.array([box(1.01, 30)])) == 0


def test_what_is_taken_is_taken() -> None:
    space = FreeSpace(ROOM, [], 1.0)
    space.take(box(10, 10))
    assert space.first_free(np.array([box(19, 12)])) is None
    assert space.first_free(np.array([box(21.1, 12)])) == 0


def test_no_box_is_no_place() -> None:
    assert FreeSpace(ROOM, [], 1.0).first_free(np.empty((0, 4, 2))) is None


def test_a_box_across_a_join_comes_after_one_beside_it() -> None:
    space = FreeSpace(ROOM, [], 1.0, [Path.polyline([(0, 20), (100, 20)])])
    assert space.first_free(np.array([box(10, 18), box(10, 20.99), box(10, 21.01)])) == 2
    assert space.first_free(np.array([box(10, 18), box(50, 18)])) == 0
    assert space.first_free(np.array([box(10, 18), box(50, 18)]), across=False) is None
