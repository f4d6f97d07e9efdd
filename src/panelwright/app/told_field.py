"""One field of a form as a page is told of it: its label, its kind, choices and limits.

It is made from the form that reads a file, so a page offers what a file may hold, and nothing else.
"""

from collections.abc import Mapping
from types import UnionType
from typing import Annotated, Any, Final, Literal, Union, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from panelwright.app.field_words import FieldWords
from panelwright.app.step_labels import PLACE_LABELS, POINT_LABELS
from panelwright.design.place_form import PlaceForm
from panelwright.design.step_form import HeightForm, PointForm

Document = dict[str, Any]
UNITS: Final = {"_cm": "cm", "_mm": "mm"}
_PLAIN: Final = {bool: "switch", int: "whole", float: "number", str: "text"}
_BOUNDS: Final = (("least", "ge"), ("most", "le"))


def told_field(
    name: str, info: FieldInfo, own: FieldWords, words: Mapping[str, FieldWords], unit: str | None = None
) -> Document:
    """What docs/board.md calls a field.

    Args:
        name: as it stands in the file.
        info: what the form says of it.
        own: its words.
        words: of the fields of its entries, if it is a list.
        unit: of a length whose name does not tell its unit.
    """
    unit = UNITS.get(name[-3:], unit)
    core, limits = core_type(info.annotation, info.metadata)
    told: Document = {"name": name, "label": own.label, **_type(core, own, words, unit)}
    if own.about:
        told["about"] = own.about
    if unit and told["type"] in ("length", "widths"):
        told["unit"] = unit
    told |= limits
    if own.limits:
        told |= dict(zip(("least", "most"), own.limits, strict=True))
    if own.usual:
        told["usual"] = own.usual
    if own.like:
        told["like"] = own.like
    if own.when:
        told["when"] = {field: list(values) for field, values in own.when.items()}
    told["optional"] = not info.is_required()
    if isinstance(info.default, bool | int | float | str):
        told["default"] = info.default
    return told


def core_type(annotation: Any, metadata: Any = ()) -> tuple[Any, Document]:
    """(the type beneath `Annotated` and `| None`, its least and most).

    Of a choice that may be said as true or false too, the choice.
    """
    limits: Document = {}
    for each in metadata:
        inner = each.metadata if isinstance(each, FieldInfo) else (each,)
        for one in inner:
            limits |= {ours: getattr(one, theirs) for ours, theirs in _BOUNDS if hasattr(one, theirs)}
    if get_origin(annotation) is Annotated:
        core, *inner = get_args(annotation)
        found, own = core_type(core, inner)
        return found, own | limits
    if get_origin(annotation) in (Union, UnionType):
        parts = [part for part in get_args(annotation) if part is not type(None)]
        (core,) = [part for part in parts if get_origin(part) is Literal] or parts
        found, own = core_type(core)
        return found, own | limits
    return annotation, limits


def _type(core: Any, own: FieldWords, words: Mapping[str, FieldWords], unit: str | None) -> Document:
    values = get_args(core) if get_origin(core) is Literal else tuple(own.choices)
    if values:
        return {"type": "choice", "choices": [_choice(value, own) for value in values]}
    if core is HeightForm:
        return {"type": "height"}
    if core is PlaceForm:
        return {"type": "place", "of": told_fields(PlaceForm, PLACE_LABELS)}
    if get_origin(core) is dict:
        return {"type": "widths"}
    if get_origin(core) is list:
        entry, _ = core_type(get_args(core)[0])
        if entry is PointForm:
            return {"type": "points", "of": told_fields(PointForm, POINT_LABELS)}
        if isinstance(entry, type) and issubclass(entry, BaseModel):
            return {"type": "list", "of": told_fields(entry, words)}
        return {"type": "list", "of": _PLAIN[entry]}
    return {"type": "length" if core is float and unit else _PLAIN[core]}


def _choice(value: str, own: FieldWords) -> Document:
    also = [other for other, meant in own.also.items() if meant == value]
    return {
        "value": value,
        "label": own.choices.get(value, value.replace("_", " ")),
        **({"also": also} if also else {}),
    }


def plain_name(name: str) -> str:
    """`hem facing width` for `hem_facing_width_cm`, for what nobody has given words to yet."""
    return (name[:-3] if name[-3:] in UNITS else name).replace("_", " ").replace("-", " ")


def told_fields(record: type[BaseModel], words: Mapping[str, FieldWords], leave_out: str = "") -> list[Document]:
    """All fields of a record but one."""
    named = {info.alias or attribute: info for attribute, info in record.model_fields.items()}
    return [told_field(name, info, words[name], words) for name, info in named.items() if name != leave_out]
