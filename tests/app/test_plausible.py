"""Measurements that are still being written down: values, estimates, questions, one refusal."""

import json
from typing import Any

import pytest

from panelwright.app.plausible import checked_measurements
from panelwright.body.measurement_file import FIELDS, read_measurements
from panelwright.body.units import Unit

TAKEN = {
    "bust_girth": 88.0,
    "underbust_girth": 75.0,
    "waist_girth": 72.0,
    "hip_girth": 96.0,
    "back_neck_to_waist": 40.0,
}


def _document(unit: str = "cm", **measurements: object) -> dict[str, object]:
    return {"format": "panelwright-measurements/1", "ref": "w-07", "unit": unit, "measurements": measurements}


def _checked(**measurements: object) -> dict[str, Any]:
    return checked_measurements(_document(**measurements))


def _mm(told: dict[str, Any]) -> dict[str, float]:
    return {value["name"]: value.get("mm", value.get("deg")) for value in told["values"]}


def test_a_complete_set_has_the_values_that_the_garment_will_have() -> None:
    told = _checked(**TAKEN, waist_to_hip=19)
    wearer = read_measurements(json.dumps(_document(**TAKEN, waist_to_hip=19)))
    assert told["refused"] is None
    assert told["missing"] == []
    assert [value["name"] for value in told["values"]] == list(FIELDS)
    for name, amount in _mm(told).items():
        term = FIELDS[name]
        wanted = 22.6 if term.quantity == "angle" else wearer[term.id]
        assert amount == pytest.approx(wanted, abs=1e-3)
    taken = {value["name"] for value in told["values"] if not value["estimated"]}
    assert taken == {*TAKEN, "waist_to_hip"}
    assert all(value["formula"] for value in told["values"] if value["estimated"])


def test_nothing_written_yet_is_no_fault() -> None:
    told = _checked()
    assert told["missing"] == list(TAKEN)
    assert told["refused"] is None
    assert told["questions"] == []
    assert set(_mm(told)) == {"shoulder_slope_deg"}  # the one estimate that asks for nothing


def test_estimates_appear_as_soon_as_their_basis_is_there() -> None:
    told = _checked(bust_girth=88)
    assert _mm(told)["bust_point_span"] == pytest.approx(0.207 * 880)
    assert "top_hip_girth" not in _mm(told)
    assert _mm(_checked(bust_girth=88, waist_girth=72, hip_girth=96))["top_hip_girth"] == pytest.approx(720 + 156)


def test_an_unlikely_value_is_questioned_and_a_usual_one_is_not() -> None:
    (question,) = _checked(waist_girth=45)["questions"]
    assert question["measurement"] == "waist_girth"
    assert question["severity"] == "warning"
    assert "45.0 cm" in question["message"]
    assert _checked(waist_girth=72)["questions"] == []


def test_questions_speak_the_documents_unit() -> None:
    told = checked_measurements(_document(unit="in", waist_girth="17 3/4"))
    assert "17 3/4 in" in told["questions"][0]["message"]  # type: ignore[index]


@pytest.mark.parametrize(
    ("measurements", "where"),
    [
        ({"waist_girth": 7.2}, "waist_girth"),
        ({"waist_girth": "a lot"}, "waist_girth"),
        ({"bust_girth": 80, "underbust_girth": 95}, "bust_girth"),
        ({"shoulder_slope_deg": 80}, "shoulder_slope_deg"),
        ({"waist_grith": 72}, '"waist_grith"'),
    ],
)
def test_what_nobody_measures_is_refused_in_one_sentence(measurements: dict[str, object], where: str) -> None:
    told = _checked(**measurements)
    assert told["values"] == []
    assert told["questions"] == []
    assert told["refused"]["where"] == where
    assert "\n" not in told["refused"]["message"]


def test_a_name_for_a_reference_is_refused() -> None:
    told = checked_measurements({**_document(**TAKEN), "ref": "anna"})
    assert told["refused"]["where"] == "ref"  # type: ignore[index]


def test_any_unit_gives_the_same_values() -> None:
    in_mm = _mm(checked_measurements(_document(unit=Unit.MM.value, **{k: 10 * v for k, v in TAKEN.items()})))
    assert in_mm == pytest.approx(_mm(_checked(**TAKEN)))
