"""One wearer, design or traced block of the workroom as a page reads and changes it: a document and its version."""

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from panelwright.app.design_file import read_design
from panelwright.app.fitting_file import read_fitting
from panelwright.app.garment_design import REF_PATTERN as DESIGN_REF
from panelwright.app.kept_group import plain_group, read_group, without_wearer
from panelwright.app.lays_file import read_lays
from panelwright.app.trace_file import read_trace
from panelwright.app.workroom_faults import ChangedElsewhereError, NotThereError
from panelwright.app.workroom_start import SIZE_REFS, size_text
from panelwright.body.measurement_file import read_measurements
from panelwright.body.measurements import REF_PATTERN as WEARER_REF
from panelwright.errors import InputError
from panelwright.quotation import quoted
from panelwright.store.change import StaleError
from panelwright.store.version import Kind, Version
from panelwright.store.workroom import Workroom

LONGEST_WHAT: Final = 120
_LISTS: Final = {
    "wearer": "wearers",
    "design": "designs",
    "trace": "traced blocks",
    "fitting": "wearers",
    "lay": "garments",
    "group": "groups",
}
_NAMES: Final = {
    "wearer": "wearer",
    "design": "design",
    "trace": "traced block",
    "fitting": "list of fitting notes",
    "lay": "list of lays",
    "group": "group",
}
# Known by a wearer's reference.
_OF_WEARERS: Final = ("wearer", "fitting")


@dataclass(frozen=True, repr=False)
class Item:
    """A wearer, design, traced block or fitting notes at one version; the text stays out of `repr`, which ends in logs.

    Attributes:
        text: of its document, checked when it was saved.
        version: 0 for a size of our table, which is nobody's to change.
        notes: of a wearer, the text of the fitting notes where a garment is drawn on them; else empty.
    """

    kind: Kind
    ref: str
    text: str
    version: int
    can_undo: bool = False
    can_redo: bool = False
    notes: str = ""

    @property
    def document(self) -> dict[str, object]:
        """The document, read."""
        read: dict[str, object] = json.loads(self.text)
        return read

    def facts(self) -> dict[str, object]:
        """What a page is told."""
        return {
            "document": self.document,
            "version": self.version,
            "can_undo": self.can_undo,
            "can_redo": self.can_redo,
        }


def found_item(room: Workroom, kind: Kind, ref: str) -> Item:
    """The current version of an item; a size of our table is there without having been saved.

    Raises:
        NotThereError: if there is none, or it was removed.
    """
    if kind == "wearer" and (text := size_text(ref)) is not None:
        return Item(kind, ref, text, 0)
    if not _may_be(kind, ref):
        raise _not_there(kind, ref)
    found = room.found(kind, ref)
    if found is None:
        raise _not_there(kind, ref)
    return _item(found)


def saved_item(
    room: Workroom, kind: Kind, ref: str, document: Mapping[str, object], what: str, based_on: int | None = None
) -> Item:
    """A new version of an item, checked before it is saved; of a group, which is changed field by field, only the last.

    Args:
        document: of the kind's format, with `ref` in it.
        what: the change in a person's words, one line of at most 120 characters.
        based_on: number of the version that was changed, or `NONE_YET`.

    Raises:
        ChangedElsewhereError: if the current version is another one.
        InputError: if the document cannot be used.
        NotThereError: if it is fitting notes or a group of a wearer whom the workroom does not have.
    """
    refuse_size(kind, ref)
    text = checked_text(kind, ref, document)
    change = text, checked_what(what), based_on
    try:
        with room.as_one():  # nobody is removed in between: whoever gets the reference next would inherit what is saved
            if kind == "group":
                saved = room.keep(kind, ref, *change)
                for own in read_group(text).garments:
                    found_item(room, "wearer", own.wearer)
                return _item(saved)
            if kind == "fitting":
                found_item(room, "wearer", ref)
            return _item(room.save(kind, ref, *change))
    except StaleError as error:
        raise ChangedElsewhereError(str(error), ref) from error


def removed_item(room: Workroom, kind: Kind, ref: str) -> None:
    """Take an item off the list. A design's versions stay, and undo brings it back; a wearer's measurements, fitting
    notes and a block that was traced tell of a body, and no version of them stays. Notes and lays go with their wearer,
    and so do the garments that are for them in groups.

    Raises:
        NotThereError: if there is none.
    """
    refuse_size(kind, ref)
    with room.as_one():
        found_item(room, kind, ref)
        if kind == "design":
            room.save(kind, ref, None, "removed")
        else:
            room.forget(kind, ref)
        if kind == "wearer":
            room.forget("fitting", ref)
            for lays in room.items("lay"):
                if lays.ref.endswith(f"/{ref}"):
                    room.forget("lay", lays.ref)
            _leave_groups(room, ref)


def _leave_groups(room: Workroom, wearer: str) -> None:
    """Take a wearer's garments out of every group."""
    for group in room.items("group"):
        document = json.loads(group.document or "{}")
        without = without_wearer(document, wearer)
        if without != document:
            room.keep("group", group.ref, json.dumps(without, ensure_ascii=False, indent=2), "a wearer removed")


def undone_item(room: Workroom, kind: Kind, ref: str) -> Item:
    """The item one version back, past any that removed it; where there is none, nothing happens.

    Raises:
        NotThereError: if there never was one.
    """
    return _moved(room, kind, ref, back=True)


def redone_item(room: Workroom, kind: Kind, ref: str) -> Item:
    """The item one version on, past any that removed it; where there is none, nothing happens.

    Raises:
        NotThereError: if there never was one.
    """
    return _moved(room, kind, ref, back=False)


def checked_text(kind: Kind, ref: str, document: Mapping[str, object]) -> str:
    """The text of a document that a wearer or design with this reference can have.

    Raises:
        InputError: one sentence with the field.
    """
    try:
        text = json.dumps(document, ensure_ascii=False, indent=2, allow_nan=False)
        text.encode()
    except (ValueError, RecursionError) as error:  # NaN, half a surrogate pair, nested too deep
        raise InputError("the document holds what JSON cannot say: give figures and plain text", "document") from error
    own = _ref_in(kind, text)
    if own != ref:
        raise InputError(
            f"the document is called {quoted(own)}, but {quoted(ref)} was to be saved: give both the same ref", "ref"
        )
    return json.dumps(plain_group(dict(document)), ensure_ascii=False, indent=2) if kind == "group" else text


def _ref_in(kind: Kind, text: str) -> str:
    """The reference that a document bears; InputError if it is none of its kind."""
    match kind:
        case "design":
            return read_design(text).ref
        case "trace":
            return read_trace(text).ref
        case "wearer":
            return read_measurements(text).ref
        case "fitting":
            return read_fitting(text).wearer
        case "group":
            return read_group(text).ref
        case "lay":
            lays = read_lays(text)
            return lay_ref(lays.design, lays.wearer)


def lay_ref(design: str, wearer: str) -> str:
    """What the lays of a garment are known by."""
    return f"{design}/{wearer}"


def checked_what(what: str) -> str:
    """The words for a change.

    Raises:
        InputError: unless it is one line of 1 to 120 characters.
    """
    words = what.strip()
    if not (words and len(words) <= LONGEST_WHAT and words.isprintable()):
        raise InputError(f"what was changed is told in one line of 1 to {LONGEST_WHAT} characters", "what")
    return words


def _moved(room: Workroom, kind: Kind, ref: str, back: bool) -> Item:
    if not _may_be(kind, ref) or room.found(kind, ref) is None:
        raise _not_there(kind, ref)
    return _item(room.undo(kind, ref) if back else room.redo(kind, ref))


def _item(version: Version) -> Item:
    if version.document is None:
        raise _not_there(version.kind, version.ref)
    return Item(version.kind, version.ref, version.document, version.number, version.can_undo, version.can_redo)


def _may_be(kind: Kind, ref: str) -> bool:
    """Whether a reference is one at all: others are not looked up, and not repeated in an answer."""
    if kind == "lay":
        design, _, wearer = ref.partition("/")
        return _may_be("design", design) and _may_be("wearer", wearer)
    return re.fullmatch(WEARER_REF if kind in _OF_WEARERS else DESIGN_REF, ref) is not None


def _not_there(kind: Kind, ref: str) -> NotThereError:
    named = f" {quoted(ref)}" if _may_be(kind, ref) else " of this reference"
    return NotThereError(f"there is no {_NAMES[kind]}{named} in the workroom; choose one of its {_LISTS[kind]}", "ref")


def refuse_size(kind: Kind, ref: str) -> None:
    """Refuse to change a size of our table.

    Raises:
        InputError: if the reference is one of a size.
    """
    if kind == "wearer" and ref in SIZE_REFS:
        raise InputError(
            f"{ref} is a size of the table, which stays as it is: save your measurements under a ref of their own",
            "ref",
        )
