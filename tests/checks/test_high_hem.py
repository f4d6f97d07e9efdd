"""A hem above the underbust. Limits: the underbust itself (CP, within a tape's 5 mm), and 80 mm of cloth (own)."""

import pytest
from worn_garment import HIGH, TOP, Record, block

from panelwright.checks import Wearing, check_wearing
from panelwright.checks.high_hem import check_high_hem
from panelwright.design.replay import Design, replay
from panelwright.design.step_file import steps_from_json
from panelwright.finding import Finding
from panelwright.finish.finishing import finish
from panelwright.pattern.line import CENTRE_FRONT
from panelwright.pattern.pattern import Pattern

WOVEN = Wearing()
V = {**HIGH, "shape": "v", "front_depth_cm": 12, "back_depth_cm": 3, "width_cm": 3}


def ending(top: Record, centre_cm: float, side_cm: float | None = None) -> Pattern:
    """Under this top, a hem so far above the underbust; with a side of its own, shaped."""
    side = centre_cm if side_cm is None else side_cm
    hem = {"kind": "hem", "uid": "hem", "shape": "straight" if side == centre_cm else "shaped"}
    heights = {"centre": at(centre_cm), "side": at(side)}
    made = replay(Design("crop", "Cropped", steps_from_json([top, {**hem, **heights}])), block().pattern)
    assert made.complete, made.outcomes
    return made.pattern


def at(offset_cm: float) -> Record:
    return {"level": "underbust", "offset_cm": offset_cm}


def judged(pattern: Pattern) -> tuple[Finding, ...]:
    return check_high_hem(pattern, block().pattern, WOVEN)


def front_length(pattern: Pattern) -> float:
    ((_, edge),) = pattern.pieces_on_line(CENTRE_FRONT)
    return edge.curve.length


@pytest.mark.parametrize("offset", [-20.0, -4.0, 0.0, 0.4])
def test_a_cropped_bodice_down_to_the_underbust_is_silent(offset: float) -> None:
    for top in (TOP, V):
        assert judged(ending(top, offset)) == ()


def test_above_the_underbust_is_a_warning_with_the_height() -> None:
    (finding,) = judged(ending(HIGH, 3.0))
    assert (finding.code, finding.severity, finding.limit) == ("high-hem", "warning", 0)
    # The offset is a height; the cloth lies aslant over the bust, so along the edge it is a little more, never less.
    assert 30.0 - 0.05 <= finding.value <= 30.0 * 1.3
    assert finding.piece is not None
    assert finding.at is not None
    assert finding.remedy.startswith("Lower the hem there to the underbust or below (in the step “Hem: ")


def test_only_the_centre_is_high_and_is_named() -> None:
    (finding,) = judged(ending(HIGH, 4.0, -1.0))
    assert (finding.severity, finding.piece) == ("warning", "CF")
    assert finding.message.startswith("At the centre front the hem lies ")
    assert "give the height at centre front the level underbust" in finding.remedy


def test_less_than_80_mm_of_cloth_is_an_error_on_one_side_of_the_limit_only() -> None:
    first = ending(V, 8.0, 0.0)
    reach = 8.0 + (front_length(first) - 80.0) / 10
    enough, scant = ending(V, reach - 0.3, 0.0), ending(V, reach + 0.3, 0.0)
    assert front_length(enough) > 80.0 > front_length(scant)
    assert [finding.severity for finding in judged(enough)] == ["warning"]
    (finding,) = judged(scant)
    assert (finding.code, finding.severity, finding.limit) == ("high-hem", "error", 80.0)
    assert finding.value == pytest.approx(front_length(scant))
    assert "leaves only 7." in finding.message


def test_it_is_among_the_findings_of_a_garment_that_is_made() -> None:
    cutting = finish(ending(V, 12.0, 0.0))
    found = check_wearing(cutting, None, WOVEN, None, block().pattern)
    assert "high-hem" in {finding.code for finding in found if finding.severity == "error"}
