"""Photos and drawings to a table of points: the way from paper to `panelwright own`, and what is refused."""

import json
import sys
from pathlib import Path

import numpy as np
import pytest
from intake.photo_compare import compared
from intake.photo_truth import laid_out, outer_pieces
from intake.rendered_photo import Scene, jpeg, render

import panelwright.intake
from panelwright.app.demo.troupe import designs
from panelwright.app.drawn_file import load_drawn
from panelwright.app.garment import make_garment
from panelwright.body.size_table import size
from panelwright.cli.main import main
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.output.dxf_pattern import dxf_bytes
from panelwright.output.pattern_file import read_pattern
from panelwright.output.svg_pattern import svg_pattern
from panelwright.pattern.pattern import Pattern


@pytest.fixture(scope="module")
def garment() -> CuttingPattern:
    design = next(cut.design for cut in designs() if cut.design.ref == "lantern-01")
    return make_garment(size(88), design).cutting


@pytest.fixture(scope="module")
def photo() -> tuple[bytes, Scene]:
    pieces = laid_out(outer_pieces("lantern-01", "w-01"), np.random.default_rng(7), 10.0, 130.0)
    scene = Scene(tuple(pieces), size=(2000, 1500), table="walnut", tilt=12.0)
    pixels, _ = render(scene)
    return jpeg(pixels, 90), scene


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def half_lengths(pattern: Pattern, level: str) -> dict[str, float]:
    lines = {piece.id: piece.inside_line(level) for piece in pattern.pieces}
    return {id: line.curve.length for id, line in lines.items() if line is not None and "/" not in id}


def test_a_drawing_goes_round_to_the_same_pattern(folder: Path, garment: CuttingPattern) -> None:
    (folder / "lantern.svg").write_text(svg_pattern(garment, "Lantern"), encoding="utf-8")
    assert main(["read", "lantern.svg", "--out", "block.json"]) == 0
    drawn = load_drawn(folder / "block.json")
    outer = {piece.id for piece in garment.pattern.pieces if "/" not in piece.id}
    assert {piece.id for piece in drawn.pieces} >= outer
    assert (drawn.scale, drawn.allowance) == (1.0, 0.0)
    assert main(["own", "block.json", "--out", "own", "--scale", "quarter"]) in (0, 1)
    own = read_pattern(folder / "own" / "pattern.json").pattern
    for level in ("bust", "waist"):
        before, after = half_lengths(garment.pattern, level), half_lengths(own, level)
        assert set(before) <= set(after)
        for id, length in before.items():
            assert after[id] == pytest.approx(length, abs=0.1)


def test_photos_are_joined_in_order_and_true_to_the_paper(folder: Path, photo: tuple[bytes, Scene]) -> None:
    content, scene = photo
    for name in ("one.jpg", "two.jpg"):
        (folder / name).write_bytes(content)
    words = ["--scale", "quarter", "--allowance", "1", "--centimetre", "garment"]
    assert main(["read", "one.jpg", "two.jpg", *words]) == 0
    drawn = load_drawn(folder / "own-block.json")
    assert [piece.id for piece in drawn.pieces] == [f"piece-{k}" for k in range(1, 9)]
    assert (drawn.scale, drawn.allowance, drawn.allowance_on_paper) == (4.0, 10.0, 2.5)
    for pieces in (drawn.pieces[:4], drawn.pieces[4:]):
        errors = np.concatenate([result.errors for result in compared(pieces, scene.pieces)])
        assert np.percentile(errors, 95) < 0.4


def test_second_layers_of_a_garment_are_to_be_left_out(
    folder: Path, garment: CuttingPattern, capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "made.dxf").write_bytes(dxf_bytes(garment))
    assert main(["read", "made.dxf", "--json"]) == 0
    asked = [sentence for sentence in json.loads(capsys.readouterr().out)["asked"] if sentence.startswith("Take ")]
    named = asked[0].removeprefix("Take ").partition(" out of the file")[0].split(", ")
    assert sorted(named) == sorted(
        piece.id.replace("/", "_") for piece in garment.pattern.pieces if piece.layer != "outer"
    )


def test_what_is_guessed_and_what_is_still_to_say_is_told(
    folder: Path, photo: tuple[bytes, Scene], capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "one.jpg").write_bytes(photo[0])
    assert main(["read", "one.jpg", "--json"]) == 0
    facts = json.loads(capsys.readouterr().out)
    assert facts["pieces"] == ["piece-1", "piece-2", "piece-3", "piece-4"]
    assert any("Scale: quarter is guessed" in sentence for sentence in facts["told"])
    assert any("0.5 mm wide is 2 mm at full scale" in sentence for sentence in facts["told"])
    asked = " ".join(facts["asked"])
    assert all(
        words in asked
        for words in (
            "Compare the picture with the paper",
            "--allowance",
            "Name piece-1, piece-2",
            '"kind": "fold"',
            "Name the levels",
        )
    )
    picture = (folder / "own-block-picture.svg").read_text(encoding="utf-8")
    assert picture.startswith("<svg") or "<svg" in picture[:400]


def test_a_drawing_and_a_photo_make_one_pattern(
    folder: Path, garment: CuttingPattern, photo: tuple[bytes, Scene]
) -> None:
    (folder / "lantern.svg").write_text(svg_pattern(garment, "Lantern"), encoding="utf-8")
    (folder / "one.jpg").write_bytes(photo[0])
    assert main(["read", "lantern.svg", "lantern.svg", "one.jpg", "--out", "b.json"]) == 0
    names = [piece.id for piece in load_drawn(folder / "b.json").pieces]
    assert len(names) == len(set(names))
    assert {"CF", "CF-2", "piece-1"} <= set(names)


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        ([], "no files are given"),
        (["missing.jpg"], 'there is no file "missing.jpg"'),
        (["text.txt"], '"text.txt": the file is neither a drawing (DXF or SVG) nor a photo'),
        (["broken.jpg"], '"broken.jpg": '),
        (["text.txt", "--scale", "half"], "--scale is full or quarter"),
        (["text.txt", "--allowance", "9"], "--allowance takes 0 to 6 cm"),
        (["text.txt", "--allowance", "nan"], "--allowance takes 0 to 6 cm"),
        (["text.txt", "--centimetre", "mine"], "--centimetre is garment or paper"),
        (["text.txt", "--drawing-unit", "ells"], "--drawing-unit is one of millimetres"),
        (["text.txt", "--square", "wide"], "--square takes 0 to 200 mm"),
        (["text.txt", "--out", "."], "is a folder"),
        (["text.txt", "--out", "text.txt"], '"text.txt" would be written over'),
        (["b-picture.svg", "--out", "b.json"], '"b-picture.svg" would be written over'),
    ],
)
def test_what_cannot_be_read_is_refused_in_one_sentence(
    words: list[str], sentence: str, folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "text.txt").write_text("a letter, not a pattern", encoding="utf-8")
    (folder / "broken.jpg").write_bytes(b"\xff\xd8\xff\xe0 not a picture")
    assert main(["read", *words]) == 2
    assert sentence in capsys.readouterr().err
    assert not (folder / "own-block.json").exists()


def test_a_bad_photo_or_a_hostile_file_ends_the_command_in_one_sentence(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "grey.jpg").write_bytes(jpeg(np.full((900, 1200, 3), 128, np.uint8), 90))
    (folder / "bomb.svg").write_text('<!DOCTYPE s [<!ENTITY a "aa">]><svg xmlns="http://www.w3.org/2000/svg">&a;</svg>')
    (folder / "cut.dxf").write_text("0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n")
    for name in ("grey.jpg", "bomb.svg", "cut.dxf"):
        assert main(["read", name]) == 2
        told = [line for line in capsys.readouterr().err.splitlines() if not line.startswith("[")]
        assert len(told) == 1
        assert name in told[0]
    assert not (folder / "own-block.json").exists()


def test_without_the_photo_extra_the_remedy_is_told(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setitem(sys.modules, "panelwright.intake.photo_pieces", None)
    monkeypatch.delattr(panelwright.intake, "photo_pieces", raising=False)
    (folder / "grey.jpg").write_bytes(b"\xff\xd8\xff")
    assert main(["read", "grey.jpg"]) == 2
    assert "reading photos needs the extra `photo`: install panelwright[photo]" in capsys.readouterr().err


def test_the_reference_sheet_is_printed_on_either_paper(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sheet"]) == 0
    assert main(["sheet", "--paper", "letter", "--out", "letter.pdf"]) == 0
    assert (folder / "reference-sheet.pdf").read_bytes().startswith(b"%PDF")
    assert (folder / "letter.pdf").stat().st_size > 2000
    assert main(["sheet", "--paper", "a3"]) == 2
    assert "--paper is a4 or letter" in capsys.readouterr().err
