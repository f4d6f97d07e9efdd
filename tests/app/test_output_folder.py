"""The folder for results: made with its parents, tried, and left as it was."""

from pathlib import Path

import pytest

from panelwright.app.output_folder import open_folder
from panelwright.errors import OutputError


def test_a_folder_is_made_with_its_parents_and_stays_empty(tmp_path: Path) -> None:
    folder = open_folder(tmp_path / "a" / "b")
    assert folder.is_dir()
    assert list(folder.iterdir()) == []


def test_a_folder_that_is_there_keeps_what_is_in_it(tmp_path: Path) -> None:
    (tmp_path / "old.txt").write_text("old")
    open_folder(tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == ["old.txt"]


@pytest.mark.parametrize(
    ("name", "sentence"), [("file", "is a file"), ("file/below", "a file is in its way"), ("a\0b", "not the name")]
)
def test_what_cannot_be_a_folder_is_refused(name: str, sentence: str, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    with pytest.raises(OutputError, match=sentence):
        open_folder(tmp_path / name)
