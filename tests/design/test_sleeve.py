"""Sleeves: the cap measured against the armhole it goes into, notches that meet, a true underarm seam."""

import json
from dataclasses import replace
from functools import lru_cache
from math import pi
from typing import Any

import numpy as np
import pytest
from skirt_garment import BODY, length

from panelwright.app.design_file import read_design
from panelwright.app.garment import Garment, make_garment
from panelwright.body.measurements import Measurements
from panelwright.design.replay import replay
from panelwright.design.sleeve_cap import BACK, FRONT, half_cap, trued_width
from panelwright.errors import DesignError
from panelwright.geometry.arrays import turn

TOP = {"kind": "bodice-top", "uid": "top"}
HEM = {
    "kind": "hem", "uid": "hem", "shape": "straight", "centre": {"level": "top-hip"}, "side": {"level": "top-hip"},
}  # fmt: skip


ARM = {"arm_length": 540.0, "upper_arm_girth": 310.0, "wrist_girth": 172.0}


def sleeved(top: dict[str, Any] | None = None, block: dict[str, Any] | None = None, **sleeve: Any) -> Garment:
    return _made(_text(top or {}, block or {}, **sleeve))


def _text(top: dict[str, Any], block: dict[str, Any] | None = None, **sleeve: Any) -> str:
    steps = [{**TOP, **top}, HEM, {"kind": "sleeve", "uid": "arm", **sleeve}]
    head = {"format": "panelwright-design/1", "ref": "sleeve-01", "title": "Sleeve"}
    return json.dumps({**head, "block": block or {}, "steps": steps})


@lru_cache(maxsize=32)
def _made(text: str) -> Garment:
    return make_garment(Measurements.of("w-01", BODY), read_design(text))


@pytest.mark.parametrize("ease", [0, 2, 3.5])
@pytest.mark.parametrize("block", [{}, {"front_princess_to": "armhole", "back_princess_to": "armhole"}])
def test_the_cap_is_the_armhole_and_its_ease(ease: float, block: dict[str, str]) -> None:
    garment = sleeved(block=block, ease_cm=ease)
    pattern, cutting = garment.pattern, garment.cutting
    armhole = sum(length(edge.curve) for _, edge in pattern.pieces_on_line("top/armhole"))
    caps = [length(edge.curve) for edge in pattern.piece("arm").edges if "cap" in edge.line]
    assert sum(caps) == pytest.approx(armhole + 10 * ease, abs=1e-3)
    for half in ("front", "back"):
        seam = pattern.seam(f"arm/{half}-armhole")
        whole = sum(length(pattern.span_curve(span)) for span in seam.a)
        (cap,) = (length(pattern.span_curve(span)) for span in seam.b)
        assert cap - whole == pytest.approx(seam.ease, abs=1e-3)
        notches = [notch for notch in cutting.notches if notch.seam == seam.id]
        assert [notch.count for notch in notches] == [1 if half == "front" else 2]
        assert notches[0].at_b / cap == pytest.approx(notches[0].at_a / whole, abs=1e-4)  # ease evenly on both sides
    assert [finding.message for finding in garment.findings if finding.severity == "error"] == []


def test_the_cap_is_a_third_of_the_armhole_high_unless_told_otherwise() -> None:
    pattern = sleeved().pattern
    armhole = sum(length(edge.curve) for _, edge in pattern.pieces_on_line("top/armhole"))
    assert pattern.piece("arm").vertices[:, 1].max() == pytest.approx(armhole / 3, abs=1e-3)
    assert sleeved(cap_height_cm=9).pattern.piece("arm").vertices[:, 1].max() == pytest.approx(90)


def test_front_lies_to_front_and_the_seams_start_at_one_end() -> None:
    """Outer face up, the wearer's right arm: its front is on the right, as the front pieces' fold is."""
    pattern = sleeved().pattern
    front, back = pattern.seam("arm/front-armhole"), pattern.seam("arm/back-armhole")
    assert [span.piece for span in front.a] == ["SF"]
    assert [span.piece for span in back.a] == ["SB"]
    shoulder, underarm = pattern.span_curve(front.b[0]).start, pattern.span_curve(front.b[0]).end
    assert underarm[0] > shoulder[0]
    assert shoulder[1] > underarm[1] == pytest.approx(0, abs=1e-9)
    armhole = pattern.edge(front.a[0])
    assert pattern.piece("SF").before(armhole).line.endswith("shoulder")
    assert pattern.piece("SB").before(pattern.edge(back.a[0])).line == "side"


def test_the_underarm_seam_is_square_to_cap_and_wrist_and_alike_on_both_sides() -> None:
    piece = sleeved(length_cm=56, wrist_cm=21).pattern.piece("arm")
    right, left = piece.on_line("arm/underarm-side")
    assert length(right.curve) == pytest.approx(length(left.curve), abs=1e-6)
    for edge, after in zip(piece.edges, piece.edges[1:] + piece.edges[:1], strict=True):
        if {edge.line, after.line} != {"arm/cap-front", "arm/cap-back"}:
            assert turn(edge.curve.end_tangent, after.curve.start_tangent) == pytest.approx(pi / 2, abs=1e-6)
    (wrist,) = piece.on_line("arm/wrist")
    assert length(wrist.curve) == pytest.approx(210, abs=1e-4)
    crown = piece.edge("arm.arm/cap-back").curve.start
    middle = wrist.curve.point(wrist.curve.length / 2)
    assert crown[1] - middle[1] == pytest.approx(560, abs=1e-6)


def test_a_cap_is_smooth_over_the_crown_and_hollower_in_front() -> None:
    front, back = half_cap(130, 160, 0.1, FRONT), half_cap(130, 160, 0.1, BACK)
    assert front.start_tangent == pytest.approx([1, 0])
    below = [np.interp(110, *curve.polyline().T[:2]) for curve in (front, back)]
    assert below[0] < below[1]
    width = trued_width(130, 230, 0.1, FRONT)
    assert length(half_cap(130, width, 0.1, FRONT)) == pytest.approx(230, abs=1e-4)


def test_an_arm_that_is_too_thick_for_it_is_told_with_the_ease_that_is_left() -> None:
    garment = sleeved(upper_arm_cm=28)
    (found,) = (finding for finding in garment.findings if finding.code == "sleeve-tight")
    xs = garment.pattern.piece("arm").vertices[:, 0]
    assert found.value == pytest.approx(np.ptp(xs) - 280, abs=1e-6)
    roomy = sleeved(top={"armhole_lower_cm": 4}, upper_arm_cm=22, cap_height_cm=9)
    assert "sleeve-tight" not in {finding.code for finding in roomy.findings}


def worn(taken: dict[str, float], **sleeve: Any) -> Garment:
    """One design on a wearer of whom more or less of the arm was measured."""
    steps = [{**TOP, "armhole_lower_cm": 3}, HEM, {"kind": "sleeve", "uid": "arm", **sleeve}]
    text = json.dumps({"format": "panelwright-design/1", "ref": "sleeve-01", "title": "Sleeve", "steps": steps})
    return make_garment(Measurements.of("w-01", BODY | taken), read_design(text))


def long_and_wide(garment: Garment) -> tuple[float, float]:
    """From the crown to the middle of the edge, and along the edge, mm."""
    piece = garment.pattern.piece("arm")
    (wrist,) = piece.on_line("arm/wrist")
    crown = piece.edge("arm.arm/cap-back").curve.start
    return float(crown[1] - wrist.curve.point(wrist.curve.length / 2)[1]), length(wrist.curve)


def test_a_sleeve_of_no_measures_of_its_own_is_its_wearers() -> None:
    """From memory: a hand passes 6 cm more than the wrist."""
    long, wide = long_and_wide(worn(ARM))
    assert long == pytest.approx(540.0, abs=1e-6)
    assert wide == pytest.approx(172.0 + 60.0, abs=1e-4)
    (working,) = (each for each in worn(ARM).pattern.workings if each.id == "arm/width")
    assert working.parts[0].length == 310.0
    given = worn(ARM, length_cm=50, wrist_cm=26, upper_arm_cm=28)
    assert long_and_wide(given) == pytest.approx((500.0, 260.0), abs=1e-4)


def test_two_wearers_of_one_torso_have_sleeves_of_their_own() -> None:
    """What a replay remembers of one must not go to the other."""
    both = [long_and_wide(worn({**ARM, "arm_length": arm}))[0] for arm in (540.0, 600.0)]
    assert both == pytest.approx([540.0, 600.0], abs=1e-6)


def test_what_was_not_measured_of_the_arm_is_told_where_there_is_a_sleeve() -> None:
    arm = set(ARM)
    assert set(worn({}).pattern.estimated) & arm == arm
    assert set(worn({"wrist_girth": 172.0}, length_cm=56).pattern.estimated) & arm == {"upper_arm_girth"}
    assert set(worn(ARM).pattern.estimated) & arm == set()
    bare = sleeved().block.pattern
    assert set(bare.estimated) & arm == set()
    (found,) = (finding for finding in worn({}).findings if finding.code == "estimated")
    assert "arm length, upper arm girth, wrist girth" in found.message


def test_a_block_that_is_nobodys_has_a_usual_arm() -> None:
    """From memory: 58 cm long, .32 of the bust round, the wrist .18 of it."""
    garment = sleeved(top={"armhole_lower_cm": 3})
    block = replace(garment.block.pattern, arm=None)
    made = replay(read_design(_text({"armhole_lower_cm": 3})).design, block).pattern
    piece = made.piece("arm")
    (wrist,) = piece.on_line("arm/wrist")
    assert length(wrist.curve) == pytest.approx(0.18 * block.level("bust").body_girth + 60, abs=1e-3)


def test_without_an_armhole_it_is_refused() -> None:
    text = {"format": "panelwright-design/1", "ref": "a-1", "title": "A", "steps": [{"kind": "sleeve", "uid": "arm"}]}
    with pytest.raises(DesignError, match="no armhole to set it in"):
        _made(json.dumps(text))


@pytest.mark.parametrize(("wrong", "words"), [
    ({"length_cm": 11}, "ends at its cap"), ({"cap_height_cm": 24}, "too high for this armhole"),
])  # fmt: skip
def test_a_sleeve_that_cannot_be_says_why(wrong: dict[str, float], words: str) -> None:
    with pytest.raises(DesignError, match=words):
        sleeved(**wrong)


def test_two_sleeves_in_one_armhole_are_refused() -> None:
    steps = [TOP, HEM, {"kind": "sleeve", "uid": "arm"}, {"kind": "sleeve", "uid": "other"}]
    head = {"format": "panelwright-design/1", "ref": "sleeve-01", "title": "Sleeve"}
    with pytest.raises(DesignError, match="sewn to the armhole already"):
        _made(json.dumps({**head, "steps": steps}))
