"""Straight skirts: girths with the darts closed, legs alike, and the difference between hip and waist shared out."""

from contextlib import suppress
from math import asin, pi

import numpy as np
import pytest
from skirt_garment import BAND, ZIP, length, skirt

from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions, Ease
from panelwright.blocks.straight_skirt import Shaping
from panelwright.body.measurements import Measurements
from panelwright.checks import check_drafting
from panelwright.errors import BlockError
from panelwright.finish.finishing import finish
from panelwright.geometry.arrays import turn
from panelwright.pattern.pattern import Pattern


def mouths(pattern: Pattern, piece: str) -> list[float]:
    """Distances between the two ends of each dart."""
    found = []
    for seam in pattern.seams:
        if seam.kind == "dart" and seam.a[0].piece == piece:
            (down,), (up,) = seam.a, seam.b
            found.append(float(np.linalg.norm(pattern.edge(down).curve.start - pattern.edge(up).curve.end)))
    return found


def test_girths_are_the_wearers_with_their_ease_when_the_darts_are_sewn() -> None:
    pattern = skirt("straight-skirt").pattern
    waist = 2 * sum(length(edge.curve) for _, edge in pattern.pieces_on_line("waist-edge"))
    assert waist == pytest.approx(730, abs=1e-3)
    for level, girth in (("waist", 730), ("hip", 980)):
        drawn = sum(
            span.times * length(pattern.piece(span.piece).inside_line(span.inside).curve)
            for span in pattern.level(level).path
        )
        assert drawn == pytest.approx(girth, abs=1e-3)


def test_legs_are_alike_and_the_waist_runs_on_when_they_are_sewn() -> None:
    """Walked by hand: at the mouth the two angles add up to 180°, at centre and side the waist is square."""
    pattern = skirt("straight-skirt").pattern
    darts = [seam for seam in pattern.seams if seam.kind == "dart"]
    assert [seam.id for seam in darts] == ["front-waist-dart", "back-waist-outer-dart", "back-waist-dart"]
    for seam in darts:
        piece = pattern.piece(seam.a[0].piece)
        down, up = (pattern.edge(span) for span in (seam.a[0], seam.b[0]))
        assert length(down.curve) == pytest.approx(length(up.curve), abs=1e-9)
        before, after = piece.before(down), piece.after(up)
        turned = turn(before.curve.end_tangent, down.curve.start_tangent)
        turned += turn(up.curve.end_tangent, after.curve.start_tangent)
        assert turned == pytest.approx(pi, abs=1e-9)
        assert turn(before.curve.end_tangent, down.curve.start_tangent) == pytest.approx(pi / 2, abs=1e-9)
    for piece in pattern.pieces:
        waists = piece.on_line("waist-edge")
        for edge, beside in ((waists[0], piece.before(waists[0])), (waists[-1], piece.after(waists[-1]))):
            pair = (beside, edge) if beside is piece.before(waists[0]) and edge is waists[0] else (edge, beside)
            square = turn(pair[0].curve.end_tangent, pair[1].curve.start_tangent)
            assert square == pytest.approx(pi / 2, abs=1e-3)


def test_side_seam_and_darts_share_the_difference_by_common_practice() -> None:
    """A quarter: 245 - 182.5 = 62.5 mm; two fifths, 25, at the side; of 37.5 the front 27.5, the back 47.5 (CP)."""
    assert Shaping.of(62.5) == Shaping(25.0, 27.5, 47.5)
    pattern = skirt("straight-skirt").pattern
    assert len(mouths(pattern, "SKF")) == 1
    assert len(mouths(pattern, "SKB")) == 2
    for piece, taken in (("SKF", 27.5), ("SKB", 47.5)):
        sewn = sum(length(edge.curve) for edge in pattern.piece(piece).on_line("waist-edge"))
        assert sewn == pytest.approx(245 - 25 - taken, abs=1e-3)
        assert sum(mouths(pattern, piece)) == pytest.approx(taken, abs=3)  # cut square to a waist that is bent
    side = pattern.piece("SKF").on_line("side")[0].curve
    assert abs(side.end[0] - side.start[0]) == pytest.approx(25, abs=1e-6)


def test_a_difference_that_is_small_or_the_other_way_is_taken_at_the_side_alone() -> None:
    assert Shaping.of(4.0) == Shaping(4.0, 0.0, 0.0)
    assert Shaping.of(-20.0) == Shaping(-20.0, 0.0, 0.0)
    little = Shaping.of(12.0)
    assert (little.front, little.side + little.back / 2) == (0.0, pytest.approx(12.0))


def test_the_side_seams_are_one_line_turned_over() -> None:
    pattern = skirt("straight-skirt").pattern
    front, back = (pattern.piece(id).on_line("side")[0].line_curve for id in ("SKF", "SKB"))
    assert length(front) == pytest.approx(length(back), abs=1e-9)
    ahead, behind = (curve.cubics - curve.start for curve in (front, back))
    assert ahead * [-1, 1] == pytest.approx(behind, abs=1e-9)


def test_dart_lengths_are_their_share_of_the_hips_depth() -> None:
    """20 cm from waist to hip: 9 cm in front, 13.2 and 12 cm behind (CP, from memory)."""
    pattern = skirt("straight-skirt").pattern
    legs = {seam.id: length(pattern.edge(seam.a[0]).curve) for seam in pattern.seams if seam.kind == "dart"}
    assert legs == pytest.approx({"front-waist-dart": 90, "back-waist-dart": 132, "back-waist-outer-dart": 120})


def test_a_dart_is_a_cone_when_sewn() -> None:
    """Its point is the apex: an arc of any radius about it loses radius · angle, twice asin(mouth / 2 legs)."""
    pattern = skirt("straight-skirt").pattern
    seam = pattern.seam("front-waist-dart")
    down, up = pattern.edge(seam.a[0]).curve, pattern.edge(seam.b[0]).curve
    (mouth,) = mouths(pattern, "SKF")
    angle = abs(turn(-down.end_tangent, up.start_tangent))
    assert angle == pytest.approx(2 * asin(mouth / 2 / 90), abs=1e-9)


def test_a_band_goes_on_over_the_darts_and_a_zip_down_to_the_hip() -> None:
    garment = skirt("straight-skirt", [ZIP, BAND])
    assert [finding.message for finding in garment.findings if finding.severity != "advice"] == []
    seam = garment.pattern.seam("band")
    assert len(seam.a) == 2 * (2 + 3)
    assert sum(length(garment.pattern.span_curve(span)) for span in seam.a) == pytest.approx(730, abs=1e-3)


def test_a_hip_far_wider_than_the_waist_is_left_to_gores() -> None:
    with pytest.raises(BlockError, match="choose a gored skirt"):
        make_block(
            Measurements.of("w-9", {
                "bust_girth": 900, "underbust_girth": 750, "waist_girth": 560, "hip_girth": 1300,
                "back_neck_to_waist": 400,
            }),
            BlockOptions(type="straight-skirt"),
        )  # fmt: skip


@pytest.mark.parametrize("kind", ["circle-skirt", "gored-skirt", "straight-skirt"])
@pytest.mark.parametrize("more", [-40, 0, 30, 60, 120, 200, 300])
@pytest.mark.parametrize("waist", [560, 820, 1200])
def test_whoever_wears_it_it_is_drawn_by_the_rules(waist: float, more: float, kind: str) -> None:
    taken = {
        "bust_girth": waist + 160, "underbust_girth": waist + 30, "waist_girth": waist, "hip_girth": waist + more,
        "back_neck_to_waist": 400,
    }  # fmt: skip
    wearer, options = Measurements.of("w-1", taken), BlockOptions(type=kind, ease=Ease(waist=20, hip=40))
    if more > 200:
        with suppress(BlockError):
            make_block(wearer, options)
        return
    block = make_block(wearer, options)
    assert check_drafting(finish(block.pattern)) == ()
    assert block.pattern.level("waist").finished_girth == pytest.approx(waist + 20, abs=1e-3)
