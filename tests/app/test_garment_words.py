"""The words of what belongs to no step: every field has its words, and what a page may offer is what a file takes."""

import json
from itertools import product
from typing import Any

import pytest
from pydantic import create_model

from panelwright.app import garment_words
from panelwright.app.block_record import BlockRecord, Record
from panelwright.app.design_file import DesignRecord, design_document, read_design
from panelwright.app.garment_design import GarmentDesign
from panelwright.app.garment_labels import GARMENT_LABELS
from panelwright.app.garment_words import garment_vocabulary
from panelwright.errors import InputError

Document = dict[str, Any]
GARMENT = garment_vocabulary()
FIELDS = {field["name"]: field for group in GARMENT for field in group["fields"]}
BARE: Document = {"format": "panelwright-design/1", "ref": "lantern-09", "title": "Lantern"}
# What else a file must say for a choice to be taken.
NEEDED = {
    ("block.centre_back", "fold"): {"block.centre_back_shape": "straight"},
    ("finish.lining", "to_facing"): {"finish.facing": "edge"},
    ("finish.interfacing", "facing"): {"finish.facing": "full"},
    ("finish.turn_of_cloth_mm", None): {"finish.facing": "full"},
}
TYPES = {"length", "number", "whole", "choice", "switch", "text", "list", "widths"}


def written(values: Document) -> Document:
    """A design file that says this: way -> value."""
    document = json.loads(json.dumps(BARE))
    for way, value in values.items():
        *parts, last = way.split(".")
        place = document
        for part in parts:
            place = place.setdefault(part, {})
        place[last] = value
    return dict(document)


def design_of(values: Document) -> GarmentDesign:
    return read_design(json.dumps(written(values)))


def taken(name: str, value: object, context: Document | None = None) -> bool:
    needed = NEEDED.get((name, value if isinstance(value, str) else None), {})
    try:
        design_of({**needed, **(context or {}), name: value})
    except InputError:
        return False
    return True


def contexts(field: Document) -> list[Document]:
    """Every set of other fields with which a field acts."""
    when = field.get("when", {})
    return [dict(zip(when, values, strict=True)) for values in product(*when.values())]


def leaves(record: type[Record], way: str) -> list[str]:
    """Ways to every field that holds no record, read off the schema that the record writes of itself."""
    schema = record.model_json_schema(by_alias=True)
    found = []
    for name, told in schema["properties"].items():
        inner = told.get("$ref", "").rpartition("/")[2]
        properties = schema.get("$defs", {}).get(inner, {}).get("properties")
        found += [f"{way}.{name}.{own}" for own in properties] if properties else [f"{way}.{name}"]
    return found


def test_every_field_of_the_records_is_there_with_words_and_no_words_are_left_over() -> None:
    parts = {part: DesignRecord.model_fields[part].annotation for part in ("block", "finish", "wearing")}
    expected = {way for part, record in parts.items() for way in leaves(record, part)}  # type: ignore[arg-type]
    assert set(FIELDS) == expected
    assert set(GARMENT_LABELS) == expected
    assert len(FIELDS) == sum(len(group["fields"]) for group in GARMENT)


def test_a_field_that_is_new_appears_by_itself(monkeypatch: pytest.MonkeyPatch) -> None:
    class Wider(BlockRecord):
        """A block with a length and a choice that nobody has put into words yet."""

        neck_drop_cm: float | None = None

    design = create_model("Wider", __base__=DesignRecord, block=(Wider, Wider()))
    monkeypatch.setattr(garment_words, "DesignRecord", design)
    found = {field["name"]: field for group in garment_vocabulary() for field in group["fields"]}
    assert found["block.neck_drop_cm"] == {
        "name": "block.neck_drop_cm", "label": "neck drop", "type": "length", "unit": "cm", "optional": True,
    }  # fmt: skip
    assert set(found) == {*FIELDS, "block.neck_drop_cm"}


def test_words_are_plain_words_and_a_line_explains_every_field() -> None:
    for group in GARMENT:
        assert group["about"].endswith(".")
        assert group["fields"], group["name"]
        labels = [group["label"], *(field["label"] for field in group["fields"])]
        labels += [choice["label"] for field in group["fields"] for choice in field.get("choices", ())]
        assert all(label and "_" not in label and "-" not in label for label in labels)
        assert all(field["about"].endswith(".") for field in group["fields"])


@pytest.mark.parametrize("name", FIELDS)
def test_a_field_says_what_it_is(name: str) -> None:
    field = FIELDS[name]
    assert field["type"] in TYPES
    assert field["optional"]
    assert ("unit" in field) == (field["type"] in ("length", "widths"))
    assert ("choices" in field) == (field["type"] == "choice")
    if field["type"] in ("length", "whole", "widths"):
        assert field["least"] < field["most"]
    if field["type"] == "choice" and "default" in field:
        assert field["default"] in {choice["value"] for choice in field["choices"]}


def test_what_is_told_as_usual_is_what_a_file_that_says_nothing_means() -> None:
    written_out = design_document(design_of({}))
    for name, field in FIELDS.items():
        place: Any = written_out
        for part in name.split("."):
            place = place.get(part) if isinstance(place, dict) else None
        if isinstance(place, list | dict) or place is None:
            assert "default" not in field, name
            continue
        assert field["default"] == place, name
        assert design_of({name: place}) == design_of({}), name


@pytest.mark.parametrize("name", [name for name, field in FIELDS.items() if "least" in field])
def test_limits_are_those_at_which_a_design_file_starts_to_refuse(name: str) -> None:
    field = FIELDS[name]
    beyond = 1 if field["type"] == "whole" else 0.01
    wrap = (lambda value: {"hem": value}) if field["type"] == "widths" else (lambda value: value)
    for limit, outside in ((field["least"], field["least"] - beyond), (field["most"], field["most"] + beyond)):
        assert any(taken(name, wrap(limit), context) for context in contexts(field))
        assert not any(taken(name, wrap(outside), context) for context in contexts(field))


@pytest.mark.parametrize("name", [name for name, field in FIELDS.items() if field["type"] == "choice"])
def test_choices_are_those_that_a_design_file_takes(name: str) -> None:
    for choice in FIELDS[name]["choices"]:
        assert any(taken(name, choice["value"], context) for context in contexts(FIELDS[name])), choice
        for other in choice.get("also", ()):
            needed = NEEDED.get((name, choice["value"]), {})
            assert design_of({**needed, name: other}) == design_of({**needed, name: choice["value"]})
    assert not taken(name, "no-such-choice")


def test_a_seam_is_placed_with_what_is_offered() -> None:
    line, level, distance = FIELDS["block.seams"]["of"]
    for panels, seam in ((4, "side"), (5, "front-underarm")):
        assert seam in {choice["value"] for choice in line["choices"]}
        entry = {"line": seam, "level": level["choices"][0]["value"], "distance_cm": 12}
        assert taken("block.seams", [entry], {"block.panels": panels})
    for limit, outside in ((distance["least"], 0.99), (distance["most"], 100.01)):
        entry = {"line": "side", "level": "waist"}
        assert taken("block.seams", [{**entry, "distance_cm": limit}])
        assert not taken("block.seams", [{**entry, "distance_cm": outside}])
