"""A new workroom is filled once; where it is kept when nobody says."""

import json
import sys
from pathlib import Path

import pytest

from panelwright.app.workroom_item import found_item, removed_item
from panelwright.app.workroom_place import usual_workroom
from panelwright.app.workroom_start import STAND, open_workroom, size_text
from panelwright.body.measurement_file import read_measurements
from panelwright.body.size_table import SIZES, size
from panelwright.errors import InputError
from panelwright.store.workroom import Workroom


def test_what_was_removed_from_a_workroom_does_not_come_back(tmp_path: Path) -> None:
    with open_workroom(tmp_path / "w.sqlite") as room:
        for design in room.items("design"):
            removed_item(room, "design", design.ref)
    with open_workroom(tmp_path / "w.sqlite") as room:
        assert room.items("design") == ()
        assert len(room.items("wearer")) == 5


def test_a_workroom_whose_filling_broke_off_is_filled_to_the_end(tmp_path: Path) -> None:
    with open_workroom(tmp_path / "whole.sqlite") as room:
        whole = [(kind, item.ref, item.document) for kind in ("wearer", "design") for item in room.items(kind)]
        first = room.current("wearer", "w-01")
    with Workroom(tmp_path / "part.sqlite") as room:
        room.save("wearer", "w-01", first.document, "put in with a new workroom")
    with open_workroom(tmp_path / "part.sqlite") as room:
        assert [(kind, item.ref, item.document) for kind in ("wearer", "design") for item in room.items(kind)] == whole
        assert len(room.history("wearer", "w-01")) == 1


def test_a_stand_is_there_for_every_size_and_no_wearer_is_one() -> None:
    for bust in SIZES:
        assert read_measurements(size_text(f"size-{bust}") or "") == size(bust)
    assert size_text("w-01") is None
    assert json.loads(size_text(STAND) or "")["ref"] == STAND


def test_a_size_is_nobodys_to_remove(tmp_path: Path) -> None:
    with open_workroom(tmp_path / "w.sqlite") as room:
        with pytest.raises(InputError, match="stays as it is"):
            removed_item(room, "wearer", STAND)
        assert found_item(room, "wearer", STAND).version == 0


@pytest.mark.skipif(sys.platform in ("win32", "darwin"), reason="other systems keep it elsewhere")
def test_the_usual_workroom_lies_with_other_programs_data(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    assert usual_workroom() == tmp_path / "data" / "panelwright" / "workroom.sqlite"
    assert (tmp_path / "data" / "panelwright").is_dir()
    monkeypatch.delenv("XDG_DATA_HOME")
    monkeypatch.setenv("HOME", str(tmp_path / "home"))
    assert usual_workroom() == tmp_path / "home" / ".local" / "share" / "panelwright" / "workroom.sqlite"
