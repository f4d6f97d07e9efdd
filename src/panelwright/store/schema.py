"""The tables of a workroom, and how an older file is carried over."""

import sqlite3
from pathlib import Path
from typing import Final

from panelwright.errors import StoreError
from panelwright.quotation import quoted

# Each entry carries a file one version on; `user_version` counts how many have been carried out.
MIGRATIONS: Final = (
    """
    CREATE TABLE change (
        id INTEGER PRIMARY KEY,
        kind TEXT NOT NULL,
        ref TEXT NOT NULL,
        document TEXT,
        what TEXT NOT NULL,
        made_at TEXT NOT NULL,
        before INTEGER REFERENCES change (id),
        after INTEGER REFERENCES change (id)
    ) STRICT;
    CREATE TABLE item (
        kind TEXT NOT NULL,
        ref TEXT NOT NULL,
        change INTEGER NOT NULL REFERENCES change (id),
        PRIMARY KEY (kind, ref)
    ) STRICT, WITHOUT ROWID;
    CREATE INDEX change_of_item ON change (kind, ref, id);
    """,
)


def brought_up_to_date(path: Path) -> sqlite3.Connection:
    """An open connection to the file with the newest tables; a file of an older version is copied aside first.

    Raises:
        StoreError: if the file is no workroom, is of a newer version, or cannot be opened.
    """
    try:
        connection = sqlite3.connect(path, isolation_level=None, check_same_thread=False)
        try:
            _prepare(connection, path)
        except BaseException:
            connection.close()
            raise
    except sqlite3.Error as error:
        raise StoreError(
            f"the saved work {quoted(path.name)} cannot be opened ({error}); choose another file, or put a copy of it "
            "that is whole in its place",
            path.name,
        ) from error
    return connection


def _prepare(connection: sqlite3.Connection, path: Path) -> None:
    connection.execute("PRAGMA journal_mode = WAL")
    connection.execute("PRAGMA synchronous = FULL")
    connection.execute("PRAGMA foreign_keys = ON")
    connection.execute("PRAGMA busy_timeout = 5000")
    connection.execute("PRAGMA secure_delete = ON")  # what is taken out is written over
    (version,) = connection.execute("PRAGMA user_version").fetchone()
    if version > len(MIGRATIONS):
        raise StoreError(
            f"the saved work {quoted(path.name)} was written by a newer Panelwright (its version {version}, this one "
            f"reads up to {len(MIGRATIONS)}); install the newer program",
            path.name,
        )
    if 0 < version < len(MIGRATIONS):
        _copied_aside(connection, path, version)
    for number, script in enumerate(MIGRATIONS[version:], start=version + 1):
        connection.executescript(f"BEGIN IMMEDIATE; {script}; PRAGMA user_version = {number}; COMMIT;")


def _copied_aside(connection: sqlite3.Connection, path: Path, version: int) -> None:
    beside = path.with_name(f"{path.stem}-before-version-{version + 1}{path.suffix}")
    with sqlite3.connect(beside) as copy:
        connection.backup(copy)
    copy.close()
