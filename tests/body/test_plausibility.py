import math

import pytest

from panelwright.body.measurements import Measurements
from panelwright.body.plausibility import questions
from panelwright.body.size_table import SIZES, size
from panelwright.body.units import Unit

BODY = {
    "bust_girth": 880.0,
    "underbust_girth": 750.0,
    "waist_girth": 720.0,
    "hip_girth": 960.0,
    "back_neck_to_waist": 400.0,
}


def asked(unit: Unit = Unit.CM, **taken: float):
    """What is asked after some measurements are changed."""
    return questions(Measurements.of("w-07", BODY | taken), unit)


@pytest.mark.parametrize("bust_cm", SIZES)
def test_a_size_of_the_table_raises_no_question(bust_cm: int) -> None:
    assert questions(size(bust_cm)) == ()


# Each limit from both sides: just inside nothing is asked, just outside one thing is.
@pytest.mark.parametrize(
    ("term", "inside", "outside", "code", "limit"),
    [
        ("back_neck_to_waist", 480, 480.5, "measurement-unlikely", 480),
        ("back_neck_to_waist", 330, 329.5, "measurement-unlikely", 330),
        ("hip_girth", 1120, 1120.5, "measurements-unlikely-together", 1120),
        ("hip_girth", 750, 749, "measurement-unlikely", 750),
        ("waist_girth", 630, 629, "measurements-unlikely-together", 630),
        ("waist_girth", 810, 811, "measurements-unlikely-together", 810),
        ("bust_girth", 810, 809, "measurements-unlikely-together", 810),
        ("bust_girth", 990, 991, "measurements-unlikely-together", 990),
        ("stature", 1400, 1399, "measurement-unlikely", 1400),
        ("bust_point_span", 237, 238, "measurements-unlikely-together", 237.6),
        ("arm_length", 500, 499, "measurement-unlikely", 500),
        ("upper_arm_girth", 369, 370, "measurements-unlikely-together", 369.6),
        ("wrist_girth", 210, 211, "measurement-unlikely", 210),
        ("upper_bust_girth", 900, 901, "measurements-unlikely-together", 900),
    ],
)
def test_a_limit_is_a_limit(term: str, inside: float, outside: float, code: str, limit: float) -> None:
    assert asked(**{term: inside}) == ()
    (finding,) = asked(**{term: outside})
    assert (finding.code, finding.severity, finding.subject) == (code, "warning", term)
    assert finding.value == outside
    assert finding.limit == pytest.approx(limit)
    assert finding.unit == "mm"


def test_the_sentence_has_both_numbers_and_the_way_out() -> None:
    (finding,) = asked(hip_girth=1150)
    assert finding.message == (
        "Hip girth of 115.0 cm is larger than most with waist girth 72.0 cm: at most 112.0 cm is usual."
    )
    assert finding.remedy == "Measure hip girth and waist girth again, or go on if both are right."
    (finding,) = asked(Unit.INCH, back_neck_to_waist=500)
    assert finding.message == ("Back neck point to waist of 19 5/8 in is larger than most: at most 18 7/8 in is usual.")


def test_an_upper_bust_larger_than_the_bust_is_questioned_unless_the_bust_is_small() -> None:
    full = {"bust_girth": 960.0, "underbust_girth": 820.0, "waist_girth": 780.0}
    (finding,) = asked(**full, upper_bust_girth=990.0)
    assert (finding.subject, finding.value, finding.limit) == ("upper_bust_girth", 990.0, pytest.approx(980.0))
    assert "larger than most with bust girth 96.0 cm and underbust girth 82.0 cm: at most 98.0 cm" in finding.message
    assert asked(**full, upper_bust_girth=910.0) == ()
    small = {"bust_girth": 820.0, "underbust_girth": 760.0}
    # What is estimated of so small a bust, 841 mm, is more than the bust, and is no question with what a tape is off.
    assert asked(**small, upper_bust_girth=860.0) == ()
    (finding,) = asked(**small, upper_bust_girth=862.0)
    assert finding.limit == pytest.approx(861.0)


def test_an_angle_is_questioned_in_degrees() -> None:
    (finding,) = asked(shoulder_slope=math.radians(40))
    assert (finding.value, finding.limit, finding.unit) == (pytest.approx(40), pytest.approx(35), "°")
    assert finding.message == "Shoulder slope of 40.0° is larger than most: at most 35.0° is usual."


def test_a_slope_given_as_radians_in_degrees_is_questioned() -> None:
    (finding,) = asked(shoulder_slope=math.radians(0.39))
    assert finding.code == "measurement-unlikely"


def test_bust_levels_that_disagree_are_questioned() -> None:
    # 410 - sqrt(274^2 - 88^2) = 150.5 mm of height: the formula reversed by hand.
    assert asked(side_neck_to_bust_point=274, bust_height=150) == ()
    found = [f for f in asked(side_neck_to_bust_point=274, bust_height=105) if f.code == "bust-levels-disagree"]
    assert [f.value for f in found] == [pytest.approx(45.52, abs=0.01)]
    assert "4.6 cm away from the bust height of 10.5 cm; up to 4.0 cm is usual" in found[0].message


def test_estimates_are_not_questioned() -> None:
    assert asked(bust_girth=1150, underbust_girth=950, waist_girth=900) == ()
