"""Gored skirts: girths, equal gores, right angles at every seam, and a cone below the hip."""

import numpy as np
import pytest
from skirt_garment import length, skirt

from panelwright.errors import BlockError
from panelwright.geometry.arrays import turn

COUNTS = (4, 6, 8, 10, 12)


@pytest.mark.parametrize("gores", COUNTS)
def test_girths_are_the_wearers_with_their_ease(gores: int) -> None:
    garment = skirt("gored-skirt", skirt={"gores": gores})
    wearer, pattern = garment.wearer, garment.pattern
    for level, body, ease in (("waist", "waist_girth", 10), ("top-hip", "top_hip_girth", 20), ("hip", "hip_girth", 20)):
        drawn = sum(
            span.times * length(pattern.piece(span.piece).inside_line(span.inside).curve)
            for span in pattern.level(level).path
        )
        assert drawn == pytest.approx(wearer[body] + ease, abs=1e-2)


@pytest.mark.parametrize("gores", COUNTS)
def test_gores_are_equal_and_their_seams_too(gores: int) -> None:
    """Half gores at the centres: n gores are n - 1 whole pieces and halves, counted on the body."""
    pattern = skirt("gored-skirt", skirt={"gores": gores, "flare_cm": 4}).pattern
    assert len(pattern.pieces) == gores // 2 + 1
    widths = {piece.id: length(piece.on_line("skirt-hem")[0].curve) for piece in pattern.pieces}
    whole = 980 / gores + 80
    assert widths.pop("SKF") == pytest.approx(whole / 2, abs=1e-3)
    assert widths.pop("SKB") == pytest.approx(whole / 2, abs=1e-3)
    assert all(width == pytest.approx(whole, abs=1e-3) for width in widths.values())
    seams = [seam for seam in pattern.seams if seam.kind == "join"]
    assert len(seams) == gores // 2
    lengths = [length(pattern.span_curve(span)) for seam in seams for span in (*seam.a, *seam.b)]
    assert np.ptp(lengths) < 1e-6
    assert ("side" in {seam.id for seam in seams}) == (gores % 4 == 2)


@pytest.mark.parametrize("flare", [0, 5, 15])
def test_hem_and_waist_meet_every_seam_at_a_right_angle(flare: float) -> None:
    pattern = skirt("gored-skirt", skirt={"flare_cm": flare}).pattern
    for piece in pattern.pieces:
        for edge, after in zip(piece.edges, piece.edges[1:] + piece.edges[:1], strict=True):
            assert turn(edge.curve.end_tangent, after.curve.start_tangent) == pytest.approx(np.pi / 2, abs=1e-6)


def test_below_the_hip_a_gore_is_a_sector_of_a_cone() -> None:
    """Rolled up it is the frustum whose girths are its arcs: their difference over the slant length is its angle."""
    pattern = skirt("gored-skirt", skirt={"gores": 8, "flare_cm": 6, "length_cm": 70}).pattern
    piece = pattern.piece("SKS1")
    hip, hem = piece.inside_line("hip").curve, piece.on_line("skirt-hem")[0].curve
    slant = 700 - 200
    angle = (length(hem) - length(hip)) / slant
    assert turn(hem.start_tangent, hem.end_tangent) == pytest.approx(angle, abs=1e-6)
    apart = [float(np.linalg.norm(hem.point(s * hem.length) - hip.point(s * hip.length))) for s in (0, 0.3, 0.5, 1)]
    assert apart == pytest.approx([slant] * 4, abs=1e-3)


def test_a_skirt_that_ends_at_the_hip_is_refused() -> None:
    with pytest.raises(BlockError, match=r"ends less than 5\.0 cm below the hip"):
        skirt("gored-skirt", skirt={"length_cm": 22})


def test_too_few_gores_for_much_flare_are_refused() -> None:
    with pytest.raises(BlockError, match="choose more gores or less flare"):
        skirt("gored-skirt", skirt={"gores": 4, "flare_cm": 30, "length_cm": 40})
