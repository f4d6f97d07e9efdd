import doctest
import math
import pickle

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from strategies import block_bodies

from panelwright.body import measurements as module
from panelwright.body.measurements import ESTIMATED_MARK, Measurements, Value
from panelwright.body.terms import REQUIRED, TERMS
from panelwright.body.units import Unit
from panelwright.errors import InputError, MeasurementError

DANCER = {
    "bust_girth": 880.0,
    "underbust_girth": 750.0,
    "waist_girth": 720.0,
    "hip_girth": 960.0,
    "back_neck_to_waist": 400.0,
}


def test_the_examples_run() -> None:
    assert doctest.testmod(module).failed == 0


def test_what_was_taken_is_kept_and_the_rest_is_estimated() -> None:
    wearer = Measurements.of("w-07", DANCER | {"bust_point_span": 190.0})
    assert {id: wearer[id] for id in REQUIRED} == DANCER
    assert wearer["bust_point_span"] == 190.0
    assert wearer.taken == (*REQUIRED, "bust_point_span")
    assert set(wearer.estimated) == set(TERMS) - set(wearer.taken)
    assert wearer.value("stature").source == "estimated"
    assert wearer.cup == 130.0


def test_an_estimate_is_marked_wherever_it_is_read() -> None:
    wearer = Measurements.of("w-07", DANCER)
    assert wearer.text("waist_girth") == "72.0 cm"
    assert wearer.text("waist_girth", Unit.INCH) == "28 3/8 in"
    assert wearer.text("bust_point_span") == f"18.2 cm ({ESTIMATED_MARK})"
    assert wearer.text("shoulder_slope") == "22.6° (estimated: measure before cutting)"
    assert all(wearer.text(id).endswith(f"({ESTIMATED_MARK})") for id in wearer.estimated)


def test_representations_hide_the_body() -> None:
    wearer = Measurements.of("w-07", DANCER)
    assert repr(wearer) == "Measurements('w-07', 5 taken)"
    assert "880" not in repr(wearer.values)


def test_equal_measurements_are_one_key_and_survive_a_process() -> None:
    wearer = Measurements.of("w-07", DANCER)
    assert {wearer: 1}[Measurements.of("w-07", dict(reversed(DANCER.items())))] == 1
    assert wearer != Measurements.of("w-07", DANCER | {"waist_girth": 720.5})
    assert pickle.loads(pickle.dumps(wearer)) == wearer


@given(block_bodies(), st.floats(0.9, 1.15))
def test_scaling_multiplies_every_length_and_no_angle(body: dict[str, float], factor: float) -> None:
    wearer = Measurements.of("w-07", body)
    larger = wearer.scaled(factor)
    assert larger["shoulder_slope"] == wearer["shoulder_slope"]
    assert larger.estimated == wearer.estimated
    for id, term in TERMS.items():
        if term.quantity == "length":
            assert larger[id] == pytest.approx(wearer[id] * factor, rel=1e-12)


def test_scaling_out_of_bounds_is_refused() -> None:
    with pytest.raises(MeasurementError, match=r"bust girth of 264.0 cm is above 200.0 cm"):
        Measurements.of("w-07", DANCER).scaled(3)


def test_numbers_of_numpy_are_numbers() -> None:
    taken = {id: np.float32(length) for id, length in DANCER.items()} | {"hip_girth": np.int64(960)}
    assert Measurements.of("w-07", taken) == Measurements.of("w-07", DANCER)


@pytest.mark.parametrize("ref", ["w-07", "size-88", "stand-1", "w7", "a-b-c-0"])
def test_neutral_references_are_taken(ref: str) -> None:
    assert Measurements.of(ref, DANCER).ref == ref


@pytest.mark.parametrize("ref", ["", "anna", "Anna 7", "W-07", "7", "w-07\n", "w/07", "w-0" + "7" * 40, "w-\u0667"])
def test_other_references_are_refused(ref: str) -> None:
    with pytest.raises(InputError, match="is not a neutral reference"):
        Measurements.of(ref, DANCER)


def test_the_constructor_refuses_gaps_and_contradictions_too() -> None:
    wearer = Measurements.of("w-07", DANCER)
    with pytest.raises(InputError, match="one value for each term"):
        Measurements("w-07", wearer.values[1:])
    small_bust = (Value("bust_girth", 700.0, "taken"), *wearer.values[1:])
    with pytest.raises(MeasurementError, match=r"bust girth of 70.0 cm is below 75.0 cm"):
        Measurements("w-07", small_bust)
    not_a_number = (Value("bust_girth", math.nan, "taken"), *wearer.values[1:])
    with pytest.raises(MeasurementError, match="bust girth is not a finite number"):
        Measurements("w-07", not_a_number)
