"""Wearers and designs that come into a workroom from files, and what becomes of each."""

import json
from dataclasses import dataclass
from typing import Final

from panelwright.app.kept_group import for_wearers, plain_group
from panelwright.app.lays_file import lays_text, read_lays, readable_lays, together
from panelwright.app.workroom_export import FOLDERS, free_ref
from panelwright.app.workroom_faults import NotThereError
from panelwright.app.workroom_item import Item, checked_text, found_item, lay_ref, refuse_size
from panelwright.errors import InputError
from panelwright.quotation import quoted
from panelwright.store.change import NONE_YET, Change
from panelwright.store.version import Kind
from panelwright.store.workroom import Workroom

WHAT: Final = "brought in from a file"
# What goes with wearers, as a sentence calls it.
_OF_WEARERS: Final[dict[Kind, str]] = {"fitting": "fitting notes", "lay": "lays", "group": "garments of the group"}


@dataclass(frozen=True, repr=False)
class BroughtIn:
    """A document that can be saved; it stays out of `repr`, which ends up in logs."""

    kind: Kind
    ref: str
    document: dict[str, object]


@dataclass(frozen=True)
class Imported:
    """What became of an import.

    Attributes:
        saved: (kind, ref) of each new version.
        replaced: of those, how many designs had another version before, which undo brings back.
        unchanged: documents that the workroom holds already, word for word.
        renamed: (reference in the file, reference here) of each wearer that came in under another one, since somebody
            else has it here.
    """

    saved: tuple[tuple[Kind, str], ...]
    replaced: int
    unchanged: int
    renamed: tuple[tuple[str, str], ...] = ()

    def facts(self) -> dict[str, object]:
        """What a page is told."""
        refs = {folder: [ref for own, ref in self.saved if own == kind] for kind, folder in FOLDERS.items()}
        renamed = [{"ref": ref, "now": now} for ref, now in self.renamed]
        return {**refs, "replaced": self.replaced, "unchanged": self.unchanged, "renamed": renamed}


class Arrivals:
    """What is to be saved of the documents that were brought in."""

    def __init__(self, room: Workroom, refs: set[str], groups: set[str]) -> None:
        """`refs` are those of the wearers that come in, `groups` those of the groups."""
        self.changes: list[Change] = []
        self._room = room
        self._taken = refs | {wearer.ref for wearer in room.items("wearer")}
        self._groups = groups
        self._replaced, self._unchanged = 0, 0
        self._renamed: list[tuple[str, str]] = []
        self._here: dict[str, str] = {}  # a wearer's reference in the file -> the one that the same wearer has here

    def imported(self) -> Imported:
        """What became of them, once the changes are saved."""
        saved = tuple((change.kind, change.ref) for change in self.changes)
        return Imported(saved, self._replaced, self._unchanged, tuple(self._renamed))

    def turn(self, each: BroughtIn) -> int:
        """When a document is to be taken: notes, lays and groups after the wearers, of whom those last who have no
        place yet.

        Raises:
            InputError: if it is another size than the table has it.
        """
        if each.kind in _OF_WEARERS:
            return 2
        known = _known(self._room, each)
        return 0 if known is not None and known.document == each.document else 1

    def take(self, each: BroughtIn) -> None:
        """Find out what becomes of a document.

        Raises:
            InputError: if it is another size than the table has it, notes of nobody, or lays or a group of designs or
                wearers that are not there.
        """
        each = self._with_its_garments(each) if each.kind == "group" else self._with_its_wearer(each)
        known = _known(self._room, each)
        if each.kind == "wearer":
            self._here[each.ref] = each.ref  # unless it turns out that somebody else has it here
        if known is None:
            self._save(each, NONE_YET)
        elif known.document == each.document:
            self._unchanged += 1
        elif each.kind == "wearer":
            self._take_namesake(each)
        elif each.kind == "lay":
            self._take_lays(each, known)
        elif each.kind == "group":
            self._take_another_group(each)
        else:
            self._replaced += 1
            self._save(each, known.version)

    def _with_its_wearer(self, each: BroughtIn) -> BroughtIn:
        """Fitting notes and lays go with their wearer, who may have come in under another reference.

        Raises:
            InputError: if there is no such wearer, or no such design of lays, neither in the file nor here.
        """
        if each.kind not in _OF_WEARERS:
            return each
        now, ref = self._wearer_here(str(each.document["wearer"]), each.kind), ""
        if each.kind == "lay":
            self._refuse_unknown_design(str(each.document["design"]), each.kind)
            ref = lay_ref(str(each.document["design"]), now)
        return BroughtIn(each.kind, ref or now, each.document | {"wearer": now})

    def _with_its_garments(self, group: BroughtIn) -> BroughtIn:
        """A group with the references that its wearers have here; raises as `_with_its_wearer`."""
        document = plain_group(group.document)
        garments = document.get("garments", [])
        for design in {own["design"] for own in garments}:
            self._refuse_unknown_design(design, group.kind)
        now = {own["wearer"]: self._wearer_here(own["wearer"], group.kind) for own in garments}
        return BroughtIn(group.kind, group.ref, for_wearers(document, now))

    def _wearer_here(self, wearer: str, kind: Kind) -> str:
        """The reference that a wearer of the file has here; who is not in the file is here already."""
        return self._here.get(wearer) or _here_already(self._room, wearer, _OF_WEARERS[kind])

    def _refuse_unknown_design(self, design: str, kind: Kind) -> None:
        if any((change.kind, change.ref) == ("design", design) for change in self.changes):
            return
        try:
            found_item(self._room, "design", design)
        except NotThereError as error:
            raise InputError(
                f"the {_OF_WEARERS[kind]} are of {quoted(design)}, which the workroom does not have: "
                "bring it in with them",
                "design",
            ) from error

    def _take_lays(self, each: BroughtIn, known: Item) -> None:
        """Lays of a garment that has some here: those for other pieces or other cloth stay beside them."""
        own = read_lays(json.dumps(each.document))
        here = readable_lays(known.text)
        both = json.loads(lays_text(own if here is None else together(own, here)))
        if both == known.document:
            self._unchanged += 1
        else:
            self._save(BroughtIn(each.kind, each.ref, both), known.version)

    def _take_namesake(self, each: BroughtIn) -> None:
        """A wearer whose reference somebody else has; brought in for the second time, it is there already."""
        wearers = (own for own in self._room.items("wearer") if own.ref not in self._here.values())
        same = (own.ref for own in wearers if json.loads(own.document or "{}") | {"ref": each.ref} == each.document)
        if (known := next(same, None)) is not None:
            self._here[each.ref] = known
            self._unchanged += 1
            return
        ref = self._here[each.ref] = self._free()
        self._renamed.append((each.ref, ref))
        self._save(BroughtIn("wearer", ref, each.document | {"ref": ref}), NONE_YET)

    def _take_another_group(self, each: BroughtIn) -> None:
        """A group whose reference another one has here: it stands beside that, unless it does already."""
        groups = self._room.items("group")
        if any(json.loads(own.document or "{}") | {"ref": each.ref} == each.document for own in groups):
            self._unchanged += 1
            return
        taken = {own.ref for own in groups} | {change.ref for change in self.changes if change.kind == "group"}
        taken |= self._groups
        ref = next(ref for number in range(1, len(taken) + 2) if (ref := f"group-{number}") not in taken)
        self._save(BroughtIn("group", ref, each.document | {"ref": ref}), NONE_YET)

    def _free(self) -> str:
        """A reference that nobody has, nor ever had: what was removed may still have versions."""
        while self._room.found("wearer", ref := free_ref(self._taken)) is not None:
            self._taken.add(ref)
        self._taken.add(ref)
        return ref

    def _save(self, each: BroughtIn, based_on: int) -> None:
        text = checked_text(each.kind, each.ref, each.document)
        self.changes.append(Change(each.kind, each.ref, text, WHAT, based_on))


def _here_already(room: Workroom, wearer: str, what: str) -> str:
    """The reference of a wearer whose notes or lays come without measurements.

    Raises:
        InputError: if the workroom has no such wearer.
    """
    try:
        return found_item(room, "wearer", wearer).ref
    except NotThereError as error:
        raise InputError(
            f"the {what} are of {quoted(wearer)}, whom the workroom does not have: bring in the measurements with them",
            "wearer",
        ) from error


def _known(room: Workroom, each: BroughtIn) -> Item | None:
    """What the workroom holds under the reference.

    Raises:
        InputError: if that is a size of the table, and another one was sent.
    """
    try:
        found = found_item(room, each.kind, each.ref)
    except NotThereError:
        return None
    if found.document != each.document:
        refuse_size(each.kind, each.ref)
    return found
