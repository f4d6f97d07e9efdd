"""The words of the steps: every field has its label, and what a page may offer is what a design file takes."""

from itertools import product
from typing import Any

import pytest

from panelwright.app.step_labels import COMMON, STEP_LABELS
from panelwright.app.step_words import step_vocabulary
from panelwright.design.step_file import FORMS, steps_from_json
from panelwright.errors import DesignError

Document = dict[str, Any]
VOCABULARY = step_vocabulary()
TYPES = {"length", "number", "whole", "choice", "height", "switch", "text", "points", "place", "list"}
# The least that a step of each kind needs.
PLAIN: dict[str, Document] = {
    "top-edge": {"shape": "scooped", "centre": {"level": "bust"}, "side": {"level": "upper-bust"}},
    "hem": {"shape": "shaped", "centre": {"level": "top-hip"}, "side": {"level": "top-hip"}},
    "bones": {},
    "closure": {"place": "centre-back", "type": "zip"},
    "tie": {},
    "bodice-top": {},
    "strap": {},
    "split": {"pieces": ["SF"]},
    "unfold": {},
    "join": {"seam": "front-princess"},
    "swing": {"dart": "front/dart", "to": {"line": "side", "fraction": 0.5}},
    "gather": {"dart": "front/dart"},
    "peplum": {"line": "hem/line"},
    "frill": {"line": "hem/line"},
    "spread": {"piece": "SF", "open": "hem/line", "closed": "neck/line", "amount_cm": 5},
    "waistband": {},
    "sleeve": {},
    "skirt": {"line": "hem/line"},
}
OF_EACH_TYPE: Document = {
    "height": {"level": "waist", "offset_cm": 1},
    "switch": True,
    "points": [{"line": "side", "level": "bust"}],
    "number": 0.5,
}
FIELDS = [(kind, field["name"]) for kind, step in VOCABULARY.items() for field in step["fields"]]


def field_of(kind: str, name: str) -> Document:
    (found,) = [field for field in VOCABULARY[kind]["fields"] if field["name"] == name]
    return dict(found)


def taken(kind: str, **fields: Any) -> bool:
    """Whether a design file takes a step with these fields."""
    return read({"kind": kind, "uid": "step-1", **PLAIN[kind], **fields})


def read(entry: Document) -> bool:
    """Whether a design file takes a step."""
    try:
        steps_from_json([entry])
    except DesignError:
        return False
    return True


def contexts(field: Document) -> list[Document]:
    """Every set of other fields with which a field acts."""
    when = field.get("when", {})
    return [dict(zip(when, values, strict=True)) for values in product(*when.values())]


def test_every_kind_and_every_field_has_words_and_no_words_are_left_over() -> None:
    assert list(VOCABULARY) == [form.makes.kind for form in FORMS]
    assert set(STEP_LABELS) == set(VOCABULARY)
    for form in FORMS:
        told = [field["name"] for field in VOCABULARY[form.makes.kind]["fields"]]
        assert told == [info.alias or name for name, info in form.model_fields.items() if name != "kind"]
        inner = [one["name"] for field in VOCABULARY[form.makes.kind]["fields"] for one in _entries(field)]
        assert set(STEP_LABELS[form.makes.kind].fields) | set(COMMON) == {*told, *inner}


def _entries(field: Document) -> list[Document]:
    """The fields of the entries of a list, whose words stand with the step's own."""
    return list(field["of"]) if field["type"] == "list" and field["of"] != "text" else []


def test_words_are_plain_words() -> None:
    for step in VOCABULARY.values():
        assert step["about"].endswith(".")
        labels = [step["label"], *(field["label"] for field in step["fields"])]
        labels += [choice["label"] for field in step["fields"] for choice in field.get("choices", ())]
        assert all(label and "_" not in label and "-" not in label for label in labels)


@pytest.mark.parametrize(("kind", "name"), FIELDS)
def test_a_field_says_what_it_is(kind: str, name: str) -> None:
    field = field_of(kind, name)
    assert field["type"] in TYPES
    assert ("unit" in field) == (field["type"] == "length")
    assert ("choices" in field) == (field["type"] == "choice")
    if field["type"] in ("length", "whole"):
        assert field["least"] < field["most"]
        if "default" in field:
            assert field["least"] <= field["default"] <= field["most"]


@pytest.mark.parametrize(("kind", "name"), [(kind, name) for kind, name in FIELDS if "least" in field_of(kind, name)])
def test_limits_are_those_at_which_a_design_file_starts_to_refuse(kind: str, name: str) -> None:
    field = field_of(kind, name)
    beyond = 1 if field["type"] == "whole" else 0.01
    for limit, outside in ((field["least"], field["least"] - beyond), (field["most"], field["most"] + beyond)):
        assert any(taken(kind, **context, **{name: limit}) for context in contexts(field))
        assert not any(taken(kind, **context, **{name: outside}) for context in contexts(field))


@pytest.mark.parametrize(
    ("kind", "name"), [(kind, name) for kind, name in FIELDS if field_of(kind, name)["type"] == "choice"]
)
def test_choices_are_those_that_a_design_file_takes(kind: str, name: str) -> None:
    field = field_of(kind, name)
    for choice in field["choices"]:
        assert any(taken(kind, **context, **{name: choice["value"]}) for context in contexts(field))
    assert not any(taken(kind, **context, **{name: "no-such-choice"}) for context in contexts(field))


@pytest.mark.parametrize(
    ("kind", "name"),
    [
        (kind, name)
        for kind, name in FIELDS
        if kind in ("strap", "closure") and "when" in field_of(kind, name) and name != "hand"
    ],
)
def test_a_field_is_refused_where_its_words_say_that_it_does_not_act(kind: str, name: str) -> None:
    field = field_of(kind, name)
    value = _usual(field)
    types = [choice["value"] for choice in field_of(kind, "type")["choices"]]
    acts = [one for one in types if any(context["type"] == one for context in contexts(field))]
    for one in types:
        others = [context for context in contexts(field) if context["type"] == one] or [{"type": one}]
        assert any(taken(kind, **other, **{name: value}) for other in others) == (one in acts), one


def _usual(field: Document) -> Any:
    if field["type"] == "choice":
        return field["choices"][-1]["value"]
    if field["type"] == "length":
        return min(field["most"], max(field["least"], 1.6))
    return OF_EACH_TYPE[field["type"]]


def test_a_hand_belongs_to_a_side() -> None:
    assert taken("closure", hand="right", place="side")
    assert not taken("closure", hand="right")
    assert field_of("closure", "hand")["when"] == {"place": ["side"]}


@pytest.mark.parametrize(("kind", "name"), FIELDS)
def test_a_field_is_optional_where_a_design_file_does_without_it(kind: str, name: str) -> None:
    entry = {"kind": kind, "uid": "step-1", **PLAIN[kind]}
    entry.pop(name, None)
    assert read(entry) == field_of(kind, name)["optional"]
