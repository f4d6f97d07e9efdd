"""Reading and writing a wearer's fitting notes, format `panelwright-fitting/1`.

    {"format": "panelwright-fitting/1", "wearer": "w-07", "date": "2026-11-20", "notes": [
      {"uid": "n1", "kind": "take-in", "seam": "back-princess", "level": "waist", "amount_cm": 0.8,
       "nothing_above": "bust"},
      {"uid": "n2", "kind": "lengthen", "place": "above-waist", "amount_cm": 1, "off": true}]}

Lengths are in centimetres; a text may name its own unit ("3/8 in"). docs/fitting-file.md describes every field.
"""

import json
from collections.abc import Mapping
from datetime import date
from pathlib import Path
from types import MappingProxyType
from typing import Annotated, Final, Literal

from pydantic import Field

from panelwright.app.block_record import CM, Record
from panelwright.app.field_fault import nearest
from panelwright.app.record_text import record_in
from panelwright.body.length_field import Centimetres
from panelwright.errors import InputError
from panelwright.fitting.fitting import MOST_NOTES, Fitting, FittingNote
from panelwright.fitting.full_bust import FullBust
from panelwright.fitting.length_note import LengthNote
from panelwright.fitting.seam_note import SeamNote
from panelwright.fitting.shoulder_note import ShoulderNote
from panelwright.fitting.strap_note import StrapNote
from panelwright.fitting.sway_back import SwayBack
from panelwright.json_text import read_text
from panelwright.quotation import quoted
from panelwright.saved_file import save

FORMAT: Final = "panelwright-fitting/1"
# Kind -> (required fields, further fields).
FIELDS: Final[Mapping[str, tuple[tuple[str, ...], tuple[str, ...]]]] = MappingProxyType(
    {
        **dict.fromkeys(
            ("take-in", "let-out"),
            (("seam", "level", "amount_cm"), ("above_cm", "nothing_above", "nothing_below")),
        ),
        **dict.fromkeys(("lengthen", "shorten"), (("place", "amount_cm"), ())),
        "sway-back": (("amount_cm",), ()),
        "full-bust": (("width_cm", "length_cm"), ()),
        **dict.fromkeys(("square-shoulder", "sloping-shoulder", "forward-shoulder"), (("amount_cm",), ())),
        **dict.fromkeys(("strap-shorter", "strap-longer"), (("amount_cm",), ())),
    }
)


class NoteRecord(Record):
    """One note; which fields it has depends on its kind."""

    uid: str | None = None
    kind: str
    off: bool = False
    seam: str | None = None
    level: str | None = None
    above_cm: Centimetres | None = None
    nothing_above: str | None = None
    nothing_below: str | None = None
    place: str | None = None
    amount_cm: Centimetres | None = None
    width_cm: Centimetres | None = None
    length_cm: Centimetres | None = None


class FittingRecord(Record):
    """A fitting file."""

    format: Literal["panelwright-fitting/1"]
    wearer: str
    date: str | None = None
    notes: Annotated[list[NoteRecord], Field(max_length=MOST_NOTES)] = Field(default_factory=list)


def load_fitting(path: Path) -> Fitting:
    """The fitting in a file.

    Raises:
        InputError: if it cannot be read or holds what cannot be used; the message begins with the file's name.
    """
    text = read_text(path, "that is more than fitting notes need")
    try:
        return read_fitting(text)
    except InputError as error:
        raise InputError(f"{quoted(path.name)}: {error}", error.where) from error


def read_fitting(text: str) -> Fitting:
    """The fitting in the text of a file.

    Raises:
        InputError: if the text is not of this format; the message names the field.
    """
    record = record_in(text, FittingRecord, FORMAT, "give the fitting notes after --fitting")
    uids = [note.uid or f"note-{number}" for number, note in enumerate(record.notes, 1)]
    numbered = enumerate(zip(record.notes, uids, strict=True), 1)
    notes = tuple(_note(note, uid, number) for number, (note, uid) in numbered)
    off = frozenset(uid for note, uid in zip(record.notes, uids, strict=True) if note.off)
    return Fitting(record.wearer, notes, off, _day(record.date))


def fitting_document(fitting: Fitting) -> dict[str, object]:
    """The fitting, ready for JSON."""
    document: dict[str, object] = {"format": FORMAT, "wearer": fitting.wearer}
    if fitting.made_on is not None:
        document["date"] = fitting.made_on.isoformat()
    return document | {"notes": [_entry(note, note.uid in fitting.off) for note in fitting.notes]}


def save_fitting(fitting: Fitting, path: Path) -> None:
    """Write a fitting to a file; it is there whole or not at all.

    Raises:
        OutputError: if it cannot be written.
    """
    save(path, (json.dumps(fitting_document(fitting), ensure_ascii=False, indent=2) + "\n").encode())


def _day(text: str | None) -> date | None:
    try:
        return None if text is None else date.fromisoformat(text)
    except ValueError as error:
        raise InputError(f"date is {quoted(text or '')}; write a day like 2026-11-20", "date") from error


def _note(record: NoteRecord, uid: str, number: int) -> FittingNote:
    where = f"notes[{number}]"
    if record.kind not in FIELDS:
        raise InputError(f"{where}.kind is {quoted(record.kind)}; {nearest(record.kind, FIELDS)}", f"{where}.kind")
    needed, further = FIELDS[record.kind]
    given = record.model_dump(exclude_none=True, exclude={"uid", "kind", "off"})
    for field in needed:
        if field not in given:
            raise InputError(f"{where}.{field} is missing: {record.kind} needs {', '.join(needed)}", f"{where}.{field}")
    for field in given:
        if field not in (*needed, *further):
            raise InputError(
                f"{where}.{field} has no meaning for {record.kind}; it takes {', '.join((*needed, *further))}",
                f"{where}.{field}",
            )
    try:
        return _made(record.kind, uid, given)
    except InputError as error:
        raise InputError(f"{where}: {error}", f"{where}.{error.where}" if error.where else where) from error


def _made(kind: str, uid: str, given: dict[str, object]) -> FittingNote:
    fields = {
        name.removesuffix("_cm"): value * CM if isinstance(value, float | int) else value
        for name, value in given.items()
    }
    way, _, noun = kind.partition("-")
    make: type[FittingNote]
    match kind:
        case "take-in" | "let-out":
            make, fields = SeamNote, {"way": kind, **fields}
        case "lengthen" | "shorten":
            make, fields = LengthNote, {"way": kind, **fields}
        case "sway-back":
            make = SwayBack
        case "full-bust":
            make = FullBust
        case "strap-shorter" | "strap-longer":
            make, fields = StrapNote, {"way": noun, **fields}
        case _:
            make, fields = ShoulderNote, {"shape": way, **fields}
    note: FittingNote = make(uid, **fields)  # type: ignore[arg-type]  # checked by the record and the note
    return note


def _entry(note: FittingNote, off: bool) -> dict[str, object]:
    needed, further = FIELDS[note.kind]
    entry: dict[str, object] = {"uid": note.uid, "kind": note.kind}
    for field in (*needed, *further):
        value = getattr(note, field.removesuffix("_cm"))
        if field in needed or value:
            entry[field] = round(value / CM, 9) if field.endswith("_cm") else value
    return entry | ({"off": True} if off else {})
