"""A workroom: one SQLite file with every version of every wearer and design."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from threading import RLock
from typing import Self

from panelwright.errors import StoreError
from panelwright.quotation import quoted
from panelwright.store.schema import brought_up_to_date
from panelwright.store.version import Kind, Version

_COLUMNS = "id, kind, ref, document, what, made_at, before IS NOT NULL, after IS NOT NULL"


class Workroom:
    """Saved work. Every change is a version, on the disk before the call returns; undo goes back without limit.

    Undone versions stay until the file is deleted: a new change after an undo starts a branch of its own. Several
    threads, and several programs, may use one file.
    """

    def __init__(self, path: Path) -> None:
        """Open a workroom, or make it if it is not there.

        Raises:
            StoreError: if the file is no workroom or cannot be opened.
        """
        self._connection = brought_up_to_date(path)
        self._lock = RLock()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_error: object) -> None:
        self.close()

    def close(self) -> None:
        """Close the file; nothing needs saving."""
        self._connection.close()

    def items(self, kind: Kind) -> tuple[Version, ...]:
        """The current version of everything of a kind that is not removed, by reference."""
        rows = self._rows(
            f"SELECT {_COLUMNS} FROM change WHERE id IN (SELECT change FROM item WHERE kind = ?) "
            "AND document IS NOT NULL ORDER BY ref",
            kind,
        )
        return tuple(map(_version, rows))

    def current(self, kind: Kind, ref: str) -> Version:
        """The current version of an item, removed or not.

        Raises:
            StoreError: if there never was one.
        """
        rows = self._rows(
            f"SELECT {_COLUMNS} FROM change WHERE id = (SELECT change FROM item WHERE kind = ? AND ref = ?)", kind, ref
        )
        if not rows:
            raise StoreError(f"there is no {kind} {quoted(ref)} in the saved work; choose one of its list", ref)
        return _version(rows[0])

    def history(self, kind: Kind, ref: str) -> tuple[Version, ...]:
        """All versions of an item, the oldest first, undone ones among them."""
        rows = self._rows(f"SELECT {_COLUMNS} FROM change WHERE kind = ? AND ref = ? ORDER BY id", kind, ref)
        return tuple(map(_version, rows))

    def save(self, kind: Kind, ref: str, document: str | None, what: str, based_on: int | None = None) -> Version:
        """A new version of an item, which becomes the current one; `document` None removes the item.

        Args:
            based_on: number of the version that was changed, to notice that another page has changed it since.

        Raises:
            StoreError: if the current version is not the one that was changed; nothing is saved then.
        """
        with self._changing() as connection:
            found = connection.execute("SELECT change FROM item WHERE kind = ? AND ref = ?", (kind, ref)).fetchone()
            before = found[0] if found else None
            if based_on is not None and based_on != before:
                raise StoreError(
                    f"{kind} {quoted(ref)} was changed elsewhere meanwhile; look at the newer version and make the "
                    "change again",
                    ref,
                )
            made = connection.execute(
                "INSERT INTO change (kind, ref, document, what, made_at, before) VALUES (?, ?, ?, ?, ?, ?)",
                (kind, ref, document, what, datetime.now(UTC).isoformat(timespec="seconds"), before),
            ).lastrowid
            connection.execute("UPDATE change SET after = ? WHERE id = ?", (made, before))
            connection.execute("INSERT OR REPLACE INTO item VALUES (?, ?, ?)", (kind, ref, made))
        return self.current(kind, ref)

    def forget(self, kind: Kind, ref: str) -> None:
        """Take every version of an item out of the file, so that no trace of it is left there; none is no fault.

        Another program that reads the file at this moment may keep what it was in the file's log until it ends.

        Raises:
            StoreError: if the file cannot be written.
        """
        with self._changing() as connection:
            connection.execute("DELETE FROM item WHERE kind = ? AND ref = ?", (kind, ref))
            connection.execute("DELETE FROM change WHERE kind = ? AND ref = ?", (kind, ref))
        self._rows("PRAGMA wal_checkpoint(TRUNCATE)")

    def undo(self, kind: Kind, ref: str) -> Version:
        """Go back to the version before the current one; at the first one nothing happens."""
        return self._moved(kind, ref, "before")

    def redo(self, kind: Kind, ref: str) -> Version:
        """Go on to the version that was last undone or made after the current one; without one nothing happens."""
        return self._moved(kind, ref, "after")

    def _moved(self, kind: Kind, ref: str, way: str) -> Version:
        self.current(kind, ref)
        with self._changing() as connection:
            connection.execute(
                f"UPDATE item SET change = coalesce((SELECT {way} FROM change WHERE id = item.change), change) "
                "WHERE kind = ? AND ref = ?",
                (kind, ref),
            )
        return self.current(kind, ref)

    def _rows(self, query: str, *values: object) -> list[tuple[object, ...]]:
        with self._lock:
            return self._connection.execute(query, values).fetchall()

    @contextmanager
    def _changing(self) -> Iterator[sqlite3.Connection]:
        """All of what is done inside, or nothing."""
        with self._lock:
            try:
                self._connection.execute("BEGIN IMMEDIATE")
                yield self._connection
                self._connection.execute("COMMIT")
            except BaseException as error:
                if self._connection.in_transaction:
                    self._connection.execute("ROLLBACK")
                if isinstance(error, sqlite3.Error):
                    raise StoreError(f"the change could not be saved ({error}); make room, then try again") from error
                raise


def _version(row: tuple[object, ...]) -> Version:
    number, kind, ref, document, what, made_at, can_undo, can_redo = row
    return Version(number, kind, ref, document, what, made_at, bool(can_undo), bool(can_redo))  # type: ignore[arg-type]
