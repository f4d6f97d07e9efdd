"""Findings about sewing it: bagging out, narrow straps, turned hems. Real garments, judged on both sides of a limit."""

from dataclasses import replace

import numpy as np
import pytest
from worn_garment import HEM, HIGH, STRAPS, TOP, Record, block, closure, garment

from panelwright.checks import Wearing, check, check_drafting
from panelwright.checks.curved_hem import check_curved_hem
from panelwright.checks.narrow_strap import check_narrow_straps
from panelwright.checks.strap_end import check_strap_ends
from panelwright.checks.turning_through import check_turning_through
from panelwright.checks.wearer_support import check_support
from panelwright.design.replay import Design, replay
from panelwright.design.step_file import steps_from_json
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.finish.finishing import finish
from panelwright.finish.options import Cloths, Finish
from panelwright.geometry.curve import Curve
from panelwright.pattern.pattern import Pattern

SEWN_BACK = closure("centre-back", "seam")
ZIPPED_BACK = closure("centre-back", "zip")
SIDE_ZIP = closure("side", "zip", down_to={"level": "hip"})
TWO_CLOTHS = Finish(facing="full")
ONE_CLOTH = Finish(facing="full", cloths=Cloths(facing="outer"))


def codes(cutting: CuttingPattern) -> set[str]:
    return {finding.code for finding in check(cutting)}


@pytest.mark.parametrize("faced", [TWO_CLOTHS, ONE_CLOTH])
@pytest.mark.parametrize(
    ("tops", "closures", "answer"),
    [
        ([TOP, STRAPS], [SEWN_BACK, SIDE_ZIP], True),
        ([HIGH], [SEWN_BACK, SIDE_ZIP], True),
        ([TOP, STRAPS], [ZIPPED_BACK], False),
        ([TOP, STRAPS], [SEWN_BACK, closure("centre-front", "hooks")], False),
        ([TOP, STRAPS], [], False),
        ([TOP], [SEWN_BACK, SIDE_ZIP], False),
        ([TOP, STRAPS], [closure("centre-back", "zip", opening_cm=12)], True),
    ],
)
def test_closed_at_the_shoulders_and_the_centres_it_cannot_be_turned(
    tops: list[Record], closures: list[Record], answer: bool, faced: Finish
) -> None:
    """CP: a strap joined at the shoulder and closed all round; leave shoulder or centre back open."""
    pattern = garment(tops, closures)
    assert ("cannot-be-bagged-out" in codes(finish(pattern, faced))) == answer
    assert check_turning_through(finish(pattern)) == ()


OWN_WIDTHS = {"strap-neckline": 10.0, "strap-armhole": 10.0}


@pytest.mark.parametrize(("width_cm", "answer"), [(1.6, True), (2.1, True), (2.3, False), (3.0, False)])
def test_two_allowances_do_not_lie_in_a_narrow_strap(width_cm: float, answer: bool) -> None:
    """G: 10 + 10 mm and 2 mm of turn against the strap's width. One finding a strap, though it lies on four panels."""
    cutting = finish(garment([TOP, {**STRAPS, "width_cm": width_cm}]), replace(TWO_CLOTHS, lines=OWN_WIDTHS))
    found = check_narrow_straps(cutting, Wearing())
    assert [finding.code for finding in found] == ["narrow-strap"] * answer
    for finding in found:
        assert finding.value == pytest.approx(20.0)
        assert finding.limit == pytest.approx(10 * width_cm - 2, abs=0.1)
        assert "strap-neckline" in finding.remedy
        assert "strap-armhole" in finding.remedy


def test_a_narrow_strap_with_6_mm_of_allowance_is_right() -> None:
    """CP: trimmed to about 6 mm, as it is where nothing else is asked for."""
    pattern = garment([TOP, {**STRAPS, "width_cm": 1.6}])
    trimmed = {"strap-neckline": 6.0, "strap-armhole": 6.0}
    assert "narrow-strap" in codes(finish(pattern, replace(TWO_CLOTHS, lines=OWN_WIDTHS)))
    assert "narrow-strap" not in codes(finish(pattern, replace(TWO_CLOTHS, lines=trimmed)))
    assert "narrow-strap" not in codes(finish(pattern, TWO_CLOTHS))


def test_the_two_edges_of_a_strap_are_added_up() -> None:
    """G: 10 + 4 mm and 2 mm of turn lie in 16 mm."""
    pattern = garment([TOP, {**STRAPS, "width_cm": 1.6}])
    for armhole, answer in ((4.0, False), (4.3, True)):
        cutting = finish(pattern, Finish(lines={"strap-neckline": 10.0, "strap-armhole": armhole}))
        assert ("narrow-strap" in codes(cutting)) == answer


@pytest.mark.parametrize(("width_cm", "answer"), [(1.6, True), (2.4, False)])
def test_a_separate_strap_is_judged_across(width_cm: float, answer: bool) -> None:
    pattern = garment([TOP, {**STRAPS, "type": "separate", "width_cm": width_cm}])
    cutting = finish(pattern, Finish(lines={"strap-edge": 10.0}))
    assert ("narrow-strap" in codes(cutting)) == answer


def with_corner_moved(pattern: Pattern, along: float, down: float) -> tuple[CuttingPattern, float]:
    """The outer end of the front strap's squared end moved on along the shoulder and down the strap, mm; its width."""
    (piece,) = [own for own in pattern.pieces if own.id in ("CF", "SF") and own.on_line("straps/strap-armhole")]
    (shoulder,) = piece.on_line("straps/shoulder")
    (armhole,) = piece.on_line("straps/strap-armhole")
    first = piece.after(shoulder) == armhole
    outer, inner = (shoulder.curve.end, shoulder.curve.start) if first else (shoulder.curve.start, shoulder.curve.end)
    across = (outer - inner) / np.linalg.norm(outer - inner)
    points = np.array(armhole.curve.points)
    ends = [0, 1] if first else [-1, -2]
    away = points[ends[1]] - points[ends[0]]
    at = outer + along * across + down * away / np.linalg.norm(away)
    points[ends] += at - outer
    line = Curve.straight(inner, at) if first else Curve.straight(at, inner)
    changed = {shoulder.id: line, armhole.id: Curve.from_points(points)}
    edges = tuple(replace(edge, curve=changed.get(edge.id, edge.curve)) for edge in piece.edges)
    return finish(pattern.with_pieces(replace(piece, edges=edges))), shoulder.curve.length


@pytest.mark.parametrize(("along", "answer"), [(-0.8, False), (0.8, False), (1.3, True), (-1.3, True)])
def test_a_strap_is_as_wide_in_front_as_behind(along: float, answer: bool) -> None:
    """CP: the same at the shoulder, within 1 mm."""
    cutting, _ = with_corner_moved(garment([TOP, STRAPS]), along, 0.0)
    found = [finding for finding in check_strap_ends(cutting, Wearing()) if finding.code == "strap-width"]
    assert bool(found) == answer
    for finding in found:
        assert (finding.severity, finding.limit) == ("warning", 1.0)
        assert finding.value == pytest.approx(abs(along), abs=0.02)


@pytest.mark.parametrize(("degrees", "answer"), [(0.7, False), (-0.7, False), (1.3, True), (-1.3, True)])
def test_a_straps_end_is_squared(degrees: float, answer: bool) -> None:
    """CP: 90 ± 1 degrees. G: an end that slants by an angle lies width · tan of it farther down at one side."""
    pattern = garment([TOP, STRAPS])
    assert check_strap_ends(finish(pattern), Wearing()) == ()
    part = with_corner_moved(pattern, 0.0, 0.0)[1]
    cutting, _ = with_corner_moved(pattern, 0.0, part * np.tan(np.radians(degrees)))
    found = [finding for finding in check_strap_ends(cutting, Wearing()) if finding.code == "strap-end"]
    assert bool(found) == answer
    for finding in found:
        assert finding.severity == "warning"
        assert finding.value == pytest.approx(abs(degrees), abs=0.05)


@pytest.mark.parametrize("step", [STRAPS, {**STRAPS, "type": "separate"}, {**STRAPS, "type": "halter"}, None])
def test_straps_hold_it_up(step: Record | None) -> None:
    pattern = garment([TOP, step] if step else [TOP])
    found = {finding.code for finding in check_support(pattern, Wearing())}
    assert found == (set() if step else {"unboned-strapless"})


def test_bones_hold_it_up() -> None:
    boned = garment([TOP, {"kind": "bones", "uid": "stays"}])
    assert check_support(boned, Wearing()) == ()


def hemmed(shape: Record) -> CuttingPattern:
    made = replay(Design("hem", "Hem", steps_from_json([TOP, {**HEM, **shape}])), block().pattern)
    assert made.complete, made.outcomes
    return finish(made.pattern, Finish(lines={"hem": 30.0}))


SHAPED: Record = {"shape": "shaped", "centre": {"level": "waist", "offset_cm": -9}, "side": {"level": "waist"}}
LEVEL: Record = {"shape": "straight", "centre": {"level": "hip"}, "side": {"level": "hip"}}


def test_a_shaped_hem_cannot_be_turned_up() -> None:
    """CP: it takes a facing or binding. G: turned, the allowance is off by allowance times the angle it turns by."""
    cutting = hemmed(SHAPED)
    (finding,) = check_curved_hem(cutting, Wearing())
    assert (finding.code, finding.severity) == ("curved-hem-turned", "advice")
    hem = next(edge for piece in cutting.pattern.pieces for edge in piece.edges if edge.id == finding.subject)
    points = hem.curve.points.reshape(-1, 2)
    ways = np.diff(points[np.r_[True, np.linalg.norm(np.diff(points, axis=0), axis=1) > 1e-9]], axis=0)
    most = np.ptp(np.unwrap(np.arctan2(ways[:, 1], ways[:, 0])))  # a cubic turns no more than its own handles
    assert finding.value == pytest.approx(30.0 * most, rel=0.15)
    assert check_curved_hem(finish(cutting.pattern, Finish(facing="full")), Wearing()) == ()
    assert check_curved_hem(finish(cutting.pattern, Finish(lines={"hem": 6.0})), Wearing()) == ()


@pytest.mark.parametrize("step", [STRAPS, {**STRAPS, "type": "separate"}, {**STRAPS, "type": "halter"}])
@pytest.mark.parametrize("closures", [[], [ZIPPED_BACK], [SEWN_BACK, SIDE_ZIP]])
def test_a_garment_with_straps_has_no_drafting_finding(step: Record, closures: list[Record]) -> None:
    assert check_drafting(finish(garment([TOP, step], closures), TWO_CLOTHS)) == ()


@pytest.mark.parametrize("closures", [[], [ZIPPED_BACK], [closure("centre-front", "buttons"), SEWN_BACK]])
def test_a_bodice_to_the_shoulder_has_no_drafting_finding(closures: list[Record]) -> None:
    assert check_drafting(finish(garment([HIGH], closures), TWO_CLOTHS)) == ()
