"""Every version of a wearer or design: its words, its time, and the document that it was."""

from panelwright.app.workroom_faults import NotThereError
from panelwright.app.workroom_item import Item, found_item
from panelwright.store.version import Kind, Version
from panelwright.store.workroom import Workroom


def history_facts(room: Workroom, kind: Kind, ref: str) -> dict[str, object]:
    """The versions of an item, the newest first, ready for JSON; those that were undone are among them.

    Raises:
        NotThereError: if there is none, or it was removed.
    """
    current = found_item(room, kind, ref).version
    versions = reversed(room.history(kind, ref))
    return {"versions": [_facts(version, current) for version in versions]}


def earlier_item(room: Workroom, kind: Kind, ref: str, number: int) -> Item:
    """An item as it was in one of its versions.

    Raises:
        NotThereError: if it has no such version, or was removed in it.
    """
    found_item(room, kind, ref)
    for version in room.history(kind, ref):
        if version.number == number and version.document is not None:
            return Item(kind, ref, version.document, number)
    raise NotThereError(f"the {kind} has no version {number}: choose one of its list", "version")


def _facts(version: Version, current: int) -> dict[str, object]:
    return {
        "version": version.number,
        "what": version.what,
        "made_at": version.made_at,
        "current": version.number == current,
        "removed": version.document is None,
    }
