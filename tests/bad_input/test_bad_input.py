"""Bad input comes back as one sentence and exit status 2; nothing is lost and nobody sees a traceback.

The sentences are our own promise, kept in `table.py`; an expert eye is the outside they are held against.
"""

import errno
import json
import os
from collections import Counter
from pathlib import Path

import pytest
from bad_input.case import Case
from bad_input.table import ALL

from panelwright.cli.main import main

ROWS = [(kind, case) for kind, cases in ALL.items() for case in cases]
OLD = "what stood here before"


def contents(folder: Path) -> dict[str, bytes]:
    """Every file below a folder."""
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


@pytest.fixture
def workplace(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder to work in, with an older result in it that must survive."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "pattern.json").write_text(OLD)
    return tmp_path


def refused(argv: tuple[str, ...], capsys: pytest.CaptureFixture[str]) -> str:
    """The one sentence of a refusal, without the program's name; the status is 2 and nothing is answered."""
    assert main(argv) == 2
    said = capsys.readouterr()
    assert said.out == ""
    told = [line for line in said.err.splitlines() if not line.startswith("[")]
    assert len(told) == 1, told
    assert "Traceback" not in said.err
    assert told[0].startswith("panelwright: ")
    return told[0].removeprefix("panelwright: ")


def test_the_table_is_long_enough_and_has_no_row_twice() -> None:
    assert len(ROWS) >= 40
    assert [name for name, times in Counter((kind, case.name) for kind, case in ROWS).items() if times > 1] == []


@pytest.mark.parametrize(("kind", "case"), ROWS, ids=[f"{kind}: {case.name}" for kind, case in ROWS])
def test_bad_input_is_one_sentence(kind: str, case: Case, workplace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    case.lay_out(workplace)
    before = contents(workplace)
    end = "" if case.sentence.endswith("?") else "."
    assert refused(case.argv, capsys) == case.sentence + end, kind
    assert contents(workplace) == before


def test_for_a_program_the_sentence_is_json(workplace: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Case("", "", files={"w.json": None}).lay_out(workplace)
    assert main(["make", "w.json", "d.json", "--json"]) == 2
    said = capsys.readouterr()
    answer = json.loads(said.out)
    assert answer["status"] == 2
    assert said.err == f"panelwright: {answer['error']}\n"
    assert answer["error"] == 'there is no file "w.json" in this folder: check its name, or give its folder too.'


def failing(number: int, after: int = 0) -> object:
    """A stand-in for an operation of the system that fails with `number` once it has worked `after` times."""
    done = 0

    def operation(*_arguments: object, **_options: object) -> None:
        nonlocal done
        if done >= after:
            raise OSError(number, os.strerror(number))
        done += 1

    return operation


MAKE = ("make", "w.json", "d.json", "--out", "out")


def test_no_right_to_make_the_folder(
    workplace: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    Case("", "").lay_out(workplace)
    monkeypatch.setattr(Path, "mkdir", failing(errno.EACCES))
    assert refused(MAKE, capsys) == 'the folder "out" cannot be made (permission denied): choose another.'


def test_no_right_to_write_in_the_folder(
    workplace: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    Case("", "").lay_out(workplace)
    before = contents(workplace)
    monkeypatch.setattr(Path, "replace", failing(errno.EACCES))
    sentence = 'nothing can be written in the folder "out": you have no right to write there: choose another folder.'
    assert refused(MAKE, capsys) == sentence
    monkeypatch.undo()
    assert contents(workplace) == before


def test_no_right_to_read_the_file(
    workplace: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    Case("", "").lay_out(workplace)
    monkeypatch.setattr(Path, "open", failing(errno.EACCES))
    assert refused(MAKE, capsys) == '"w.json" cannot be read: Permission denied.'


def test_no_space_from_the_start(
    workplace: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    Case("", "").lay_out(workplace)
    before = contents(workplace)
    monkeypatch.setattr("panelwright.saved_file.os.fsync", failing(errno.ENOSPC))
    sentence = 'nothing can be written in the folder "out": there is no space left: make room or choose another disk.'
    assert refused(MAKE, capsys) == sentence
    assert contents(workplace) == before


def test_no_space_halfway_leaves_whole_files_only(
    workplace: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The trial, `pattern.json` and `findings.txt` go through; the picture does not."""
    Case("", "").lay_out(workplace)
    monkeypatch.setattr("panelwright.saved_file.os.fsync", failing(errno.ENOSPC, after=3))
    sentence = '"overview.svg" cannot be written: there is no space left: make room or choose another disk.'
    assert refused(MAKE, capsys) == sentence
    left = contents(workplace / "out")
    assert set(left) == {"pattern.json", "findings.txt"}
    assert json.loads(left["pattern.json"])["format"] == "panelwright-pattern/1"
