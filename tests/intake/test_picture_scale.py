"""From pixels to mm of paper: against a camera that is written down here, and a ruler."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelwright.errors import InputError
from panelwright.intake.picture_scale import PictureScale


def photographed(paper: np.ndarray, tilt: float, turn: float, far: float) -> np.ndarray:
    """A pinhole camera of 2000 pixels focal length that looks at the paper's origin from `far` mm, tilted."""
    c, s = math.cos(turn), math.sin(turn)
    turned = paper @ np.array([[c, s], [-s, c]])
    depth = far + turned[:, 1] * math.sin(tilt)
    x = 2000 * turned[:, 0] / depth + 1500
    y = 1000 - 2000 * turned[:, 1] * math.cos(tilt) / depth
    return np.column_stack([x, y])


@given(st.floats(0, 0.9), st.floats(-math.pi, math.pi), st.booleans(), st.integers(0, 3))
def test_a_sheet_takes_the_slant_out(tilt: float, turn: float, other_way: bool, first: int) -> None:
    """Distances between places on the paper come back, whichever corner is pressed first and whichever way round."""
    corners = np.array([(-105.0, -148.5), (105.0, -148.5), (105.0, 148.5), (-105.0, 148.5)])
    corners = np.roll(corners[::-1] if other_way else corners, first, axis=0)
    width, height = (float(np.linalg.norm(corners[k + 1] - corners[k])) for k in (0, 1))
    places = np.array([(-60.0, 20.0), (40.0, -110.0), (90.0, 130.0), (130.0, 0.0)])
    seen = photographed(np.vstack([corners, places]), tilt, turn, 900.0)
    scale = PictureScale.of_sheet([(x, y) for x, y in seen[:4]], width, height)
    found = scale.to_paper([(x, y) for x, y in seen[4:]])
    for a in range(4):
        for b in range(a):
            assert math.dist(found[a], found[b]) == pytest.approx(math.dist(places[a], places[b]), abs=1e-6)
    area = [np.linalg.det(np.stack([p[1] - p[0], p[2] - p[0]])) for p in (found, places)]
    assert area[0] == pytest.approx(area[1], rel=1e-6)  # never mirrored


def test_a_known_length_sets_the_scale_and_turns_y_up() -> None:
    scale = PictureScale.of_length((100.0, 50.0), (100.0, 640.0), 100.0)
    (a, b) = scale.to_paper([(0.0, 0.0), (59.0, 59.0)])
    assert b - a == pytest.approx([10.0, -10.0])


@pytest.mark.parametrize(
    "corners",
    [
        [(0, 0), (100, 0), (100, 80), (50, 1)],  # pressed crosswise
        [(0, 0), (100, 100), (100, 0), (0, 100)],
        [(0, 0), (100, 0), (200, 0), (300, 0)],
        [(0, 0), (0, 0), (100, 80), (0, 80)],
    ],
)
def test_what_is_no_rectangle_is_refused(corners: list[tuple[float, float]]) -> None:
    with pytest.raises(InputError, match="not the four corners of a rectangle"):
        PictureScale.of_sheet(corners, 210, 297)


def test_two_presses_in_one_place_give_no_scale() -> None:
    with pytest.raises(InputError, match="press two places far apart"):
        PictureScale.of_length((10.0, 10.0), (11.0, 10.0), 100.0)
