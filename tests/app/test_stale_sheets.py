"""Sheets left by an earlier run: ours are removed, nothing else is."""

import errno
import os
from pathlib import Path

import pytest

from panelwright.app.stale_sheets import remove_stale_sheets, stale_sheets
from panelwright.errors import OutputError

OURS = [
    "full-scale-a3.pdf",
    "full-scale-a4.pdf",
    "full-scale-letter.pdf",
    "large-sheet.pdf",
    "quarter-scale-a3.pdf",
    "quarter-scale-a4.pdf",
    "quarter-scale-letter.pdf",
    "sign-off-private.pdf",
]
THEIRS = ["full-scale-a5.pdf", "my-notes.pdf", "pattern.json", "overview.svg", "full-scale-a4.pdf.old"]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for name in (*OURS, *THEIRS):
        (tmp_path / name).write_text(name)
    return tmp_path


def test_our_own_sheets_go_unless_they_are_fresh(folder: Path) -> None:
    fresh = [folder / "full-scale-a3.pdf", folder / "large-sheet.pdf", folder / "pattern.json"]
    removed = remove_stale_sheets(folder, fresh)
    assert [path.name for path in removed] == [name for name in OURS if folder / name not in fresh]
    assert {path.name for path in folder.iterdir()} == {*THEIRS, "full-scale-a3.pdf", "large-sheet.pdf"}


def test_looking_removes_nothing(folder: Path) -> None:
    assert [path.name for path in stale_sheets(folder, ())] == OURS
    assert {path.name for path in folder.iterdir()} == {*OURS, *THEIRS}


def test_a_folder_of_that_name_stays(tmp_path: Path) -> None:
    (tmp_path / "large-sheet.pdf").mkdir()
    assert remove_stale_sheets(tmp_path, ()) == ()
    assert (tmp_path / "large-sheet.pdf").is_dir()


def test_one_that_cannot_be_removed_is_named(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_arguments: object, **_options: object) -> None:
        raise OSError(errno.EACCES, os.strerror(errno.EACCES))

    monkeypatch.setattr(Path, "unlink", refuse)
    with pytest.raises(OutputError, match=r'^"full-scale-a3.pdf" belongs to an older pattern .*\(permission denied\)'):
        remove_stale_sheets(folder, ())
