"""Circle skirts against the closed form: waist radius = waist / 2π, and so on for parts of a circle."""

from math import asin, degrees, pi

import numpy as np
import pytest
from skirt_garment import BODY, chord_radius, length, skirt

from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions
from panelwright.body.measurements import Measurements
from panelwright.errors import BlockError, InputError
from panelwright.fitting.fitted_block import fitted
from panelwright.fitting.fitting import Fitting
from panelwright.fitting.seam_note import SeamNote
from panelwright.pattern.pattern import Pattern

SHARES = {"full": 1.0, "three-quarter": 0.75, "half": 0.5, "quarter": 0.25}


def waist_edges(pattern: Pattern) -> list[float]:
    return [length(edge.curve) for _, edge in pattern.pieces_on_line("waist-edge")]


@pytest.mark.parametrize(("circle", "share"), SHARES.items())
def test_radii_are_those_of_the_handbook(circle: str, share: float) -> None:
    """The waist of 72 cm with 1 cm of ease; by hand 730 / 2π = 116.18 mm for a full circle."""
    pattern = skirt("circle-skirt", skirt={"circle": circle, "length_cm": 60}).pattern
    radius = 730 / (2 * pi * share)
    for line, expected in (("waist-edge", radius), ("skirt-hem", radius + 600)):
        for _, edge in pattern.pieces_on_line(line):
            assert chord_radius(edge.curve) == pytest.approx(expected, abs=1e-5)
            knots = np.linalg.norm(edge.curve.polyline() - _centre(edge.curve.polyline()), axis=1)
            assert np.ptp(knots) < 1e-3  # round all along, not at three places alone
    assert 2 * sum(waist_edges(pattern)) == pytest.approx(730, abs=1e-3)
    hem = 2 * sum(length(edge.curve) for _, edge in pattern.pieces_on_line("skirt-hem"))
    assert hem == pytest.approx(730 + 2 * pi * share * 600, abs=1e-2)


def _centre(points: np.ndarray) -> np.ndarray:
    """Of the circle that fits points best, by linear least squares on x² + y² = 2ax + 2by + c."""
    system = np.column_stack([2 * points, np.ones(len(points))])
    solved = np.linalg.lstsq(system, (points**2).sum(axis=1), rcond=None)[0]
    return np.asarray(solved[:2])


def test_a_full_circle_of_72_has_the_handbooks_radius() -> None:
    """check value: waist / 2π (closed form); 72 cm without ease → 11.46 cm."""
    pattern = skirt("circle-skirt", ease_cm={"waist": 0}, skirt={"circle": "full", "length_cm": 60}).pattern
    (edge, *_) = (edge for _, edge in pattern.pieces_on_line("waist-edge"))
    assert chord_radius(edge.curve) == pytest.approx(114.59, abs=0.005)


@pytest.mark.parametrize(("circle", "panels"), [("full", 2), ("half", 3), ("quarter", 1), ("half", 1)])
def test_panels_are_equal_sectors(circle: str, panels: int) -> None:
    pattern = skirt("circle-skirt", skirt={"circle": circle, "panels": panels}).pattern
    assert len(pattern.pieces) == panels
    radius = 730 / (2 * pi * SHARES[circle])
    for width in waist_edges(pattern):
        assert width == pytest.approx(730 / 2 / panels, abs=1e-3)
    angle = degrees(730 / 2 / panels / radius)
    assert angle == pytest.approx(180 * SHARES[circle] / panels)
    for piece in pattern.pieces:
        (hem,) = piece.on_line("skirt-hem")
        if angle < 180:
            chord = float(np.linalg.norm(hem.curve.chord))
            assert degrees(2 * asin(chord / 2 / (radius + 600))) == pytest.approx(angle, abs=1e-4)


@pytest.mark.parametrize(("cloth_cm", "panels"), [(140, 2), (115, 2), (110, 3), (55, 6)])
def test_it_is_cut_in_as_few_panels_as_the_cloth_takes(cloth_cm: float, panels: int) -> None:
    """A half circle, 60 cm long: R = 832.4 mm. Opened on the fold, the front is 2 R sin(90° / panels) wide: 1177 mm
    in two, 832 in three, 637 in four, 515 in five, 431 in six; 4 cm of the cloth are left beside it."""
    options = {"circle": "half", "length_cm": 60, "cloth_width_cm": cloth_cm}
    if cloth_cm == 115:
        options["length_cm"] = 50  # R = 732.4: 1036 mm in two
    assert len(skirt("circle-skirt", skirt=options).pattern.pieces) == panels


def test_cloth_that_is_too_narrow_is_refused_with_the_width_it_takes() -> None:
    with pytest.raises(BlockError, match=r"fits on cloth 50\.0 cm wide; it needs 8\d\.\d cm"):
        skirt("circle-skirt", skirt={"circle": "full", "length_cm": 100, "cloth_width_cm": 50})


def test_one_panel_cannot_lie_on_two_folds() -> None:
    with pytest.raises(BlockError, match="cannot lie on two folds"):
        skirt("circle-skirt", centre_back="fold", skirt={"circle": "quarter", "panels": 1})


def test_levels_run_as_far_down_as_on_the_body() -> None:
    garment = skirt("circle-skirt", skirt={"circle": "full"})
    hip = garment.pattern.level("hip")
    assert hip.height == -garment.wearer["waist_to_hip"]
    assert hip.finished_girth == pytest.approx(730 + 2 * pi * garment.wearer["waist_to_hip"], abs=1e-3)


def test_a_quarter_circle_that_catches_on_the_hips_says_so() -> None:
    """Drawn at the hip: 730 + π/2 · 200 = 1044 mm; 96 cm of hip with 12 cm of ease want 1080."""
    garment = skirt("circle-skirt", ease_cm={"hip": 12}, skirt={"circle": "quarter"})
    (found,) = (finding for finding in garment.findings if finding.code == "skirt-tight-over-hip")
    assert (found.subject, found.severity) == ("hip", "warning")
    assert found.value == pytest.approx(730 + pi / 2 * 200, abs=1e-3)
    assert found.limit == pytest.approx(1080)
    assert "skirt-tight-over-hip" not in {f.code for f in skirt("circle-skirt", skirt={"circle": "full"}).findings}


@pytest.mark.parametrize("name", ["panels", "keep", "top", "front_princess_to", "bust_point_offset_cm"])
def test_what_belongs_to_a_bodice_is_refused(name: str) -> None:
    other = {"panels": 6, "keep": "girth", "top": "shoulder", "front_princess_to": "armhole", "bust_point_offset_cm": 1}
    with pytest.raises(InputError, match="the block is a skirt"):
        skirt("circle-skirt", **{name: other[name]})


def test_what_belongs_to_a_skirt_is_refused_on_a_bodice() -> None:
    with pytest.raises(InputError, match="the block is a bodice, for which skirt changes nothing"):
        skirt("princess", skirt={"circle": "full"})


def test_fitting_notes_of_a_bodice_change_nothing_on_a_skirt_and_that_is_told() -> None:
    block = make_block(Measurements.of("w-01", BODY), BlockOptions(type="circle-skirt"))
    noted = fitted(block, Fitting("w-01", (SeamNote("n", "let-out", "side", "waist", 6.0),)))
    assert noted.pattern == block.pattern
    (found,) = noted.findings
    assert (found.code, found.severity, found.value) == ("fitting-not-taken", "advice", 1)
