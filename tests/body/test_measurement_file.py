"""The file, its schema, and what is refused; the schema is judged by jsonschema."""

import json
import math
from importlib.resources import files
from pathlib import Path

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as st
from strategies import block_bodies

from panelwright.body.measurement_file import (
    load_measurements,
    measurement_document,
    read_measurements,
    save_measurements,
)
from panelwright.body.measurement_schema import measurement_schema
from panelwright.body.measurements import Measurements
from panelwright.body.terms import TERMS
from panelwright.body.units import Unit
from panelwright.errors import InputError, MeasurementError, OutputError

GIRTHS = {
    "bust_girth": 88.0,
    "underbust_girth": 75,
    "waist_girth": 72,
    "hip_girth": 96,
    "back_neck_to_waist": 40,
}
DOCUMENT = {"format": "panelwright-measurements/1", "ref": "w-07", "unit": "cm", "measurements": GIRTHS}


def changed(**fields: object) -> dict[str, object]:
    """The document with other fields; None leaves one out."""
    return {name: value for name, value in (DOCUMENT | fields).items() if value is not None}


def measured(**fields: object) -> dict[str, object]:
    """The document with other measurements; None leaves one out."""
    return changed(measurements={name: value for name, value in (GIRTHS | fields).items() if value is not None})


def schema_accepts(document: object) -> bool:
    return jsonschema.Draft202012Validator(measurement_schema()).is_valid(document)


def test_a_file_is_read() -> None:
    wearer = read_measurements(json.dumps(DOCUMENT))
    assert wearer == Measurements.of("w-07", {name: length * 10 for name, length in GIRTHS.items()})


def test_texts_may_name_their_unit_and_angles_are_degrees() -> None:
    text = json.dumps(measured(waist_girth="28 1/4 in", hip_girth="96,5", stature="1650 mm", shoulder_slope_deg=23))
    wearer = read_measurements(text)
    assert wearer["waist_girth"] == pytest.approx(28.25 * 25.4)
    assert wearer["hip_girth"] == 965
    assert wearer["stature"] == 1650
    assert wearer["shoulder_slope"] == pytest.approx(math.radians(23))
    assert read_measurements(json.dumps(measured(shoulder_slope_deg="23°"))) is not None


GOOD = [
    DOCUMENT,
    changed(unit="mm", measurements={name: length * 10 for name, length in GIRTHS.items()}),
    changed(unit="in", measurements={name: length / 2.54 for name, length in GIRTHS.items()}),
    measured(bust_girth='34¾"', waist_girth="72,5 cm", shoulder_slope_deg="22,5 deg"),
    measured(stature=165, across_back=34.5, waist_to_hip=20),
]


@pytest.mark.parametrize("document", GOOD)
def test_schema_and_loader_accept_the_same(document: dict[str, object]) -> None:
    assert schema_accepts(document)
    assert read_measurements(json.dumps(document)).ref == "w-07"


# Each is refused by the schema too, for its shape.
MISSHAPEN = [
    ([DOCUMENT], "the file must hold named values in braces"),
    (None, "the file must hold named values in braces"),
    (changed(format=None), 'format must be "panelwright-measurements/1"'),
    (changed(format="panelwright-measurements/2"), 'format must be "panelwright-measurements/1"'),
    (changed(ref=None), "ref must be a neutral reference in quotes"),
    (changed(ref=7), "ref must be a neutral reference in quotes"),
    (changed(ref="Anna"), '"Anna" is not a neutral reference'),
    (changed(unit=None), 'unit must be "mm", "cm" or "in"'),
    (changed(unit="m"), 'unit must be "mm", "cm" or "in"'),
    (changed(unit=["cm"]), 'unit must be "mm", "cm" or "in"'),
    (changed(name="w-07"), '"name" is not a known field; those known are format, ref, unit, measurements'),
    (changed(measurement={}), '"measurement" is not a known field; did you mean measurements?'),
    (changed(measurements=None), "measurements must hold named values in braces"),
    (changed(measurements=[88]), "measurements must hold named values in braces"),
    (measured(hip_girth=None), "hip girth is missing; take it: round the fullest part of the seat"),
    (measured(bust=88), '"bust" is not a known measurement; did you mean bust_girth?'),
    (measured(shoulder_slope=22), '"shoulder_slope" is not a known measurement; did you mean shoulder_slope_deg?'),
    (measured(bust_girth=True), "bust_girth must be a number, or a text like"),
    (measured(bust_girth=[88]), "bust_girth must be a number, or a text like"),
    (measured(bust_girth={"cm": 88}), "bust_girth must be a number, or a text like"),
    (measured(bust_girth="about 88"), 'bust_girth: "about 88" is not a length: write it like'),
    (measured(bust_girth="1,000 mm"), 'bust_girth: "1,000 mm" is not a length'),
    (measured(bust_girth="8" * 50), "is not a length"),
    (measured(bust_girth=0), "bust girth of 0.0 cm is below 50.0 cm"),
    (measured(bust_girth=-88), "bust girth of -88.0 cm cannot be: a girth is not negative"),
    (measured(shoulder_slope_deg="23 cm"), 'shoulder_slope_deg: "23 cm" is not an angle in degrees'),
    (measured(shoulder_slope_deg=-3), "shoulder slope of -3.0° is below 0.0°"),
]


@pytest.mark.parametrize(("document", "sentence"), MISSHAPEN)
def test_schema_and_loader_refuse_the_same(document: object, sentence: str) -> None:
    assert not schema_accepts(document)
    with pytest.raises(InputError) as caught:
        read_measurements(json.dumps(document))
    assert sentence in str(caught.value)
    assert caught.value.where
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize(
    ("document", "sentence"),
    [
        (measured(bust_girth=880), 'it looks like millimetres; if so, write "unit": "mm"'),
        (changed(unit="in"), "bust girth of 88 in is above 78 3/4 in, the most that is possible: "
                             'it looks like centimetres; if so, write "unit": "cm"'),
        (measured(underbust_girth=90), "bust girth of 88.0 cm is below 90.0 cm"),
        (measured(bust_girth=10**400), "bust girth is not a finite number"),
        (measured(shoulder_slope_deg=60), "shoulder slope of 60.0° is above 50.0°"),
    ],
)  # fmt: skip
def test_what_no_wearer_has_is_refused_beyond_the_schema(document: dict[str, object], sentence: str) -> None:
    with pytest.raises(MeasurementError) as caught:
        read_measurements(json.dumps(document))
    assert sentence in str(caught.value)


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "the file is empty"),
        ("{'format': 1}", "line 1: use double quotes instead of single ones"),
        (json.dumps(DOCUMENT) + ",", "something stands after the closing bracket: take it out"),
        (json.dumps(measured(bust_girth=math.nan)), "the file holds NaN, which is not a number"),
        (json.dumps(measured(bust_girth=-math.inf)), "the file holds -Infinity, which is not a number"),
        (json.dumps(DOCUMENT).replace("88.0", "1e999"), "bust girth is not a finite number"),
        (json.dumps(DOCUMENT).replace("88.0", "8" * 6000), "a number is too long"),
        ("[" * 200_000, "nested too deep"),
        (json.dumps(DOCUMENT).replace('"hip', '"bust_girth": 90, "hip'), '"bust_girth" stands twice in the file'),
        (json.dumps(DOCUMENT)[:-1] + ', "unit": "in"}', '"unit" stands twice in the file'),
    ],
    ids=range(10),
)
def test_text_that_is_no_such_file_is_refused(text: str, sentence: str) -> None:
    with pytest.raises(InputError) as caught:
        read_measurements(text)
    assert sentence in str(caught.value)
    assert len(str(caught.value)) < 200


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (b"\xff\xfe{}", '"wearer.json" is not text in UTF-8'),
        (b" " * 1_000_001, '"wearer.json" is larger than 1 MB'),
        (b"{}", '"wearer.json": format must be'),
        (json.dumps(measured(bust_girth=880)).encode(), '"wearer.json": bust girth of 880.0 cm is above'),
    ],
    ids=range(4),
)
def test_a_file_that_cannot_be_used_is_named(tmp_path: Path, content: bytes, sentence: str) -> None:
    path = tmp_path / "wearer.json"
    path.write_bytes(content)
    with pytest.raises(InputError) as caught:
        load_measurements(path)
    assert str(caught.value).startswith(sentence)
    assert str(tmp_path) not in str(caught.value)


def test_a_file_that_is_not_there_is_named(tmp_path: Path) -> None:
    missing = f'^there is no file "gone.json" in the folder "{tmp_path.name}": check both names$'
    with pytest.raises(InputError, match=missing):
        load_measurements(tmp_path / "gone.json")
    with pytest.raises(InputError, match=f'"{tmp_path.name}" cannot be read'):
        load_measurements(tmp_path)
    with pytest.raises(InputError, match="is not the name of a file"):
        load_measurements(tmp_path / "a\0b")


def test_a_byte_order_mark_is_no_obstacle(tmp_path: Path) -> None:
    path = tmp_path / "wearer.json"
    path.write_text(json.dumps(DOCUMENT), encoding="utf-8-sig")
    assert load_measurements(path).ref == "w-07"


@given(block_bodies(), st.sampled_from(Unit))
def test_what_was_taken_survives_the_file(body: dict[str, float], unit: Unit) -> None:
    wearer = Measurements.of("w-07", body | {"shoulder_slope": 0.4})
    document = measurement_document(wearer, unit)
    assert schema_accepts(document)
    again = read_measurements(json.dumps(document))
    assert again.estimated == wearer.estimated
    for id in TERMS:
        assert again[id] == pytest.approx(wearer[id], abs=1e-6)


def test_a_file_is_written_with_what_was_taken_only(tmp_path: Path) -> None:
    path = tmp_path / "wearer.json"
    save_measurements(read_measurements(json.dumps(DOCUMENT)), path)
    assert json.loads(path.read_text(encoding="utf-8")) == DOCUMENT
    with pytest.raises(OutputError, match=r'"wearer\.json" cannot be written'):
        save_measurements(load_measurements(path), tmp_path / "gone" / "wearer.json")


def test_the_published_schema_is_what_the_terms_make() -> None:
    published = files("panelwright.body").joinpath("measurements.schema.json").read_text(encoding="utf-8")
    assert json.loads(published) == measurement_schema(), "write measurement_schema() to measurements.schema.json"
    jsonschema.Draft202012Validator.check_schema(measurement_schema())
