"""Your own block from its file to paper: the command, the example of the guide, designs on it, cloth, refusals."""

import json
import re
from contextlib import suppress
from dataclasses import replace
from pathlib import Path

import pikepdf
import pytest
from bad_input.case import design as design_text
from bad_input.case import wearer as wearer_text
from design.demo_garments import demo_garment
from hypothesis import given, settings
from intake.drawn_pieces import drawn_patterns, on_paper
from measured_pattern import MeasuredPattern
from plain_block import plain_block
from verifier import violations

from panelwright.app.demo.troupe import designs, troupe
from panelwright.app.drawn_file import drawn_document, read_drawn, save_drawn
from panelwright.app.drawn_record import (
    DrawnRecord,
    EdgeRecord,
    EdgeRefRecord,
    MarkRecord,
    NotchRecord,
    PieceRecord,
    SeamRecord,
)
from panelwright.app.garment_design import GarmentDesign
from panelwright.app.lay import lays_of
from panelwright.app.own_block import make_own_block
from panelwright.app.own_block_picture import LARGER, truing_sheet
from panelwright.app.paper import PrintJob
from panelwright.cli.main import main
from panelwright.drawing.drawing import Lettering, Stroke
from panelwright.errors import DesignError, PanelwrightError
from panelwright.intake.drawn_pattern import DrawnPattern
from panelwright.output.pattern_document import pattern_to_json


def demo_design(ref: str) -> GarmentDesign:
    return next(each.design for each in designs() if each.design.ref == ref)


def hand_drawn(ref: str = "lantern-01") -> DrawnPattern:
    return on_paper(demo_garment(ref).block, noise=0.2, spacing=5)


@pytest.fixture
def guide(repository: Path) -> str:
    return (repository / "docs" / "user-guide.md").read_text(encoding="utf-8")


def guide_example(guide: str) -> str:
    return next(
        text for text in re.findall(r"^```json\n(.*?)^```$", guide, re.M | re.S) if "panelwright-drawn/1" in text
    )


def test_the_example_of_the_guide_becomes_a_true_pattern(
    guide: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], shared: Path
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("own-01.json").write_text(guide_example(guide))
    Path("w-07.json").write_text(wearer_text())
    commands = [line.split() for line in guide.splitlines() if line.startswith("panelwright own ")]
    assert [main(words[1:]) for words in commands] == [1, 0]
    assert "add --true to have it trued" in capsys.readouterr().out
    names = {path.name for path in Path("own-01").iterdir()}
    pictures = {"overview.svg", "truing.svg"}
    assert names == {"pattern.json", "findings.txt", "quarter-scale-a4.pdf", "full-scale-a4.pdf", *pictures}
    document = json.loads(Path("own-01/pattern.json").read_text())
    assert violations(shared, document) == []
    # 4 × (46 + 46) mm of paper, twice round the body.
    measured = MeasuredPattern(document)
    assert 2 * sum(measured.widths("waist").values()) == pytest.approx(736, abs=0.5)
    a, b = measured.seam_sides(next(seam for seam in document["seams"] if seam["id"] == "side"))
    assert a == pytest.approx(b, abs=0.01)
    with pikepdf.open("own-01/quarter-scale-a4.pdf") as pages:
        assert len(pages.pages) == 1


def test_the_guide_names_every_field(guide: str) -> None:
    chapter = guide.split("## Bring your own block")[1].split("\n## ")[0]
    named = set(re.findall(r"`([a-z_-]+)`", chapter)) | set(re.findall(r'"([a-z_]+)":', chapter))
    records = (DrawnRecord, PieceRecord, EdgeRecord, NotchRecord, MarkRecord, SeamRecord, EdgeRefRecord)
    assert {name for record in records for name in record.model_fields} - named == set()


def test_a_design_without_the_body_works_on_it_down_to_the_cloth(shared: Path) -> None:
    """Top edge, hem, closure and bones of the demo on a hand-drawn block; facing, lays and sheets after them."""
    dancer = next(troupe()).wearer
    own = make_own_block(hand_drawn(), dancer, demo_design("lantern-01"), true=True)
    assert [f.message for f in own.findings if f.severity == "error"] == []
    assert violations(shared, pattern_to_json(own.cutting)) == []
    assert [step.kind for step in own.pattern.steps] == ["top-edge", "hem", "closure", "bones"]
    assert any(piece.layer == "facing" for piece, _ in own.cutting.pieces)
    assert len(lays_of(own.cutting)) >= 1
    assert len(PrintJob(own.cutting, own.title, block=own.block).sheets("quarter")) >= 1


def test_a_tie_can_be_designed_on_it(shared: Path) -> None:
    own = make_own_block(hand_drawn("round-04"), None, demo_design("round-04"), true=True)
    assert violations(shared, pattern_to_json(own.cutting)) == []


@pytest.mark.parametrize("ref", ["ribbon-02", "moon-05"])
def test_a_step_that_needs_the_body_is_refused_in_a_sentence(ref: str) -> None:
    with pytest.raises(DesignError, match=r"needs the body under the block, up to the shoulder, and a block read off"):
        make_own_block(hand_drawn(), None, demo_design(ref), true=True)


def test_without_levels_a_step_that_speaks_of_them_is_refused() -> None:
    drawn = hand_drawn()
    bare = replace(drawn, pieces=tuple(replace(piece, inside=()) for piece in drawn.pieces))
    with pytest.raises(DesignError, match="the panels of the block share fewer than two levels"):
        make_own_block(bare, None, demo_design("lantern-01"))
    assert len(make_own_block(bare).cutting.pieces) == 4


def test_the_allowance_of_the_drawing_is_the_allowance_of_the_pieces() -> None:
    """The drawn outline at full scale, less 15 mm and plus 15 mm, is the drawn outline."""
    drawn = replace(on_paper(plain_block(), scale=1.0, spacing=12), allowance=15.0)
    own = make_own_block(drawn)
    assert {w for _, cut in own.cutting.pieces for w in cut.allowances.values()} == {0.0, 15.0}
    waist = next(line for line in drawn.pieces[1].inside if line.id == "waist").curve.length
    inner = own.pattern.piece("SF").inside_line("waist")
    assert inner is not None
    assert inner.curve.length == pytest.approx(waist - 30.0, abs=0.1)


def test_the_picture_shows_each_changed_edge_dotted_and_the_new_one_solid() -> None:
    own = make_own_block(hand_drawn(), true=True)
    sheet = truing_sheet(own.truing, PrintJob(own.cutting, own.title).heading, True)
    strokes = [sign for laid in sheet.laid for sign in laid.drawing if isinstance(sign, Stroke)]
    dotted = [stroke for stroke in strokes if stroke.layer == "old block line"]
    assert len(dotted) == len(own.truing.changes) > 5
    assert all(stroke.pen.dash for stroke in dotted)
    solid = [stroke for stroke in strokes if stroke.layer == "stitch lines"]
    assert len(solid) == sum(len(piece.edges) for piece in own.pattern.pieces)
    words = [sign.text for laid in sheet.laid for sign in laid.drawing if isinstance(sign, Lettering)]
    first = own.truing.changes[0]
    assert f"{first.piece}: {first.edge.split('.')[1].replace('-', ' ')}, {first.most:.1f} mm" in words
    assert any("drawn 10 times as large" in text for text in words)
    assert 10 in LARGER
    for laid in sheet.laid:
        left, bottom, right, top = laid.drawing.bounds
        x, y = laid.shift
        assert left + x >= 0
        assert right + x <= sheet.width
        assert bottom + y >= 0
        assert top + y <= sheet.height


def test_what_a_program_reads(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    save_drawn(replace(hand_drawn(), seams=()), tmp_path / "own.json")
    words = [
        "own",
        str(tmp_path / "own.json"),
        "--true",
        "--scale",
        "quarter",
        "--out",
        str(tmp_path / "out"),
        "--json",
    ]
    assert main(words) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["trued"] is True
    assert answer["changes"][0]["most_mm"] >= answer["changes"][-1]["most_mm"] >= 0.05
    assert answer["left_as_drawn"] == []
    codes = [finding["code"] for finding in answer["findings"]]
    assert codes.count("seam-suggested") + codes.count("seam-doubtful") == 3
    assert "pencil-girth" in codes
    assert [Path(file).name for file in answer["files"]][-1] == "quarter-scale-a4.pdf"


def test_an_edge_that_is_left_is_said_on_the_sheet_and_by_the_command(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    drawn = hand_drawn()
    side = drawn.piece("SF")
    edges = tuple(replace(edge, as_drawn=edge.line == "side") for edge in side.edges)
    drawn = replace(drawn, pieces=tuple(replace(p, edges=edges) if p is side else p for p in drawn.pieces))
    save_drawn(drawn, tmp_path / "own.json")
    words = ["own", str(tmp_path / "own.json"), "--true", "--scale", "quarter", "--out", str(tmp_path / "out")]
    assert main([*words, "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    (left,) = answer["left_as_drawn"]
    assert (left["piece"], left["edge"]) == ("SF", "SF.side")
    assert left["edge"] not in {change["edge"] for change in answer["changes"]}
    assert f"SF: side, {left['most_mm']:.1f} mm: left as drawn" in (tmp_path / "out" / "truing.svg").read_text()
    assert main(words) == 0
    assert "trued but for 1 edge left as drawn" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        ([], "`panelwright own` takes a file of your own pieces, but no files were given"),
        (["none.json"], 'there is no file "none.json"'),
        (["d.json"], '"d.json": the file holds a design, not pieces read off paper'),
        (["own.json", "--wearer", "own.json"], '"own.json": the file holds pieces read off paper, not measurements'),
        (["own.json", "--scale", "half"], 'the scale "half" is not known'),
        (["cut.json"], '"cut.json": the file breaks off in line'),
    ],
)
def test_what_cannot_be_used_is_one_sentence(
    words: list[str],
    sentence: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    text = json.dumps(drawn_document(on_paper(plain_block())))
    Path("own.json").write_text(text)
    Path("cut.json").write_text(text[: text.index("[", len(text) // 2)])
    Path("d.json").write_text(design_text())
    assert main(["own", *words, *(["--out", "out"] if words else [])]) == 2
    told = [line for line in capsys.readouterr().err.splitlines() if not line.startswith("[")]
    assert len(told) == 1
    assert told[0].startswith(f"panelwright: {sentence}")
    assert not Path("out/pattern.json").exists()


def test_the_example_is_read_as_it_was_meant(guide: str) -> None:
    drawn = read_drawn(guide_example(guide))
    assert drawn.scale == 4.0
    assert [len(piece.edges) for piece in drawn.pieces] == [4, 4]


@given(drawn_patterns())
@settings(max_examples=25)
def test_whatever_was_drawn_is_a_pattern_or_a_sentence(drawn: DrawnPattern) -> None:
    """A fault of ours would be any other exception."""
    with suppress(PanelwrightError):
        own = make_own_block(drawn)
        assert [piece.id for piece, _ in own.cutting.pieces] == [p.id for p in own.pattern.pieces]
