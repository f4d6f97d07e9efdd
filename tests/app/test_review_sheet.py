"""The feedback sheet and the command that makes it."""

import json
import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pikepdf
import pytest
from bad_input.case import design, wearer
from intake.learner_table import Faults, table
from plain_block import plain_block

from panelwright.app.design_file import read_design
from panelwright.app.drawn_file import read_drawn
from panelwright.app.fitting_file import read_fitting
from panelwright.app.garment import make_garment
from panelwright.app.paper import PaperChoice
from panelwright.app.review_sheet import review_sheets
from panelwright.app.review_words import told_points, what_is_right
from panelwright.body.measurement_file import read_measurements
from panelwright.cli.main import main
from panelwright.drawing.drawing import Lettering, Stroke
from panelwright.drawing.sheet import Sheet
from panelwright.intake.review import Review, review

FAULTS = Faults(bows={("SB", 1): 2.0, ("SF", 1): -1.0, ("CB", 1): 0.8}, lying=True)


def reviewed(faults: Faults) -> Review:
    return review(read_drawn(json.dumps(table(plain_block(), faults))), plain_block())


def letterings(sheets: tuple[Sheet, ...]) -> Iterator[tuple[Lettering, Sheet]]:
    """Every text, where it lies on its page."""
    for sheet in sheets:
        for laid in sheet.laid:
            yield from ((sign, sheet) for sign in laid.drawing.moved(laid.shift) if isinstance(sign, Lettering))


def test_the_sheet_numbers_on_the_pieces_what_its_words_tell() -> None:
    found = reviewed(FAULTS)
    told = told_points(found)
    sheets = review_sheets(found, "Plain bodice", PaperChoice(made_on=date(2026, 3, 1)))
    texts = [text for text, _ in letterings(sheets)]
    rings = [int(text.text) for text in texts if text.text.isdigit() and text.layer == "text"]
    assert set(rings) == {each.number for each in told}
    assert [each.point.kind for each in told] == sorted((each.point.kind for each in told), key="seam edge".find)
    for each in told[:5]:
        assert any(text.text.startswith(f"{each.number}. ") and text.bold for text in texts)
    for text, sheet in letterings(sheets):
        left, low, right, high = text.bounds
        assert left >= 0
        assert low >= 0
        assert right <= sheet.width
        assert high <= sheet.height


def test_words_tell_size_side_and_both_scales() -> None:
    told = told_points(reviewed(Faults(bows={("SF", 1): 1.5})))
    (says,) = [each.says for each in told if each.point.kind == "edge"]
    numbers = re.search(
        r"piece “Side front”: lies ([\d.]+) mm outside its place on your paper, ([\d.]+) mm at full scale "
        r"\(limit 0.5 mm on paper\)",
        says,
    )
    assert numbers
    assert float(numbers[1]) == pytest.approx(1.5, abs=0.1)
    assert float(numbers[2]) == pytest.approx(6.0, abs=0.3)


def test_a_right_pattern_is_praised_and_nothing_else() -> None:
    found = reviewed(Faults(noise=0.1, lying=True))
    assert told_points(found) == []
    assert what_is_right(found) == [
        "4 of 4 pieces are there.",
        "16 of 16 lines and 16 of 16 corners lie within 0.5 mm of their place on paper, the width of a pencil's line.",
        "On 3 of 3 seams the two sides fit each other within 2 mm at full scale.",
        "Nothing is to be mended: this pattern is drawn as the design asks.",
    ]


def test_both_lines_of_every_piece_are_drawn_to_scale() -> None:
    (sheet,) = review_sheets(reviewed(Faults(lying=True)), "Plain bodice", PaperChoice())
    for layer in ("stitch lines", "old block line"):
        strokes = [s for laid in sheet.laid for s in laid.drawing if isinstance(s, Stroke) and s.layer == layer]
        assert len(strokes) == 16
        # The block is 400 mm high: 100 mm at quarter scale.
        assert max(s.bounds[3] - s.bounds[1] for s in strokes) == pytest.approx(100.0, abs=0.2)


@pytest.fixture(scope="module")
def files(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("review")
    (folder / "w.json").write_text(wearer())
    (folder / "d.json").write_text(design())
    (folder / "l.json").write_text(json.dumps(table(plain_block(), Faults())))
    square = [[0, 0], [20, 0], [20, 20], [0, 20]]
    edges = [{"points": [a, b]} for a, b in zip(square, square[1:] + square[:1], strict=True)]
    other = {"format": "panelwright-drawn/1", "unit": "mm", "scale": 4, "pieces": [{"id": "x", "edges": edges}]}
    (folder / "x.json").write_text(json.dumps(other))
    (folder / "out").mkdir()
    return folder


def test_the_command_gives_points_and_a_sheet(
    files: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The plain block is nobody's, so that drawn for this wearer it is off everywhere; a piece drawn by nobody."""
    monkeypatch.chdir(files)
    assert main(["review", "w.json", "d.json", "l.json", "--out", "f.pdf", "--paper", "letter", "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["points"]
    for point in answer["points"]:
        assert point["unit"] != "mm" or abs(point["value"]) > point["limit"]
        assert all(point[words] for words in ("says", "why", "mend"))
    assert [point["number"] for point in answer["points"] if point["matters_most"]] == [1, 2, 3, 4, 5]
    with pikepdf.open("f.pdf") as document:
        assert len(document.pages) == answer["pages"]
        assert [float(value) for value in document.pages[0].mediabox] == [0, 0, 612, 792]
    assert b"w-07" not in Path("f.pdf").read_bytes()


def test_a_learner_who_drew_from_the_fitted_block_is_held_against_it(
    files: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(files)
    note = {"kind": "take-in", "seam": "side", "level": "waist", "amount_cm": 1}
    notes = json.dumps({"format": "panelwright-fitting/1", "wearer": "w-07", "notes": [note]})
    Path("f.json").write_text(notes, encoding="utf-8")
    drawn = make_garment(read_measurements(wearer()), read_design(design()), fitting=read_fitting(notes))
    Path("fitted.json").write_text(json.dumps(table(drawn.cutting.pattern, Faults())), encoding="utf-8")
    words = ["review", "w.json", "d.json", "fitted.json", "--out", str(tmp_path / "f.pdf"), "--json"]
    assert main([*words, "--fitting", "f.json"]) == 0
    assert json.loads(capsys.readouterr().out)["points"] == []
    assert main(words) == 0
    assert json.loads(capsys.readouterr().out)["points"]


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (
            "w.json d.json",
            "`panelwright review` takes a measurements file (or --size 88) and a design file and a file of the "
            "learner's pieces, but 2 files were given",
        ),
        ("w.json d.json d.json", '"d.json": '),
        ("w.json d.json nix.json", '"nix.json"'),
        ("w.json d.json l.json --out out", '"out" is a folder: give a file like own-block-feedback.pdf'),
        ("w.json d.json l.json --paper a5", 'the paper "a5" is not known'),
        ("w.json d.json x.json", "none of these pieces is like one of the design's: name them as its pieces are named"),
    ],
)
def test_what_cannot_be_used_is_one_sentence(
    files: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], words: str, sentence: str
) -> None:
    monkeypatch.chdir(files)
    assert main(["review", *words.split()]) == 2
    said = [line for line in capsys.readouterr().err.splitlines() if line.startswith("panelwright: ")]
    assert len(said) == 1
    assert sentence in said[0]
