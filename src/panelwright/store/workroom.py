"""A workroom: one SQLite file with every version of every wearer and design."""

import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from threading import RLock
from typing import Final, Self

from panelwright.errors import StoreError
from panelwright.quotation import quoted
from panelwright.store.change import Change, put
from panelwright.store.schema import brought_up_to_date
from panelwright.store.version import Kind, Version


def _next(way: str) -> str:
    """The nearest version on the `before` or `after` side of the `change` at hand that does not remove its item."""
    return (
        "(WITH RECURSIVE side (id, document, next) AS ("
        f"SELECT one.id, one.document, one.{way} FROM change AS one WHERE one.id = change.{way} UNION ALL "
        f"SELECT one.id, one.document, one.{way} FROM change AS one JOIN side ON one.id = side.next "
        "WHERE side.document IS NULL) SELECT id FROM side WHERE document IS NOT NULL LIMIT 1)"
    )


_NEXT: Final = {way: _next(way) for way in ("before", "after")}
_COLUMNS: Final = (
    "id, kind, ref, document, what, made_at, " + f"{_NEXT['before']} IS NOT NULL, {_NEXT['after']} IS NOT NULL, before"
)


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
        self._forgot = False
        self._highest = 0  # number of a version that was there when one was forgotten

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_error: object) -> None:
        self.close()

    def close(self) -> None:
        """Close the file; nothing needs saving."""
        self._connection.close()

    @contextmanager
    def as_one(self) -> Iterator[None]:
        """All that is read and changed inside is one change of the file: nobody else's comes in between, and where
        anything is raised nothing of it is saved.

        Raises:
            StoreError: if the file cannot be written.
        """
        with self._changing():
            yield

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
        found = self.found(kind, ref)
        if found is None:
            raise StoreError(f"there is no {kind} {quoted(ref)} in the saved work; choose one of its list", ref)
        return found

    def found(self, kind: Kind, ref: str) -> Version | None:
        """The current version of an item, removed or not; None if there never was one."""
        rows = self._rows(
            f"SELECT {_COLUMNS} FROM change WHERE id = (SELECT change FROM item WHERE kind = ? AND ref = ?)", kind, ref
        )
        return _version(rows[0]) if rows else None

    def history(self, kind: Kind, ref: str) -> tuple[Version, ...]:
        """All versions of an item, the oldest first, undone ones among them."""
        rows = self._rows(f"SELECT {_COLUMNS} FROM change WHERE kind = ? AND ref = ? ORDER BY id", kind, ref)
        return tuple(map(_version, rows))

    def save(self, kind: Kind, ref: str, document: str | None, what: str, based_on: int | None = None) -> Version:
        """A new version of an item, which becomes the current one; takes what `Change` has, raises as `save_all`."""
        return self.save_all([Change(kind, ref, document, what, based_on)])[0]

    def save_all(self, changes: Sequence[Change]) -> tuple[Version, ...]:
        """A new version of each item, in their order: all of them, or none.

        Raises:
            StaleError: if one of them was changed elsewhere since the version that it is based on.
            StoreError: if the file cannot be written.
        """
        with self._changing() as connection:
            for change in changes:
                put(connection, change, self._highest)
            return tuple(self.current(change.kind, change.ref) for change in changes)

    def keep(self, kind: Kind, ref: str, document: str, what: str, based_on: int | None = None) -> Version:
        """A version of an item in the place of all that it had: for what is written often and has no history.

        Args:
            based_on: as `Change` has it.

        Raises:
            StaleError: if it was changed elsewhere since that version.
            StoreError: if the file cannot be written.
        """
        with self._changing() as connection:
            put(connection, Change(kind, ref, document, what, based_on), self._highest)
            own = self.current(kind, ref)
            connection.execute("UPDATE change SET before = NULL WHERE id = ?", (own.number,))
            connection.execute("DELETE FROM change WHERE kind = ? AND ref = ? AND id <> ?", (kind, ref, own.number))
            return self.current(kind, ref)

    def forget(self, kind: Kind, ref: str) -> None:
        """Take every version of an item out of the file, so that no trace of it is left there; none is no fault.

        As long as the workroom is open no later version gets the number of one of them: what a page still bases on it
        is stale. Another program that reads the file at this moment may keep what it was in the file's log until it
        ends.

        Raises:
            StoreError: if the file cannot be written.
        """
        with self._changing() as connection:
            (highest,) = connection.execute("SELECT coalesce(max(id), 0) FROM change").fetchone()
            self._highest = max(self._highest, highest)
            connection.execute("DELETE FROM item WHERE kind = ? AND ref = ?", (kind, ref))
            connection.execute("DELETE FROM change WHERE kind = ? AND ref = ?", (kind, ref))
            self._forgot = True

    def undo(self, kind: Kind, ref: str) -> Version:
        """Go back to the version before the current one, past any that removed it; at the first one nothing happens."""
        return self._moved(kind, ref, "before")

    def redo(self, kind: Kind, ref: str) -> Version:
        """Go on to the version that was last undone or made after the current one, past any that removed it; without
        one nothing happens.
        """
        return self._moved(kind, ref, "after")

    def _moved(self, kind: Kind, ref: str, way: str) -> Version:
        with self._changing() as connection:
            connection.execute(
                f"UPDATE item SET change = coalesce((SELECT {_NEXT[way]} FROM change WHERE id = item.change), change) "
                "WHERE kind = ? AND ref = ?",
                (kind, ref),
            )
            return self.current(kind, ref)

    def _rows(self, query: str, *values: object) -> list[tuple[object, ...]]:
        with self._lock:
            try:
                return self._connection.execute(query, values).fetchall()
            except sqlite3.Error as error:
                raise StoreError(f"the saved work cannot be read ({error}); wait a moment, then try again") from error

    @contextmanager
    def _changing(self) -> Iterator[sqlite3.Connection]:
        """All of what is done inside, or nothing; inside another one, with the whole of that."""
        with self._lock:
            if self._connection.in_transaction:
                yield self._connection
                return
            self._forgot = False
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
            if self._forgot:  # else it would stay in the file's log
                self._rows("PRAGMA wal_checkpoint(TRUNCATE)")


def _version(row: tuple[object, ...]) -> Version:
    number, kind, ref, document, what, made_at, can_undo, can_redo, before = row
    return Version(number, kind, ref, document, what, made_at, bool(can_undo), bool(can_redo), before)  # type: ignore[arg-type]
