"""Waistbands: as long as the waist they are sewn to, with their overlap, wherever the skirt opens."""

import pytest
from skirt_garment import BAND, ZIP, length, skirt

from panelwright.errors import DesignError


def side_zip(hand: str) -> dict[str, object]:
    return {**ZIP, "uid": "side", "place": "side", "hand": hand}


@pytest.mark.parametrize("kind", ["circle-skirt", "gored-skirt"])
@pytest.mark.parametrize("opening", ["block", "back", "left", "right"])
@pytest.mark.parametrize(("width", "overlap", "folded"), [(3, 3, True), (4.5, 0, False)])
def test_a_band_is_the_waist_and_its_overlap(
    kind: str, opening: str, width: float, overlap: float, folded: bool
) -> None:
    steps = {"block": [], "back": [ZIP], "left": [side_zip("left")], "right": [side_zip("right")]}[opening]
    centre = "fold" if opening in ("left", "right") else "opening"
    band = {**BAND, "width_cm": width, "overlap_cm": overlap, "folded": folded}
    garment = skirt(kind, [*steps, band], centre_back=centre)
    pattern, piece = garment.pattern, garment.pattern.piece("band")
    xs, ys = piece.vertices.T
    assert xs.max() - xs.min() == pytest.approx(730 + 10 * overlap, abs=1e-3)
    assert ys.max() - ys.min() == pytest.approx(10 * width * (2 if folded else 1), abs=1e-9)
    seam = pattern.seam("band")
    assert sum(length(pattern.span_curve(span)) for span in seam.a) == pytest.approx(730, abs=1e-3)
    half = sum(piece.layer == "outer" and piece.id != "band" for piece in pattern.pieces)
    assert [span.hand for span in seam.a].count("mirror") == len(seam.a) / 2 == half
    errors = [finding.message for finding in garment.findings if finding.severity == "error"]
    assert errors == []
    (working,) = (working for working in pattern.workings if working.id == "band/length")
    assert working.length == pytest.approx(730 + 10 * overlap, abs=1e-3)


@pytest.mark.parametrize("opening", ["left", "right"])
def test_its_seam_goes_round_the_wearer_from_where_it_opens(opening: str) -> None:
    """Seen from outside from left to right: at a left side from the back on, at a right side from the front on."""
    pattern = skirt("gored-skirt", [side_zip(opening), BAND], centre_back="fold").pattern
    chain = [(span.piece, span.hand) for span in pattern.seam("band").a]
    right = [("SKB", "same"), ("SKS2", "same"), ("SKS1", "same"), ("SKF", "same")]
    left = [("SKF", "mirror"), ("SKS1", "mirror"), ("SKS2", "mirror"), ("SKB", "mirror")]
    ring = [*right, *left]
    start = 6 if opening == "left" else 2
    assert chain == ring[start:] + ring[:start]


def test_notches_of_the_band_meet_those_of_the_seams() -> None:
    """A notch at every place where two panels meet: 730 mm in six gores, the outermost two halves of one."""
    garment = skirt("gored-skirt", [ZIP, BAND])
    notches = [notch for notch in garment.cutting.notches if notch.seam == "band"]
    eighth = 730 / 12
    assert [notch.at_b for notch in notches] == pytest.approx([eighth * k for k in (1, 3, 5, 6, 7, 9, 11)], abs=1e-3)
    assert [notch.at_a for notch in notches] == pytest.approx([notch.at_b for notch in notches], abs=1e-3)


def test_a_ring_that_cannot_be_shut_is_refused() -> None:
    with pytest.raises(DesignError, match="opens nowhere at its waist"):
        skirt("circle-skirt", [BAND], centre_back="seam")


def test_two_bands_on_one_waist_are_refused() -> None:
    with pytest.raises(DesignError, match="sewn to something already"):
        skirt("circle-skirt", [BAND, {**BAND, "uid": "other"}])


def test_on_a_bodice_it_has_no_meaning() -> None:
    with pytest.raises(DesignError, match="goes to the waist of a skirt"):
        skirt("princess", [BAND])


@pytest.mark.parametrize(
    "step",
    [
        {
            "kind": "top-edge",
            "uid": "top",
            "shape": "straight",
            "centre": {"level": "waist"},
            "side": {"level": "waist"},
        },
        {"kind": "bodice-top", "uid": "top"},
        {"kind": "strap", "uid": "straps"},
        {"kind": "bones", "uid": "bones"},
    ],
)
def test_steps_of_a_bodice_have_none_on_a_skirt(step: dict[str, object]) -> None:
    with pytest.raises(DesignError, match=r"skirt.*; leave this step out, or start from a bodice"):
        skirt("gored-skirt", [step])
