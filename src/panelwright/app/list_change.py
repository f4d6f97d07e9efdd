"""What is different between two lists of entries of one field, such as free points, each told by its number."""

from collections.abc import Iterator, Mapping, Sequence
from difflib import SequenceMatcher
from json import dumps
from typing import Any, Final

from panelwright.app.value_words import Field, height_words, value_words
from panelwright.body.units import Unit

Row = Mapping[str, Any]
_HEIGHT: Final = ("level", "offset_cm", "share_to_next_level")
# What one entry of a list is called; others are called an entry.
_ONE: Final = {"points": "point", "through": "point", "channels": "channel"}


def list_changes(
    field: Field, before: Sequence[Row], after: Sequence[Row], fields: Sequence[Field], unit: Unit
) -> Iterator[str]:
    """What each entry changes, `point 2 of the line, height, from bust to bust, 1.0 cm above`; of one that is taken
    out the number is the one that it had.

    Args:
        field: the field that holds the list.
        before, after: its entries.
        fields: of an entry.
        unit: of lengths.
    """
    name = _ONE.get(str(field.get("name")), "entry")
    labels = {str(own["name"]): own for own in fields}

    def called(k: int) -> str:
        return f"{name} {k + 1} of the line" if field.get("name") == "points" else f"{name} {k + 1}"

    old, new = ([dumps(row, sort_keys=True) for row in rows] for rows in (before, after))
    for _, start, end, at, to in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        both = min(end - start, to - at)
        for k in range(both):
            if old[start + k] != new[at + k]:
                for told in _row_changes(before[start + k], after[at + k], labels, unit):
                    yield f"{called(at + k)}, {told}"
        yield from (f"{called(k)}, taken out" for k in range(start + both, end))
        yield from (f"{called(k)}, added" for k in range(at + both, to))


def _row_changes(before: Row, after: Row, labels: Mapping[str, Field], unit: Unit) -> Iterator[str]:
    """What is different within an entry; level, offset and share are one height to a person."""
    if "level" in labels:
        was, now = (height_words({name: row.get(name) for name in _HEIGHT}, unit) for row in (before, after))
        if was != now:
            yield f"height, from {was} to {now}"
    for name in dict.fromkeys([*before, *after]):
        if ("level" in labels and name in _HEIGHT) or before.get(name) == after.get(name):
            continue
        own = labels.get(name, {"label": name.replace("_", " ")})
        words = [value_words(row.get(name, own.get("default")), own, unit) for row in (before, after)]
        if words[0] != words[1]:
            yield f"{str(own['label']).partition(' (')[0]}, from {words[0]} to {words[1]}"
