"""What is kept of lays is read, changed and written as one: nobody else writes the file in between."""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from panelwright.app.kept_lays import KeptLays
from panelwright.app.laid_for import LaidFor
from panelwright.app.lays_file import LayRecord
from panelwright.app.workroom_faults import NotThereError
from panelwright.app.workroom_item import removed_item
from panelwright.app.workroom_start import open_workroom
from panelwright.store.workroom import Workroom

OF = LaidFor("outer", 1400.0, True, False, "0123456789abcdef")
GARMENT = ("lantern-01", "w-01")


@pytest.fixture
def room(tmp_path: Path) -> Iterator[Workroom]:
    with open_workroom(tmp_path / "one.sqlite") as opened:
        yield opened


def searched(record: LayRecord) -> LayRecord:
    return record.model_copy(update={"searches": record.searches + 1})


@pytest.fixture
def others_may_write(tmp_path: Path) -> Callable[[], bool]:
    """Whether another program can write the file now."""

    def may() -> bool:
        with closing(sqlite3.connect(tmp_path / "one.sqlite", timeout=0.0, isolation_level=None)) as other:
            try:
                other.execute("BEGIN IMMEDIATE")
            except sqlite3.OperationalError:
                return False
            return True

    return may


def test_nobody_writes_between_what_is_read_and_what_is_kept(
    room: Workroom, others_may_write: Callable[[], bool], monkeypatch: pytest.MonkeyPatch
) -> None:
    told = []
    keep = room.keep

    def heeding(*given: Any) -> Any:
        told.append(others_may_write())
        return keep(*given)

    def changed(record: LayRecord) -> LayRecord:
        told.append(others_may_write())
        return searched(record)

    monkeypatch.setattr(room, "keep", heeding)
    KeptLays(room).change(*GARMENT, OF, 900.0, changed)
    assert told == [False, False]
    assert others_may_write()
    assert [lay.searches for lay in KeptLays(room).of(*GARMENT)] == [1]


def test_nothing_is_kept_of_a_change_that_is_refused(room: Workroom, others_may_write: Callable[[], bool]) -> None:
    kept = KeptLays(room)
    kept.change(*GARMENT, OF, 900.0, searched)
    room.forget("wearer", "w-01")
    with pytest.raises(NotThereError):
        kept.change(*GARMENT, OF, 900.0, searched)
    assert [lay.searches for lay in kept.of(*GARMENT)] == [1]
    assert others_may_write()


def test_a_wearer_goes_with_all_that_is_theirs_at_once(
    room: Workroom, others_may_write: Callable[[], bool], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """Else a lay that is kept meanwhile would stay."""
    marked = LaidFor("outer", 1400.0, True, False, "feedc0ffee000000")
    KeptLays(room).change(*GARMENT, marked, 900.0, searched)
    told = []
    forget = room.forget

    def heeding(*given: Any) -> None:
        told.append(others_may_write())
        forget(*given)

    monkeypatch.setattr(room, "forget", heeding)
    removed_item(room, "wearer", "w-01")
    assert told == [False, False, False]  # the wearer, the fitting notes, the lays
    assert room.items("lay") == ()
    assert not any(b"feedc0ffee" in file.read_bytes() for file in tmp_path.glob("one.sqlite*"))
