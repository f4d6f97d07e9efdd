"""Lengths that the maker gave against what was reckoned: judged on both sides of what is right."""

from dataclasses import replace

import pytest
from plain_cutting_pattern import shell

from panelwright.body.units import Unit
from panelwright.checks.wearer_workings import check_workings
from panelwright.checks.wearing import Wearing
from panelwright.pattern.working import Part, Working

STRAP = Working("straps/length", "Strap", (Part("front", 220.0), Part("back", 180.0)), short=20.0, long=20.0)


@pytest.mark.parametrize(
    ("given", "code", "limit"),
    [
        (None, None, None),
        (400.0, None, None),
        (380.0, None, None),
        (420.0, None, None),
        (379.9, "given-length-short", 380.0),
        (420.1, "given-length-long", 420.0),
        (300.0, "given-length-short", 380.0),
        (240.1, "given-length-short", 380.0),
    ],
)
def test_a_given_length_is_judged_by_what_was_reckoned(
    given: float | None, code: str | None, limit: float | None
) -> None:
    pattern = replace(shell(), workings=(replace(STRAP, given=given),))
    found = check_workings(pattern, Wearing())
    assert [finding.code for finding in found] == ([code] if code else [])
    for finding in found:
        assert (finding.severity, finding.value, finding.limit) == ("warning", given, limit)


def test_far_less_than_reckoned_is_an_error_with_the_numbers() -> None:
    """Own limit: 0.6 of the reckoned length, here 240 of 400 mm."""
    pattern = replace(shell(), workings=(replace(STRAP, given=239.9),))
    (finding,) = check_workings(pattern, Wearing())
    assert (finding.code, finding.severity, finding.value) == ("given-length-short", "error", 239.9)
    assert finding.limit == pytest.approx(240.0)
    assert "40.0 cm is reckoned, and less than 24.0 cm (60% of it) cannot work" in finding.message
    assert finding.remedy == "Leave the length out of the step “straps”, so that 40.0 cm is drawn, or give one near it."


def test_it_says_by_how_much_in_the_makers_unit() -> None:
    pattern = replace(shell(), workings=(replace(STRAP, given=300.0),))
    (in_cm,) = check_workings(pattern, Wearing())
    assert "30.0 cm is 10.0 cm too short" in in_cm.message
    assert "40.0 cm is reckoned" in in_cm.message
    (in_inches,) = check_workings(pattern, Wearing(unit=Unit.INCH))
    assert "in too short" in in_inches.message
