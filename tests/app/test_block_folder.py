"""The bare block: its ends are levels, which nobody has to draw square or smooth."""

import math
from pathlib import Path

import pytest
from verifier import violations

from panelwright.app.block_folder import BareBlock, make_bare_block
from panelwright.blocks.options import BlockOptions, CentreBackEdge
from panelwright.body.measurement_file import read_measurements
from panelwright.body.measurements import Measurements
from panelwright.checks import check
from panelwright.output.pattern_file import pattern_to_json

# An invented dancer whose hollow back turns the upper end of her centre back panel by more than a degree.
FULL = """{"format": "panelwright-measurements/1", "ref": "w-21", "unit": "cm", "measurements": {
    "bust_girth": 104, "underbust_girth": 84.5, "waist_girth": 82, "hip_girth": 110, "back_neck_to_waist": 41,
    "upper_bust_girth": 93, "bust_point_to_underbust": 8.5, "bust_point_span": 20.5, "underarm_to_waist": 20}}"""
# Rule 6 of docs/pattern-file.md: a finished edge meets a closed or edge-to-edge centre at 90 +- 1 degrees.
MOST_OFF = 1.0


@pytest.fixture(scope="module")
def wearer() -> Measurements:
    return read_measurements(FULL)


def centre_angle(bare: BareBlock) -> float:
    """Between the upper end and the centre back of the CB panel, degrees."""
    piece = bare.cutting.pattern.piece("CB")
    corner = next(e for e in piece.edges if {e.line, piece.after(e).line} == {"top", "centre-back"})
    return math.degrees(piece.inner_angle(corner))


@pytest.mark.parametrize("centre_back", ["opening", "seam"])
def test_a_level_may_meet_the_centre_at_any_angle(wearer: Measurements, centre_back: CentreBackEdge) -> None:
    bare = make_bare_block(wearer, BlockOptions(centre_back=centre_back))
    assert abs(centre_angle(bare) - 90) > MOST_OFF, "otherwise this wearer proves nothing"
    assert [finding for finding in bare.findings if finding.severity == "error"] == []
    # A block read from its file is judged like a garment: closed all round it still cannot be put on.
    found = {finding.code for finding in check(bare.cutting) if finding.severity == "error"}
    assert found == ({"cannot-be-put-on"} if centre_back == "seam" else set())


def test_the_outside_verifier_agrees(wearer: Measurements, shared: Path) -> None:
    bare = make_bare_block(wearer, BlockOptions())
    assert violations(shared, pattern_to_json(bare.cutting)) == []


@pytest.mark.parametrize("panels", [3, 4, 5, 6])
def test_only_the_ends_at_the_centres_are_let_off(wearer: Measurements, panels: int) -> None:
    """Four corners: top and hem at the centre front and at the centre back."""
    pattern = make_bare_block(wearer, BlockOptions(panels=panels)).cutting.pattern
    let_off = [
        (piece.id, *sorted((edge.line, piece.after(edge).line)))
        for piece in pattern.pieces
        for edge in piece.edges
        if edge.pointed_end
    ]
    assert sorted(let_off) == [
        ("CB", "centre-back", "hem"),
        ("CB", "centre-back", "top"),
        ("CF", "centre-front", "hem"),
        ("CF", "centre-front", "top"),
    ]
