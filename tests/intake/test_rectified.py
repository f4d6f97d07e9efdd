"""The table from above, against the photo's own view looked up at every single pixel."""

import numpy as np
import pytest

from panelwright.errors import InputError
from panelwright.geometry.arrays import Array
from panelwright.intake.photo_view import PhotoView
from panelwright.intake.rectified import Rectified, rectified, useful_area

WIDTH, HEIGHT = 1600, 1200
LEVEL = 120 * 2 * np.pi / 40  # how much the waves change in a pixel, at most


def waves(places: Array) -> Array:
    """Blue waves across a photo, green ones down it, 40 pixels long."""
    return 127.5 + 120 * np.sin(2 * np.pi * places / 40)


def from_above(lean: float, bend: float) -> tuple[Rectified, Array]:
    """A photo of waves, taken leaning, from above; and where its pixels lie in the photo, shape (h, w, 2)."""
    view = PhotoView(np.array([[1 / 300, 0, 0], [0, 1 / 300, 0], [0.3 * lean, lean, 1]]), (bend, 0.01), WIDTH, HEIGHT)
    y, x = np.mgrid[0:HEIGHT, 0:WIDTH].astype(float)
    photo = np.dstack([waves(x), waves(y), np.zeros_like(x)]).round().astype(np.uint8)
    table = rectified(photo, view, np.array([-260.0, -200.0]), np.array([260.0, 200.0]), 3.0)
    rows, columns = np.mgrid[0 : table.shown.shape[0], 0 : table.shown.shape[1]].astype(float)
    points = table.to_plane(np.dstack([columns, rows]).reshape(-1, 2))
    return table, view.to_photo(points).reshape(*table.shown.shape, 2)


@pytest.mark.parametrize(("lean", "bend"), [(0.0, 0.0), (0.0009, 0.0), (-0.0009, 0.08), (0.0009, -0.08)])
def test_every_pixel_shows_its_place_in_the_photo(lean: float, bend: float) -> None:
    table, places = from_above(lean, bend)
    deep = table.shown & (places > 2).all(axis=-1) & (places < [WIDTH - 3, HEIGHT - 3]).all(axis=-1)
    assert deep.mean() > 0.5
    off = np.abs(table.picture[..., :2] - waves(places))[deep]
    assert off.max() < 0.15 * LEVEL  # 0.15 pixels of the photo; looking places up in steps of 1/32 takes 0.03 of them


def test_nothing_is_shown_from_behind_the_camera() -> None:
    table, places = from_above(0.006, 0.0)
    rows = np.flatnonzero(table.shown.any(axis=1))
    horizon = -1 / 0.006  # mm up the table, at its middle
    assert table.to_plane(np.array([[780.0, rows.max()]]))[0, 1] > horizon
    assert table.shown.any()
    assert np.isfinite(places[table.shown]).all()


@pytest.mark.parametrize("lean", [0.0, 0.0009])
def test_what_the_photo_does_not_show_is_told(lean: float) -> None:
    table, places = from_above(lean, 0.05)
    outside = np.maximum(-places, places - [WIDTH - 1, HEIGHT - 1]).max(axis=-1)
    assert table.shown[outside < -0.1].all()
    assert not table.shown[outside > 0.1].any()
    assert (outside > 0.1).any()


def test_a_photo_that_shows_all_of_the_table_too_small_is_refused() -> None:
    view = PhotoView(np.array([[1 / 300, 0, 0], [0, 1 / 300, 0], [0.0, 0.5, 1]]), (0.0, 0.0), WIDTH, HEIGHT)
    low, high = useful_area(view, 0.01)
    assert (low < high).all()
    with pytest.raises(InputError, match="looked along the table"):
        useful_area(view, 1e9)
