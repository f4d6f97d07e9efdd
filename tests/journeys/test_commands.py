"""Journeys over the command line: a size, a block, a pattern that was spoilt, work that was stopped."""

import json
import os
import signal
import subprocess
import sys
from pathlib import Path

import pikepdf
import pytest
from bad_input.case import design, wearer

from panelwright.cli.main import main

PROGRAM = Path(sys.executable).with_name("panelwright")


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A garment for a size of the table, in inches on Letter paper."""
    folder = tmp_path_factory.mktemp("made")
    (folder / "d.json").write_text(design(finish={"facing": "full"}))
    words = ["make", "--size", "88", str(folder / "d.json"), "--out", str(folder / "out")]
    assert main([*words, "--paper", "Letter", "--units", "inches"]) == 0
    return folder / "out"


def test_a_size_of_the_table_in_inches_on_letter(made: Path) -> None:
    names = {path.name for path in made.iterdir()}
    assert {"quarter-scale-letter.pdf", "full-scale-letter.pdf"} < names
    with pikepdf.open(made / "full-scale-letter.pdf") as document:
        # Letter is 8.5 by 11 inches of 72 points (ANSI/ASME Y14.1, size A).
        assert [round(float(value), 2) for value in document.pages[0].mediabox] == [0, 0, 612, 792]
    document_of_size = json.loads((made / "pattern.json").read_text())
    assert document_of_size["wearer"]["ref"] == "size-88"
    waist = next(level for level in document_of_size["levels"] if level["id"] == "waist")
    assert waist["body_girth"] == 720  # size 88 of the table: 72 cm (from memory, check-values)


def test_a_block_for_tracing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("w.json").write_text(wearer())
    Path("d.json").write_text(design(block={"panels": 3, "ease_cm": {"waist": 4}}))
    assert main(["block", "w.json", "--options", "d.json"]) == 0
    block = json.loads(Path("block-w-07/block.json").read_text())
    assert len(block["pieces"]) == 3
    assert {edge["allowance"] for piece in block["pieces"] for edge in piece["edges"]} == {0.0}
    # Half pattern = (girth + ease) / 2 (geometry): waist 72, ease 4.
    waist = next(level for level in block["levels"] if level["id"] == "waist")
    assert waist["finished_girth"] == pytest.approx(760)
    assert len(block["levels"]) == 7
    assert [found for found in block["findings"] if found["severity"] == "error"] == []


def test_a_spoilt_pattern_has_errors(made: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A cut line 2 mm off breaks the rule of allowances (docs/pattern-file.md, rule 8)."""
    document = json.loads((made / "pattern.json").read_text())
    piece = next(piece for piece in document["pieces"] if piece["id"] == "SB")
    piece["cut_line"] = [[x + 2.0, y] for x, y in piece["cut_line"]]
    (tmp_path / "p.json").write_text(json.dumps(document))
    assert main(["check", str(tmp_path / "p.json"), "--json"]) == 1
    answer = json.loads(capsys.readouterr().out)
    assert answer["status"] == 1
    assert {found["code"] for found in answer["findings"] if found["severity"] == "error"} == {"allowance"}
    assert main(["check", str(tmp_path / "p.json")]) == 1
    assert "Not ready to cut" in capsys.readouterr().out


def test_check_before_making(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "d.json").write_text(design())
    assert main(["check", "--size", "100", str(tmp_path / "d.json"), "--units", "inches"]) == 0
    said = capsys.readouterr()
    assert said.out.startswith("Lantern bodice for size-100.\nChecked: no errors")
    assert list(tmp_path.iterdir()) == [tmp_path / "d.json"]


def test_help_is_quick_because_it_imports_nothing_heavy() -> None:
    look = "import sys; from panelwright.cli.main import main; main(['--help']); print(*sys.modules)"
    run = subprocess.run([sys.executable, "-c", look], capture_output=True, text=True, check=True)
    assert "from body measurements to a checked, printed cutting pattern" in run.stdout.lower()
    assert {"numpy", "scipy", "shapely", "pydantic", "fpdf"} & set(run.stdout.splitlines()[-1].split()) == set()


def test_version(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--version"]) == 0
    assert capsys.readouterr().out.startswith("Panelwright ")


def test_a_fault_of_ours_is_one_sentence_without_the_errors_own_words(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def broken(*_: object) -> None:
        raise RuntimeError("waist 720")

    (tmp_path / "w.json").write_text(wearer())
    (tmp_path / "d.json").write_text(design())
    monkeypatch.setattr("panelwright.app.garment.make_block", broken)
    assert main(["check", str(tmp_path / "w.json"), str(tmp_path / "d.json")]) == 3
    said = capsys.readouterr().err.splitlines()[-1]
    assert said.startswith("panelwright: something went wrong inside Panelwright (RuntimeError in test_commands.py, ")
    assert "720" not in said


def test_a_terminal_that_knows_few_letters_is_no_obstacle(tmp_path: Path) -> None:
    (tmp_path / "d.json").write_text(design(title="Фестиваль"))
    run = subprocess.run(
        [PROGRAM, "check", "--size", "88", tmp_path / "d.json"],
        capture_output=True,
        text=True,
        env={**os.environ, "PYTHONIOENCODING": "ascii"},
        check=False,
    )
    assert run.returncode == 0, run.stderr
    assert run.stdout.startswith("????????? for size-88.")


@pytest.mark.skipif(sys.platform == "win32", reason="Windows sends Ctrl-C to a whole console, this test included")
def test_ctrl_c_stops_at_once_and_leaves_whole_files_only(tmp_path: Path) -> None:
    run = subprocess.Popen(
        [PROGRAM, "demo", tmp_path / "demo"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        # A shell makes what it runs in the background deaf to Ctrl-C, these tests and their programs included.
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),
    )
    assert run.stderr
    begun = [run.stderr.readline(), run.stderr.readline()]
    assert begun[1].startswith("[ 1/")
    run.send_signal(signal.SIGINT)
    out, err = run.communicate()
    assert run.returncode == 130
    assert out == ""
    assert err.splitlines()[-1] == "panelwright: stopped; files that were complete are kept, no file is half written."
    assert "Traceback" not in err
    left = [path for path in (tmp_path / "demo").rglob("*") if path.is_file()]
    assert [path for path in left if path.suffix not in (".json", ".txt", ".svg", ".pdf")] == []
    for path in left:
        if path.suffix == ".json":
            json.loads(path.read_text())
        if path.suffix == ".pdf":
            pikepdf.open(path).close()


def test_another_design_on_other_paper_into_the_same_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Nobody shall cut the old sheet: it goes, and the answer names it. What else lies there stays."""
    monkeypatch.chdir(tmp_path)
    Path("d.json").write_text(design())
    Path("e.json").write_text(design(ref="other-01", title="Other bodice"))
    assert main(["make", "--size", "88", "d.json", "--out", "x", "--paper", "letter"]) == 0
    Path("x/notes.pdf").write_text("mine")
    capsys.readouterr()
    assert main(["make", "--size", "88", "e.json", "--out", "x"]) == 0
    said = capsys.readouterr().out
    assert f"removed, of an older pattern: {Path('x/full-scale-letter.pdf')}\n" in said
    sheets = {path.name for path in Path("x").glob("*.pdf")}
    ours = {"quarter-scale-a4.pdf", "full-scale-a4.pdf", "large-sheet.pdf", "lay.pdf", "sign-off-private.pdf"}
    assert sheets == {*ours, "notes.pdf"}
    assert main(["paper", "x/pattern.json", "--scale", "full", "--paper", "a3", "--out", "x", "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert [Path(name).name for name in answer["other_sheets"]] == [
        "full-scale-a4.pdf",
        "large-sheet.pdf",
        "lay.pdf",
        "lay.svg",
        "quarter-scale-a4.pdf",
        "sign-off-private.pdf",
    ]
    assert main(["block", "--size", "88", "--out", "x", "--json"]) == 0
    removed = json.loads(capsys.readouterr().out)["removed"]
    gone = ["full-scale-a3.pdf", "lay.pdf", "lay.svg", "sign-off-private.pdf"]
    assert [Path(name).name for name in removed] == gone


# What docs/pattern-file.md lists as fields of ours: a file of another hand has none of them.
OURS = {"text", "text_at", "material", "notch_marks", "side", "interval", "region", "height", "shares"}


def contract_only(thing: object) -> object:
    if isinstance(thing, dict):
        return {key: contract_only(value) for key, value in thing.items() if key not in OURS}
    return [contract_only(entry) for entry in thing] if isinstance(thing, list) else thing


def test_a_pattern_of_another_hand_is_checked_and_printed(made: Path, tmp_path: Path) -> None:
    """Only the contract's fields, and a level that names no line: nothing to write on a piece but its label."""
    document = contract_only(json.loads((made / "pattern.json").read_text()))
    assert isinstance(document, dict)
    document["design"].pop("title", None)
    hip = next(level for level in document["levels"] if level["id"] == "waist")
    document["levels"].append(hip | {"id": "my-level", "path": []})
    foreign = tmp_path / "foreign.json"
    foreign.write_text(json.dumps(document))
    assert main(["check", str(foreign)]) in (0, 1)
    assert main(["paper", str(foreign), "--out", str(tmp_path / "sheets")]) == 0
    assert {path.suffix for path in (tmp_path / "sheets").iterdir()} == {".pdf"}


def test_a_pattern_too_large_to_tape_together_is_refused_at_once(
    made: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    def grown(thing: object) -> object:
        if isinstance(thing, dict):
            return {key: grown(value) for key, value in thing.items()}
        if isinstance(thing, list):
            return [grown(entry) for entry in thing]
        return thing * 15 if isinstance(thing, float) else thing

    (tmp_path / "huge.json").write_text(
        json.dumps(grown(contract_only(json.loads((made / "pattern.json").read_text()))))
    )
    assert main(["paper", str(tmp_path / "huge.json"), "--scale", "full", "--out", str(tmp_path / "out")]) == 2
    assert "400 are the most that can be joined: print one large sheet instead" in capsys.readouterr().err


def test_the_same_pattern_on_other_paper_keeps_both(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("d.json").write_text(design())
    for paper in ("a4", "letter"):
        assert main(["make", "--size", "88", "d.json", "--out", "x", "--paper", paper]) == 0
    assert {"full-scale-a4.pdf", "full-scale-letter.pdf"} < {path.name for path in Path("x").iterdir()}
