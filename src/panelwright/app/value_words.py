"""What a field of a design says, in words: `top hip, 2.0 cm below`, `lacing`, `as usual`."""

from collections.abc import Mapping
from typing import Any, Final

from panelwright.body.units import Unit, format_length, parse_length
from panelwright.errors import InputError

Field = Mapping[str, Any]
USUAL: Final = "as usual"
_SWITCH: Final = {True: "yes", False: "no"}


def value_words(value: object, field: Field, unit: Unit) -> str:
    """A value of a field of the vocabulary.

    Args:
        value: as the document has it; None where it is left out.
        field: `type`, `unit` and `choices` of it, as `step_vocabulary` tells them.
        unit: of lengths.
    """
    if value is None:
        return USUAL
    kind = field.get("type")
    for choice in field.get("choices", ()):
        if choice["value"] == value:
            return str(choice["label"])
    if isinstance(value, bool):
        return _SWITCH[value]
    if kind == "length" or (isinstance(value, str) and field.get("unit")):
        return _length(value, str(field.get("unit", "cm")), unit)
    if isinstance(value, Mapping):
        return height_words(value, unit)
    if isinstance(value, list):
        return _list_words(value)
    return f"{value:g}" if isinstance(value, float | int) else _spoken(str(value))


def height_words(height: Mapping[str, object], unit: Unit) -> str:
    """`top hip`, `waist, 2.0 cm below`, `bust, 0.5 of the way to the next level`."""
    level = _spoken(str(height.get("level", "")))
    offset, share = height.get("offset_cm"), height.get("share_to_next_level")
    if isinstance(share, int | float) and share:
        return f"{level}, {abs(share):g} of the way to the next level {'up' if share > 0 else 'down'}"
    if offset in (None, 0):
        return level
    text = _length(offset, "cm", unit)
    return f"{level}, {text[1:]} below" if text.startswith("-") else f"{level}, {text} above"


def _length(value: object, told_in: str, unit: Unit) -> str:
    if isinstance(value, int | float):
        mm = value * Unit(told_in).millimetres
        return format_length(mm, Unit.MM if told_in == "mm" else unit)
    text = str(value).strip()
    sign = -1 if text[:1] in "-−" else 1
    try:
        return format_length(sign * parse_length(text.lstrip("+-−"), Unit(told_in)), unit)
    except InputError:
        return text


def _list_words(entries: list[object]) -> str:
    if all(isinstance(entry, str) for entry in entries):
        return ", ".join(_spoken(str(entry)) for entry in entries) or "none"
    return f"{len(entries)}" if entries else "none"


def _spoken(name: str) -> str:
    return name.replace("-", " ").replace("_", " ")
