"""The parts that reading a photo is made of, against closed forms and OpenCV's own camera."""

import cv2
import numpy as np
import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from intake.rendered_photo import dense

from panelwright.drawing.paper import PAPERS
from panelwright.drawing.reference_markers import markers, strip_bounds
from panelwright.drawing.reference_sheet import TITLE, reference_sheet
from panelwright.geometry.arrays import Array
from panelwright.intake.corner_finding import corner_places
from panelwright.intake.photo_edges import drawn_edges
from panelwright.intake.photo_markers import SeenMarker, seen_markers
from panelwright.intake.photo_solve import solved_view
from panelwright.intake.photo_view import PhotoView
from panelwright.intake.smooth_line import misfit_form, smooth_line
from panelwright.output.pdf import pdf_bytes

SIZE = (3000, 2000)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_printed_sheet_has_its_markers_where_the_reader_thinks(paper: str) -> None:
    with pypdfium2.PdfDocument(pdf_bytes([reference_sheet(paper)], TITLE)) as document:
        page = document[0].render(scale=400 / 72).to_numpy()[..., :3]
    found, seen = seen_markers(np.ascontiguousarray(page))
    assert found == paper
    assert len(seen) == 26
    dots = 400 / 25.4
    for each in seen:
        where = np.column_stack([each.corners[:, 0] + 0.5, page.shape[0] - each.corners[:, 1] - 0.5]) / dots
        assert np.abs(where - each.marker.corners).max() < 0.13  # the renderer fills whole dots of 0.06 mm


def opencv_camera(points: Array, tilt: float, bend: float) -> Array:
    """Pixels of points of a table, by OpenCV: tilted, 500 mm away, with its own radial distortion."""
    width, height = SIZE
    half = np.hypot(*SIZE) / 2
    matrix = np.array([[half, 0, (width - 1) / 2], [0, half, (height - 1) / 2], [0, 0, 1]])
    turned, _ = cv2.Rodrigues(np.array([np.pi - np.radians(tilt), 0.0, 0.0]))
    lifted = np.column_stack([points, np.zeros(len(points))])
    middle = turned @ np.array([105.0, 148.0, 0.0])
    shift = np.array([0, 0, 500.0]) - middle
    return cv2.projectPoints(lifted, turned, shift, matrix, np.array([bend, 0.0, 0.0, 0.0]))[0].reshape(-1, 2)


@settings(max_examples=8, deadline=None)
@given(tilt=st.floats(-35, 35), bend=st.floats(-0.15, 0.15), noise=st.floats(0, 0.15), cut=st.booleans())
def test_the_view_of_opencvs_camera_is_found(tilt: float, bend: float, noise: float, cut: bool) -> None:
    rng = np.random.default_rng(5)
    moved = {strip: np.array([0.0, 25.0]) if cut and strip == "top" else np.zeros(2) for strip in strip_bounds("A4")}
    seen = []
    for marker in markers("A4"):
        pixels = opencv_camera(marker.corners + moved[marker.strip], tilt, bend)
        seen.append(SeenMarker(marker, pixels + rng.normal(0, noise, (4, 2)), 1.0))
    solved = solved_view("A4", seen, *SIZE)
    assert solved.uncut is not cut
    place = rng.uniform([-60, -20], [260, 320], (200, 2))
    found = solved.view.to_plane(opencv_camera(place, tilt, bend))
    true, seen_apart = (np.linalg.norm(points[1:] - points[:-1], axis=1) for points in (place, found))
    assert np.abs(true - seen_apart).max() < 0.05 + 1.5 * noise
    assert solved.uncertainty(found) < 0.5


@settings(max_examples=30, deadline=None)
@given(k1=st.floats(-0.15, 0.15), k2=st.floats(-0.03, 0.03), lean=st.floats(-0.3, 0.3))
def test_a_view_goes_there_and_back(k1: float, k2: float, lean: float) -> None:
    view = PhotoView(np.array([[0.004, 0.001, -0.5], [-0.001, 0.004, -0.4], [lean * 1e-3, 1e-4, 1.0]]), (k1, k2), *SIZE)
    points = np.random.default_rng(2).uniform(0, 250, (50, 2))
    assert np.abs(view.to_plane(view.to_photo(points)) - points).max() < 1e-3


def filleted(radius: float) -> tuple[Array, Array]:
    """A square of 80 mm, one of its corners rounded off: (outline, the three that are left)."""
    angles = np.linspace(0, np.pi / 2, 60)
    arc = np.array([80 - radius, 80 - radius]) + radius * np.column_stack([np.cos(angles), np.sin(angles)])
    corners = np.array([(0, 0), (80, 0), (0, 80)], float)
    return dense(np.vstack([corners[:2], arc, corners[2:]]), 0.3), corners


@pytest.mark.parametrize("noise", [0.0, 0.02, 0.05])
@pytest.mark.parametrize("radius", [5.0, 12.0, 40.0])
def test_corners_are_found_and_round_ones_are_not(radius: float, noise: float) -> None:
    outline, corners = filleted(radius)
    shaken = outline + np.random.default_rng(3).normal(0, noise, outline.shape)
    found = corner_places(shaken)
    assert len(found) == 3
    apart = np.linalg.norm(found[:, None] - corners[None], axis=-1).min(axis=1)
    assert apart.max() < 0.1 + 3 * noise


def test_a_slight_corner_is_found_and_a_short_edge_too() -> None:
    outline = dense(np.array([(0, 0), (50, -9), (100, 0), (100, 60), (98, 62), (0, 62)], float), 0.3)
    found = corner_places(outline + np.random.default_rng(4).normal(0, 0.02, outline.shape))
    assert len(found) == 6
    assert np.abs(found - np.array([50, -9])).max(axis=1).min() < 0.3


@pytest.mark.parametrize("apart", [2.2, 3.0])
@pytest.mark.parametrize("slight", [28.0, 40.0])
def test_two_slight_corners_close_together_are_two(apart: float, slight: float) -> None:
    ways = np.radians([0, slight, 2 * slight])
    lengths = np.array([40.0, apart, 40.0])[:, None]
    bent = np.cumsum(lengths * np.column_stack([np.cos(ways), np.sin(ways)]), axis=0)
    outline = dense(np.vstack([(0, 0), bent, (-30, bent[-1][1])]), 0.3)
    found = corner_places(outline + np.random.default_rng(6).normal(0, 0.012, outline.shape))
    assert np.linalg.norm(found[:, None] - bent[None, :2], axis=-1).min(axis=0).max() < 0.4
    assert len(found) == 5


def test_a_speck_beside_an_edge_is_no_corner() -> None:
    outline = dense(np.array([(0, 0), (90, 0), (90, 60), (0, 60)], float), 0.3)
    low = outline[:, 1] == 0
    outline[low, 1] -= 0.15 * np.exp(-0.5 * ((outline[low, 0] - 40) / 0.7) ** 2)
    assert len(corner_places(outline + np.random.default_rng(8).normal(0, 0.02, outline.shape))) == 4


def test_a_smooth_line_explains_a_bend_and_not_a_corner() -> None:
    along = np.linspace(-4, 4, 41)
    bend = np.column_stack([along, 0.02 * along**2])
    corner = np.column_stack([along, 0.3 * np.abs(along)])
    weights = np.full(41, 1000.0)
    for points in (bend, corner):
        misfit, form = smooth_line(points, weights)[1], misfit_form(weights)
        assert misfit == pytest.approx(sum(float(axis @ form @ axis) for axis in (points - points[0]).T), rel=1e-3)
    assert smooth_line(bend, weights)[1] < 1
    assert smooth_line(corner, weights)[1] > 10
    assert np.abs(smooth_line(bend, weights)[0] - bend).max() < 0.01


def test_edges_close_and_stay_on_the_outline() -> None:
    outline, _ = filleted(12.0)
    edges = drawn_edges(outline, corner_places(outline))
    assert [len(edge.curve.cubics) for edge in edges][:1] == [1]
    for before, after in zip(edges, edges[1:] + edges[:1], strict=True):
        assert np.array_equal(before.curve.end, after.curve.start)
    assert sum(edge.curve.length for edge in edges) == pytest.approx(4 * 80 - 24 + 6 * np.pi, abs=0.3)


def test_a_round_piece_is_parted_in_two() -> None:
    angles = np.linspace(0, 2 * np.pi, 700, endpoint=False)
    circle = 40 * np.column_stack([np.cos(angles), np.sin(angles)])
    edges = drawn_edges(circle, corner_places(circle))
    assert len(edges) == 2
    assert sum(edge.curve.length for edge in edges) == pytest.approx(80 * np.pi, rel=1e-3)


def test_sheets_fit_their_paper() -> None:
    for paper in ("A4", "Letter"):
        sheet = reference_sheet(paper)
        assert (sheet.width, sheet.height) == (PAPERS[paper].width, PAPERS[paper].height)
