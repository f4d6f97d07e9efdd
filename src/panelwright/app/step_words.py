"""The steps of a design for a page that asks for them: every field with its label, its kind, choices and limits.

It is made from the forms that read a design file, so a page offers what a file may hold, and nothing else.
"""

from collections.abc import Iterator, Mapping
from types import UnionType
from typing import Annotated, Any, Final, Literal, Union, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from panelwright.app.field_words import FieldWords
from panelwright.app.step_labels import COMMON, POINT_LABELS, STEP_LABELS
from panelwright.design.step_file import FORMS
from panelwright.design.step_form import HeightForm, PointForm

Document = dict[str, Any]
_UNITS: Final = {"_cm": "cm", "_mm": "mm"}
_PLAIN: Final = {bool: "switch", int: "whole", float: "number", str: "text"}
NAMES_THE_KIND: Final = "kind"


def step_vocabulary() -> Document:
    """kind -> `label`, `about` (one sentence) and `fields`, for every kind of step that a design file may hold.

    Each field has `name`, `label`, `type` (`length`, `number`, `whole`, `choice`, `height`, `switch`, `text`, `points`
    or `list`) and `optional`; where they apply, `unit`, `least`, `most`, `choices`, `default`, `when` (field ->
    values with which alone it acts) and, of points and lists, `of`: `text`, or the fields of each entry.
    """
    found = {}
    for form in FORMS:
        words = STEP_LABELS[form.makes.kind]
        fields = list(_fields(form, {**COMMON, **words.fields}))
        found[form.makes.kind] = {"label": words.label, "about": words.about, "fields": fields}
    return found


def _fields(record: type[BaseModel], words: Mapping[str, FieldWords]) -> Iterator[Document]:
    for attribute, info in record.model_fields.items():
        name = info.alias or attribute
        if name != NAMES_THE_KIND:
            yield _field(name, info, words[name], words)


def _field(name: str, info: FieldInfo, own: FieldWords, words: Mapping[str, FieldWords]) -> Document:
    core, limits = _core(info.annotation, info.metadata)
    told: Document = {"name": name, "label": own.label, **_type(name, core, own, words)}
    if unit := _UNITS.get(name[-3:]):
        told["unit"] = unit
    told |= limits
    if own.limits:
        told |= dict(zip(("least", "most"), own.limits, strict=True))
    if own.when:
        told["when"] = {field: list(values) for field, values in own.when.items()}
    told["optional"] = not info.is_required()
    if isinstance(info.default, bool | int | float | str):
        told["default"] = info.default
    return told


def _type(name: str, core: Any, own: FieldWords, words: Mapping[str, FieldWords]) -> Document:
    if get_origin(core) is Literal:
        values = get_args(core)
        return {"type": "choice", "choices": [{"value": value, "label": own.choices[value]} for value in values]}
    if core is HeightForm:
        return {"type": "height"}
    if get_origin(core) is list:
        entry, _ = _core(get_args(core)[0], ())
        if entry is PointForm:
            return {"type": "points", "of": list(_fields(PointForm, POINT_LABELS))}
        if isinstance(entry, type) and issubclass(entry, BaseModel):
            return {"type": "list", "of": list(_fields(entry, words))}
        return {"type": "list", "of": _PLAIN[entry]}
    return {"type": "length" if core is float and name[-3:] in _UNITS else _PLAIN[core]}


def _core(annotation: Any, metadata: Any) -> tuple[Any, Document]:
    """(the type beneath `Annotated` and `| None`, its least and most)."""
    limits: Document = {}
    for each in metadata:
        inner = each.metadata if isinstance(each, FieldInfo) else (each,)
        for one in inner:
            limits |= {ours: getattr(one, theirs) for ours, theirs in _BOUNDS if hasattr(one, theirs)}
    if get_origin(annotation) is Annotated:
        core, *inner = get_args(annotation)
        found, own = _core(core, inner)
        return found, own | limits
    if get_origin(annotation) in (Union, UnionType):
        (core,) = (part for part in get_args(annotation) if part is not type(None))
        found, own = _core(core, ())
        return found, own | limits
    return annotation, limits


_BOUNDS: Final = (("least", "ge"), ("most", "le"))
