"""Saved work: versions, undo without limit, two users of one file, a kill in the middle, files of other versions."""

import os
import signal
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panelwright.errors import StoreError
from panelwright.store import schema
from panelwright.store.change import NONE_YET, Change, StaleError
from panelwright.store.workroom import Workroom

# Saves numbered designs one after the other and says each number once it is saved.
WRITER = """
import sys
from pathlib import Path
from panelwright.store.workroom import Workroom
with Workroom(Path(sys.argv[1])) as room:
    number = int(sys.argv[2])
    while True:
        room.save("design", "lantern-01", str(number), "moved")
        print(number, flush=True)
        number += 1
"""


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "workroom.sqlite"


def test_what_is_saved_is_there_after_closing_and_opening(path: Path) -> None:
    with Workroom(path) as room:
        room.save("design", "lantern-01", "first", "begun")
        room.save("wearer", "w-01", "{}", "measured")
    with Workroom(path) as room:
        assert [item.document for item in room.items("design")] == ["first"]
        assert [item.ref for item in room.items("wearer")] == ["w-01"]


def test_undo_and_redo_go_on_after_a_restart(path: Path) -> None:
    with Workroom(path) as room:
        for text in ("a", "b", "c"):
            room.save("design", "d", text, text)
        assert room.undo("design", "d").document == "b"
    with Workroom(path) as room:
        undone = room.undo("design", "d")
        assert (undone.document, undone.can_undo, undone.can_redo) == ("a", False, True)
        assert room.undo("design", "d").document == "a"
        assert room.redo("design", "d").document == "b"
        assert room.redo("design", "d").document == "c"
        assert room.redo("design", "d").document == "c"


def test_a_change_after_an_undo_is_what_redo_goes_to_and_nothing_is_lost(path: Path) -> None:
    with Workroom(path) as room:
        for text in ("a", "b"):
            room.save("design", "d", text, text)
        room.undo("design", "d")
        room.save("design", "d", "other", "other")
        room.undo("design", "d")
        assert room.redo("design", "d").document == "other"
        assert [version.document for version in room.history("design", "d")] == ["a", "b", "other"]


def test_a_removed_item_is_not_listed_and_comes_back_by_undo(path: Path) -> None:
    with Workroom(path) as room:
        room.save("wearer", "w-01", "{}", "measured")
        room.save("wearer", "w-01", None, "removed")
        assert room.items("wearer") == ()
        assert room.undo("wearer", "w-01").document == "{}"
        assert len(room.items("wearer")) == 1


def test_what_is_forgotten_is_nowhere_in_the_file(path: Path) -> None:
    private = "bust 88.5, nobody else's business"
    with Workroom(path) as room:
        room.save("wearer", "w-01", private, "measured")
        room.save("wearer", "w-01", private * 300, "measured anew")
        room.save("wearer", "w-02", "{}", "measured")
        assert private.encode() in written(path)
        room.forget("wearer", "w-01")
        assert private.encode() not in written(path)
        assert room.history("wearer", "w-01") == ()
        assert [each.ref for each in room.items("wearer")] == ["w-02"]
        with pytest.raises(StoreError, match='no wearer "w-01"'):
            room.undo("wearer", "w-01")
        room.forget("wearer", "w-01")


def test_the_number_of_what_is_forgotten_is_not_given_to_what_comes_after_it(path: Path) -> None:
    """A page that still shows the one that is gone would write over the other."""
    with Workroom(path) as room:
        gone = room.save("group", "group-1", "old", "a group").number
        room.forget("group", "group-1")
        for put in (room.save, room.keep):
            new = put("group", "group-1", "new", "a group", NONE_YET)
            assert new.number > gone
            with pytest.raises(StaleError):
                room.keep("group", "group-1", "old again", "a group", gone)
            assert room.current("group", "group-1").document == "new"
            room.forget("group", "group-1")
            gone = new.number
        assert room.save("design", "d", "a", "a").number + 1 == room.save("design", "d", "b", "b").number


def written(path: Path) -> bytes:
    """All that the file and its log hold."""
    return b"".join(each.read_bytes() for each in path.parent.glob(path.name + "*"))


def test_what_is_kept_without_history_has_one_version_and_a_later_number_each_time(path: Path) -> None:
    with Workroom(path) as room:
        first = room.save("lay", "lantern-01/w-01", "first", "brought in")
        kept = [room.keep("lay", "lantern-01/w-01", text, "a lay") for text in ("second", "third")]
        assert [each.document for each in room.history("lay", "lantern-01/w-01")] == ["third"]
        assert first.number < kept[0].number < kept[1].number
        assert (kept[1].can_undo, kept[1].before) == (False, None)
        room.save("design", "lantern-01", "untouched", "begun")
    with Workroom(path) as room:
        assert room.current("lay", "lantern-01/w-01").document == "third"
        assert room.undo("lay", "lantern-01/w-01").document == "third"
        room.keep("lay", "lantern-01/w-01", "fourth", "a lay")
        assert room.current("design", "lantern-01").document == "untouched"


def test_a_change_of_an_older_version_is_refused_and_saves_nothing(path: Path) -> None:
    with Workroom(path) as one, Workroom(path) as other:
        first = one.save("design", "d", "a", "begun")
        other.save("design", "d", "theirs", "moved", based_on=first.number)
        with pytest.raises(StoreError, match="changed elsewhere"):
            one.save("design", "d", "mine", "moved", based_on=first.number)
        assert one.current("design", "d").document == "theirs"


def test_what_is_new_is_saved_once_and_again_only_after_it_was_removed(path: Path) -> None:
    with Workroom(path) as one, Workroom(path) as other:
        one.save("design", "d", "a", "begun", based_on=NONE_YET)
        with pytest.raises(StaleError, match='design "d" is there already'):
            other.save("design", "d", "b", "begun", based_on=NONE_YET)
        one.save("design", "d", None, "removed")
        assert other.save("design", "d", "c", "begun", based_on=NONE_YET).document == "c"


def test_of_several_changes_all_are_saved_or_none(path: Path) -> None:
    with Workroom(path) as room:
        first = room.save("design", "d", "a", "begun")
        pair = [Change("wearer", "w-01", "{}", "in"), Change("design", "d", "b", "in", based_on=first.number)]
        room.save("design", "d", "theirs", "moved")
        with pytest.raises(StaleError, match="changed elsewhere"):
            room.save_all(pair)
        assert (room.items("wearer"), room.current("design", "d").document) == ((), "theirs")
        room.undo("design", "d")
        assert [saved.document for saved in room.save_all(pair)] == ["{}", "b"]


def test_a_full_disk_at_the_second_of_several_changes_saves_none(path: Path) -> None:
    with Workroom(path) as room:
        (pages,) = room._rows("PRAGMA page_count")[0]
        room._rows(f"PRAGMA max_page_count = {pages}")
        with pytest.raises(StoreError, match=r"could not be saved .*full.*make room"):
            room.save_all([Change("design", "a", "small", "in"), Change("design", "b", "x" * 100_000, "in")])
        assert room.items("design") == ()
        assert room.save("design", "a", "small", "in").document == "small"


def test_work_that_cannot_be_read_is_told_as_such(path: Path) -> None:
    with Workroom(path) as room, sqlite3.connect(path) as raw:
        room.save("design", "d", "a", "begun")
        raw.execute("ALTER TABLE item RENAME TO lost")
        raw.commit()
        with pytest.raises(StoreError, match="the saved work cannot be read"):
            room.current("design", "d")
    raw.close()


def test_undo_and_redo_go_past_a_version_that_removed_the_item(path: Path) -> None:
    with Workroom(path) as room:
        for document in ("a", None, None, "b", None):
            room.save("design", "d", document, "x")
        removed = room.current("design", "d")
        assert (removed.can_undo, removed.can_redo) == (True, False)
        for document, undo, redo in (("b", True, False), ("a", False, True), ("a", False, True)):
            now = room.undo("design", "d")
            assert (now.document, now.can_undo, now.can_redo) == (document, undo, redo)
        assert [room.redo("design", "d").document for _ in range(2)] == ["b", "b"]


def test_an_unknown_item_is_named(path: Path) -> None:
    with Workroom(path) as room, pytest.raises(StoreError, match='no design "nowhere"'):
        room.undo("design", "nowhere")


@settings(max_examples=40, deadline=None)
@given(moves=st.lists(st.sampled_from(["save", "undo", "redo"]), max_size=25))
def test_any_order_of_changes_is_that_of_a_plain_list_with_a_place(
    moves: list[str], tmp_path_factory: pytest.TempPathFactory
) -> None:
    """Against a list and an index, the usual model of undo."""
    versions, place = ["0"], 0
    with Workroom(tmp_path_factory.mktemp("room") / "w.sqlite") as room:
        room.save("design", "d", "0", "begun")
        for number, move in enumerate(moves, start=1):
            if move == "save":
                versions[place + 1 :] = [str(number)]
                place += 1
                room.save("design", "d", str(number), "changed")
            else:
                place = max(place - 1, 0) if move == "undo" else min(place + 1, len(versions) - 1)
                getattr(room, move)("design", "d")
            now = room.current("design", "d")
            assert (now.document, now.can_undo, now.can_redo) == (
                versions[place], place > 0, place + 1 < len(versions)
            )  # fmt: skip


def test_a_killed_writer_loses_nothing_that_it_said_was_saved(path: Path) -> None:
    said = -1
    for _ in range(5):
        writer = subprocess.Popen(
            [sys.executable, "-c", WRITER, path, str(said + 1)], stdout=subprocess.PIPE, text=True
        )
        assert writer.stdout is not None
        for _ in range(20):
            said = int(writer.stdout.readline())
        os.kill(writer.pid, signal.SIGKILL if hasattr(signal, "SIGKILL") else signal.SIGTERM)
        rest = writer.stdout.read().split()
        writer.stdout.close()
        writer.wait()
        said = int(rest[-1]) if rest else said
        with Workroom(path) as room:
            saved = int(room.current("design", "lantern-01").document or "")
            assert saved in (said, said + 1)  # it may have been killed between saving and saying
            said = saved


def test_a_file_that_is_no_workroom_is_refused_in_one_sentence(path: Path) -> None:
    path.write_text("a shopping list, long enough to be read as the head of a file" * 20, encoding="utf-8")
    with pytest.raises(StoreError, match="cannot be opened"):
        Workroom(path)


def test_a_file_of_a_newer_program_is_refused(path: Path) -> None:
    Workroom(path).close()
    with sqlite3.connect(path) as raw:
        raw.execute("PRAGMA user_version = 99")
    raw.close()
    with pytest.raises(StoreError, match="newer"):
        Workroom(path)


def test_an_older_file_is_copied_aside_before_it_is_carried_over(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with Workroom(path) as room:
        room.save("design", "d", "a", "begun")
    monkeypatch.setattr(schema, "MIGRATIONS", (*schema.MIGRATIONS, "ALTER TABLE item ADD COLUMN note TEXT"))
    with Workroom(path) as room:
        assert room.current("design", "d").document == "a"
    copy = path.with_name("workroom-before-version-2.sqlite")
    with sqlite3.connect(copy) as old:
        assert old.execute("SELECT document FROM change").fetchall() == [("a",)]
        assert old.execute("PRAGMA user_version").fetchone() == (1,)
    old.close()
