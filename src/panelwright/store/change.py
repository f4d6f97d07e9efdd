"""One change that is to be saved, and how it becomes the current version of its item."""

import sqlite3
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Final

from panelwright.errors import StoreError
from panelwright.quotation import quoted
from panelwright.store.version import Kind

# What the first version of an item is based on: versions count from 1.
NONE_YET: Final = 0


class StaleError(StoreError):
    """What was changed is not the current version; nothing was saved."""


@dataclass(frozen=True, repr=False)
class Change:
    """What an item is to become; its document stays out of `repr`, which ends up in logs.

    Attributes:
        document: the text of its file; None removes the item.
        what: the change in a person's words.
        based_on: number of the version that was changed, to notice that another page has changed it since; `NONE_YET`
            where there must be no such item, or only a removed one; None saves whatever the current version is.
    """

    kind: Kind
    ref: str
    document: str | None
    what: str
    based_on: int | None = None


def put(connection: sqlite3.Connection, change: Change, above: int = 0) -> None:
    """Save a change within the transaction that is under way.

    Args:
        above: the version's number is higher than this, as it is higher than every other in the file.

    Raises:
        StaleError: if the item was changed elsewhere since the version that the change is based on.
    """
    item = (change.kind, change.ref)
    found = connection.execute(
        "SELECT id, document FROM change WHERE id = (SELECT change FROM item WHERE kind = ? AND ref = ?)", item
    ).fetchone()
    before, document = found or (None, None)
    _refuse_stale(change, (before, NONE_YET) if document is None else (before,))
    made = connection.execute(
        "INSERT INTO change (id, kind, ref, document, what, made_at, before) "
        "VALUES ((SELECT max(coalesce(max(id), 0), ?) + 1 FROM change), ?, ?, ?, ?, ?, ?)",
        (above, *item, change.document, change.what, datetime.now(UTC).isoformat(timespec="seconds"), before),
    ).lastrowid
    connection.execute("UPDATE change SET after = ? WHERE id = ?", (made, before))
    connection.execute("INSERT OR REPLACE INTO item VALUES (?, ?, ?)", (*item, made))


def _refuse_stale(change: Change, current: tuple[int | None, ...]) -> None:
    if change.based_on is None or change.based_on in current:
        return
    named = f"{change.kind} {quoted(change.ref)}"
    if change.based_on == NONE_YET:
        raise StaleError(f"{named} is there already; save this one under another ref", change.ref)
    raise StaleError(
        f"{named} was changed elsewhere meanwhile; look at the newer version and make the change again", change.ref
    )
