"""The first fault of a record as a sentence: which field, what is wrong, what would be right."""

import difflib
import re
from collections.abc import Iterable
from types import UnionType
from typing import Any, Union, get_args, get_origin

from pydantic import BaseModel, ValidationError

from panelwright.quotation import quoted

Place = tuple[int | str, ...]

_KINDS = {
    "float_type": "must be a number",
    "int_type": "must be a whole number",
    "int_from_float": "must be a whole number",
    "string_type": "must be a text in quotes",
    "bool_type": "must be true or false",
    "list_type": "must be a list in brackets [ ]",
    "dict_type": "must hold named values in braces { }",
    "model_type": "must hold named values in braces { }",
    "model_attributes_type": "must hold named values in braces { }",
    "finite_number": "must be a finite number",
}
_LIMITS = {
    "greater_than_equal": "the least is",
    "less_than_equal": "the most is",
    "greater_than": "it must be more than",
    "less_than": "it must be less than",
}


def sentence(error: ValidationError, record: type[BaseModel]) -> tuple[str, str]:
    """(what is wrong, the field at fault) for the first fault that was found in a record."""
    fault = error.errors(include_url=False)[0]
    place, kind = fault["loc"], fault["type"]
    where = field_path(place)
    if kind == "missing":
        return f"{where} is missing", where
    if kind == "extra_forbidden":
        inside = field_path(place[:-1])
        remedy = nearest(str(place[-1]), known_fields(record, place[:-1]))
        return f"{quoted(str(place[-1]))} is not a known field{f' of {inside}' if inside else ''}; {remedy}", where
    if kind == "literal_error":
        choices = re.findall(r"'([^']*)'", fault["ctx"]["expected"]) or [fault["ctx"]["expected"]]
        return f"{where} is {_shown(fault['input'])}; {nearest(str(fault['input']), choices)}", where
    if kind == "too_long":
        return f"{where} has {fault['ctx']['actual_length']} entries; the most is {fault['ctx']['max_length']}", where
    if kind == "too_short":
        return f"{where} has {fault['ctx']['actual_length']} entries; the least is {fault['ctx']['min_length']}", where
    if kind in _LIMITS:
        (limit,) = fault["ctx"].values()
        return f"{where} is {_shown(fault['input'])}; {_LIMITS[kind]} {limit:.12g}", where
    if kind == "value_error":
        return f"{where}: {fault['ctx']['error']}", where
    if kind in _KINDS:
        return f"{where} {_KINDS[kind]}, not {_shown(fault['input'])}", where
    message = fault["msg"].removeprefix("Value error, ").replace("Input should", "should")
    return f"{where} {message[0].lower()}{message[1:]}", where


def field_path(place: Place) -> str:
    """`block.seams[1].line`, counting from 1 as people do."""
    path = ""
    for step in place:
        path += f"[{step + 1}]" if isinstance(step, int) else f".{step}" if path else step
    return path


def nearest(name: str, known: Iterable[str]) -> str:
    """What to write instead: the closest of the known names, or all of them."""
    names = tuple(known)
    near = difflib.get_close_matches(name[:80].lower(), names, n=1, cutoff=0.55)
    return f"did you mean {near[0]}?" if near else f"those known are {', '.join(names)}"


def known_fields(record: type[BaseModel], place: Place) -> tuple[str, ...]:
    """The names that the record at a place may hold, as they stand in the file."""
    here: Any = record
    for step in place:
        if isinstance(step, str) and _is_record(here):
            here = next((f.annotation for key, f in here.model_fields.items() if (f.alias or key) == step), None)
        elif isinstance(step, int):
            here = next(iter(get_args(here)), None)
        elif get_origin(here) is dict:
            here = get_args(here)[1]
        if get_origin(here) in (Union, UnionType):
            here = next((part for part in get_args(here) if _is_record(part)), None)
    if not _is_record(here):
        return ()
    return tuple(field.alias or key for key, field in here.model_fields.items())


def _is_record(value: object) -> bool:
    return isinstance(value, type) and issubclass(value, BaseModel)


def _shown(value: object) -> str:
    match value:
        case str():
            return quoted(value)
        case bool():
            return str(value).lower()
        case int() | float():
            return f"{value:g}" if abs(value) < 1e15 else "a huge number"
        case None:
            return "null"
        case list():
            return "a list"
        case _:
            return "named values"
