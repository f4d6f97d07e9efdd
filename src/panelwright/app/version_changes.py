"""What changed from one version of a design or a wearer to the next, in plain words, told from the two documents."""

import json
from collections.abc import Iterator, Mapping
from typing import Any, Final

from panelwright.app.garment_words import garment_fields
from panelwright.app.step_change import step_changes
from panelwright.app.told_field import UNITS, plain_name
from panelwright.app.value_words import Field, value_words
from panelwright.body.measurement_file import read_measurements
from panelwright.body.term import Term
from panelwright.body.terms import TERMS
from panelwright.body.units import Unit, format_angle, format_length
from panelwright.errors import PanelwrightError

Document = Mapping[str, Any]
# Parts of a design besides its steps, and what their sentences begin with.
_PARTS: Final = {"block": "Block", "finish": "Making up", "wearing": "Wearing", "cloth_to_buy": "Cloth"}
_APART: Final = frozenset({"format", "ref", "steps", "title"})


def design_changes(before: Document, after: Document, unit: Unit = Unit.CM) -> tuple[str, ...]:
    """Sentences about what is different: title, steps, and everything else that the document says.

    Args:
        before, after: two `panelwright-design/1` documents.
        unit: of lengths.
    """
    found = []
    if before.get("title") != after.get("title"):
        found.append(f"Title: from “{before.get('title', '')}” to “{after.get('title', '')}”")
    found += step_changes(before.get("steps") or [], after.get("steps") or [], unit)
    for part in [*_PARTS, *sorted({*before, *after} - {*_PARTS} - _APART)]:
        opening = _PARTS.get(part, plain_name(part))
        for way, was, now in _differences((part,), before.get(part), after.get(part)):
            what, field = _field(way)
            words = [value_words(value, field, unit) for value in (was, now)]
            found.append(f"{opening}: {what}, from {words[0]} to {words[1]}")
    return tuple(found)


def _field(way: tuple[str, ...]) -> tuple[str, Field]:
    """(what it is called, how its value is told) of the value that a way leads to, as the page has it."""
    for known in range(len(way), 1, -1):
        if (field := garment_fields().get(".".join(way[:known]))) is not None:
            # A line of a step by its own name: whose step it is says where it lies.
            names = [str(field["label"]), *(plain_name(name.partition("/")[0]) for name in way[known:])]
            return ", ".join(names), field if known == len(way) else {"type": "length", "unit": field.get("unit")}
    measured = next((UNITS[name[-3:]] for name in reversed(way) if name[-3:] in UNITS), None)
    told: Field = {"type": "length", "unit": measured} if measured else {}
    return ", ".join(map(plain_name, way[1:])), told


def wearer_changes(before: Document, after: Document, unit: Unit = Unit.CM) -> tuple[str, ...]:
    """Sentences about measurements that are different. They are private: for whoever measures, and no audience.

    Args:
        before, after: two `panelwright-measurements/1` documents.
        unit: of lengths.
    """
    old, new = _taken(before), _taken(after)
    changed = [term for term in TERMS.values() if old.get(term.id) != new.get(term.id)]
    told = [[_amount(taken.get(term.id), term, unit) for taken in (old, new)] for term in changed]
    return tuple(f"{_opening(term.label)}: from {was} to {now}" for term, (was, now) in zip(changed, told, strict=True))


def _taken(document: Document) -> dict[str, float]:
    """Term -> mm or radians, of what was measured; nothing where the document can no longer be read."""
    try:
        read = read_measurements(json.dumps(document))
    except PanelwrightError:
        return {}
    return {term: read[term] for term in read.taken}


def _amount(value: float | None, term: Term, unit: Unit) -> str:
    if value is None:
        return "not measured"
    return format_angle(value) if term.quantity == "angle" else format_length(value, unit)


def _differences(way: tuple[str, ...], was: object, now: object) -> Iterator[tuple[tuple[str, ...], object, object]]:
    """(the way to it, before, after) of every value that is different, within named values too."""
    if was == now:
        return
    if isinstance(was, Mapping) or isinstance(now, Mapping):
        one, other = (value if isinstance(value, Mapping) else {} for value in (was, now))
        for name in dict.fromkeys([*one, *other]):
            yield from _differences((*way, name), one.get(name), other.get(name))
        return
    yield way, was, now


def _opening(text: str) -> str:
    return text[:1].upper() + text[1:]
