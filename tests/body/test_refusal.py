"""What is refused, each with its whole sentence: what, the limit, the remedy."""

import math

import pytest
from hypothesis import given
from strategies import block_bodies

from panelwright.body.measurements import Measurements
from panelwright.body.terms import TERMS
from panelwright.body.units import Unit
from panelwright.errors import MeasurementError

BODY = {
    "bust_girth": 880.0,
    "underbust_girth": 750.0,
    "waist_girth": 720.0,
    "hip_girth": 960.0,
    "back_neck_to_waist": 400.0,
}


def refusal(unit: Unit = Unit.CM, **taken: object) -> str:
    """The sentence with which the body is refused after some measurements are changed."""
    with pytest.raises(MeasurementError) as caught:
        Measurements.of("w-07", BODY | taken, unit)
    return str(caught.value)


@pytest.mark.parametrize(
    ("unit", "bust", "sentence"),
    [
        (Unit.MM, 88.0, "bust girth of 88 mm is below 500 mm, the least that is possible: "
                        'it looks like centimetres; if so, write "unit": "cm"'),
        (Unit.MM, 34.5, "bust girth of 34.5 mm is below 500 mm, the least that is possible: "
                        'it looks like inches; if so, write "unit": "in"'),
        (Unit.CM, 345.0, "bust girth of 34.5 cm is below 50.0 cm, the least that is possible: "
                         'it looks like inches; if so, write "unit": "in"'),
        (Unit.CM, 8800.0, "bust girth of 880.0 cm is above 200.0 cm, the most that is possible: "
                          'it looks like millimetres; if so, write "unit": "mm"'),
        (Unit.INCH, 88 * 25.4, "bust girth of 88 in is above 78 3/4 in, the most that is possible: "
                               'it looks like centimetres; if so, write "unit": "cm"'),
        (Unit.CM, 2500.0, "bust girth of 250.0 cm is above 200.0 cm, the most that is possible: measure it again"),
        (Unit.CM, -880.0, "bust girth of -88.0 cm cannot be: a girth is not negative; take the minus sign away"),
        (Unit.CM, 0.0, "bust girth of 0.0 cm is below 50.0 cm, the least that is possible: measure it again"),
        (Unit.CM, 499.9, "bust girth of 499.9 mm is below 500 mm, the least that is possible: "
                        'it looks like inches; if so, write "unit": "in"'),
        (Unit.CM, math.nan, "bust girth is not a finite number: measure it again"),
        (Unit.CM, -math.inf, "bust girth is not a finite number: measure it again"),
        (Unit.CM, 10**400, "bust girth is not a finite number: measure it again"),
        (Unit.CM, True, "bust girth must be a number, not bool"),
        (Unit.CM, "88", "bust girth must be a number, not str"),
        (Unit.CM, None, "bust girth must be a number, not NoneType"),
    ],
)  # fmt: skip
def test_a_value_out_of_bounds(unit: Unit, bust: object, sentence: str) -> None:
    assert refusal(unit, bust_girth=bust) == sentence


@pytest.mark.parametrize(
    ("taken", "sentence"),
    [
        ({"underbust_girth": 900}, "bust girth of 88.0 cm is below 90.0 cm, the least that is possible with "
                                   "underbust girth 90.0 cm: measure bust girth and underbust girth again"),
        ({"bust_girth": 1250}, "bust girth of 125.0 cm is above 120.0 cm, the most that is possible with "
                               "underbust girth 75.0 cm: measure bust girth and underbust girth again"),
        ({"waist_girth": 350}, "waist girth of 35.0 cm is below 37.5 cm, the least that is possible with "
                               "underbust girth 75.0 cm: measure waist girth and underbust girth again"),
        ({"waist_girth": 1140}, "waist girth of 114.0 cm is above 113.0 cm, the most that is possible with "
                                "bust girth 88.0 cm: measure waist girth and bust girth again"),
        ({"hip_girth": 500}, "hip girth of 50.0 cm is below 50.4 cm, the least that is possible with "
                             "waist girth 72.0 cm: measure hip girth and waist girth again"),
        ({"bust_point_span": 300}, "bust point span of 30.0 cm is above 29.0 cm, the most that is possible with "
                                   "bust girth 88.0 cm: measure bust point span and bust girth again"),
        ({"stature": 1150}, "back neck point to waist of 40.0 cm is above 39.7 cm, the most that is possible with "
                            "stature 115.0 cm: measure back neck point to waist and stature again"),
        ({"underarm_to_waist": 350}, "underarm to waist of 35.0 cm is above 34.0 cm, the most that is possible "
                                     "with back neck point to waist 40.0 cm: "
                                     "measure underarm to waist and back neck point to waist again"),
        ({"underarm_to_waist": 180, "bust_height": 150},
         "bust height of 15.0 cm is above 14.5 cm, the most that is possible with underarm to waist 18.0 cm: "
         "measure bust height and underarm to waist again"),
        ({"bust_height": 100, "bust_point_to_underbust": 90},
         "bust point to underbust of 9.0 cm is above 8.0 cm, the most that is possible with bust height 10.0 cm: "
         "measure bust point to underbust and bust height again"),
        ({"underarm_to_waist": 140, "bust_point_to_underbust": 90},
         "bust point to underbust of 9.0 cm is above 8.5 cm, the most that is possible with underarm to waist "
         "14.0 cm: measure bust point to underbust and underarm to waist again"),
        ({"side_neck_to_bust_point": 410},
         "side neck point to bust point of 41.0 cm is above 40.0 cm, the most that is possible with back neck "
         "point to waist 40.0 cm: measure side neck point to bust point and back neck point to waist again"),
        ({"waist_to_top_hip": 100, "waist_to_hip": 100},
         "waist to top hip of 10.0 cm is above 8.0 cm, the most that is possible with waist to hip 10.0 cm: "
         "measure waist to top hip and waist to hip again"),
        ({"across_front": 500},
         "across front of 50.0 cm is above 48.4 cm, the most that is possible with upper bust girth 88.0 cm "
         "(estimated): measure across front again"),
        ({"upper_bust_girth": 1040},
         "upper bust girth of 104.0 cm is above 103.0 cm, the most that is possible with bust girth 88.0 cm: "
         "measure upper bust girth and bust girth again"),
        ({"underbust_girth": 880.2}, "bust girth of 880 mm is below 880.2 mm, the least that is possible with "
                                     "underbust girth 88.0 cm: measure bust girth and underbust girth again"),
    ],
)  # fmt: skip
def test_two_measurements_of_no_one_body(taken: dict[str, float], sentence: str) -> None:
    assert refusal(**taken) == sentence


# Every other limit between two measurements from both sides, mm; the limits reckoned by hand for this body.
@pytest.mark.parametrize(
    ("term", "inside", "outside", "fragment"),
    [
        ("hip_girth", 1800, 1801, "the most that is possible with waist girth"),
        ("hip_girth", 504, 503, "the least that is possible with waist girth"),
        ("waist_girth", 1130, 1131, "the most that is possible with bust girth"),
        ("upper_bust_girth", 637.5, 636.5, "the least that is possible with underbust girth"),
        ("upper_bust_girth", 1030, 1031, "the most that is possible with bust girth"),
        ("top_hip_girth", 504, 503, "the least that is possible with waist girth"),
        ("top_hip_girth", 1248, 1249, "the most that is possible with hip girth"),
        ("neck_base_girth", 572, 573, "the most that is possible with bust girth"),
        ("bust_point_span", 290.4, 291.4, "the most that is possible with bust girth"),
        ("across_front", 132, 131, "the least that is possible with upper bust girth"),
        ("across_back", 528, 529, "the most that is possible with upper bust girth"),
        ("across_back", 132, 131, "the least that is possible with upper bust girth"),
        ("stature", 1160, 1159, "the most that is possible with stature"),
        ("bust_height", 248, 249, "the most that is possible with back neck point to waist"),
        ("side_neck_to_bust_point", 120, 119, "the least that is possible with back neck point to waist"),
    ],
)
def test_each_limit_from_both_sides(term: str, inside: float, outside: float, fragment: str) -> None:
    assert Measurements.of("w-07", BODY | {term: inside})[term] == inside
    assert fragment in refusal(**{term: outside})


def test_refusals_are_worded_in_the_unit_that_was_used() -> None:
    assert refusal(Unit.INCH, underbust_girth=914.4).startswith(
        "bust girth of 34 5/8 in is below 36 in, the least that is possible with underbust girth 36 in"
    )
    assert refusal(shoulder_slope=math.radians(60)) == (
        "shoulder slope of 60.0° is above 50.0°, the most that is possible: measure it again"
    )


@pytest.mark.parametrize(
    ("missing", "sentence"),
    [
        (
            ("underbust_girth",),
            "underbust girth is missing; take it: round the rib cage directly under the bust, tape level and close",
        ),
        (
            ("bust_girth", "waist_girth", "hip_girth"),
            "bust girth, waist girth and hip girth are missing: a block cannot do without them",
        ),
    ],
)
def test_a_missing_measurement_says_how_to_take_it(missing: tuple[str, ...], sentence: str) -> None:
    with pytest.raises(MeasurementError) as caught:
        Measurements.of("w-07", {id: length for id, length in BODY.items() if id not in missing})
    assert str(caught.value) == sentence
    assert caught.value.where == missing[0]


@given(block_bodies())
def test_no_body_of_the_blocks_domain_is_refused(body: dict[str, float]) -> None:
    assert Measurements.of("w-07", body).ref == "w-07"


@pytest.mark.parametrize("cup", [0, 20, 59])
def test_small_cups_are_not_refused(cup: float) -> None:
    assert Measurements.of("w-07", BODY | {"underbust_girth": 880 - cup}).cup == cup


def test_a_length_is_not_negative() -> None:
    for id, term in TERMS.items():
        if term.quantity == "length":
            kind = "girth" if "girth" in id else "length"
            message = refusal(**{id: -250.0})
            assert message == f"{term.label} of -25.0 cm cannot be: a {kind} is not negative; take the minus sign away"


@pytest.mark.parametrize("term", TERMS.values(), ids=lambda term: term.id)
def test_bounds_of_each_term_hold_on_both_sides(term) -> None:
    for limit, outside in ((term.possible.least, -1e-3), (term.possible.most, 1e-3)):
        message = refusal(**{term.id: limit + outside})
        assert "that is possible" in message
        assert message.startswith(term.label)
        try:
            Measurements.of("w-07", BODY | {term.id: limit})
        except MeasurementError as error:
            assert "possible with" in str(error)  # noqa: PT017 - most limits contradict this one body
