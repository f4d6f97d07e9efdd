"""Every version of a wearer or design: its words, its time, and the document that it was."""

import json
from collections.abc import Callable
from typing import Final

from panelwright.app.version_changes import Document, design_changes, wearer_changes
from panelwright.app.version_heading import retold
from panelwright.app.workroom_faults import NotThereError
from panelwright.app.workroom_item import Item, found_item
from panelwright.body.units import Unit
from panelwright.store.version import Kind, Version
from panelwright.store.workroom import Workroom

_TELL: Final[dict[Kind, Callable[[Document, Document, Unit], tuple[str, ...]]]] = {
    "design": design_changes,
    "wearer": wearer_changes,
}


def history_facts(room: Workroom, kind: Kind, ref: str, unit: Unit = Unit.CM) -> dict[str, object]:
    """The versions of an item, the newest first, ready for JSON; those that were undone are among them.

    Args:
        unit: of the lengths in what changed.

    Raises:
        NotThereError: if there is none, or it was removed.
    """
    current = found_item(room, kind, ref).version
    versions = room.history(kind, ref)
    known = {version.number: version for version in versions}
    return {
        "versions": [
            _facts(version, current)
            | {"what": _heading(version, known.get(version.before or 0))}
            | {"changes": _changes(version, known.get(version.before or 0), unit)}
            for version in reversed(versions)
        ]
    }


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


def _heading(version: Version, before: Version | None) -> str:
    """What was done, by the name that a step has since: it was saved by the one that it had."""
    if version.kind != "design" or before is None or before.document is None or version.document is None:
        return version.what
    return retold(version.what, json.loads(before.document), json.loads(version.document))


def _changes(version: Version, before: Version | None, unit: Unit) -> list[str]:
    """What is different from the version that it was made from; nothing of one that begins or removes the item."""
    if before is None or before.document is None or version.document is None:
        return []
    if version.kind not in _TELL:  # others have only the words of their versions
        return []
    return list(_TELL[version.kind](json.loads(before.document), json.loads(version.document), unit))


def _facts(version: Version, current: int) -> dict[str, object]:
    return {
        "version": version.number,
        "what": version.what,
        "made_at": version.made_at,
        "current": version.number == current,
        "removed": version.document is None,
    }
