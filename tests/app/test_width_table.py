"""Length against cloth width from the command line: table, plot and what is refused."""

import json
from pathlib import Path

import pikepdf
import pytest
from app.test_instance_lay import DEMO

from panelwright.cli.main import main

GARMENT = [str(DEMO / "wearer-w-01.json"), str(DEMO / "design-lantern-01.json")]


def test_the_table_and_its_files(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    words = ["widths", *GARMENT, "--widths", "152, 90,45 in", "--sold-by", "25"]
    assert main([*words, "--out", "w.svg", "--json"]) == 0
    facts = json.loads(capsys.readouterr().out)
    assert [one["width_mm"] for one in facts["widths"]] == pytest.approx([900.0, 1143.0, 1520.0])
    for one in facts["widths"]:
        assert [lay["folded"] for lay in one["lays"]] == [True, False]
        for lay in one["lays"]:
            assert 0.0 <= lay["to_buy_mm"] - lay["length_mm"] < 250.0
            assert lay["to_buy_mm"] % 250.0 == pytest.approx(0.0)
    drawn = Path("w.svg").read_text(encoding="utf-8")
    assert all(text in drawn for text in ("Lay, folded", "width of the cloth, cm", "rounded up to full 25.0 cm"))
    assert main([*words, "--out", "w.pdf"]) == 0
    told = capsys.readouterr().out
    assert f"{facts['widths'][0]['lays'][0]['length_mm'] / 10:.1f}" in told
    with pikepdf.open("w.pdf") as document:
        assert len(document.pages) == 1


def test_notes_are_carried_out_before_the_garment_is_laid(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Four centimetres more in every panel need more cloth of any width that they lie on side by side."""
    monkeypatch.chdir(tmp_path)
    note = {"kind": "lengthen", "place": "above-waist", "amount_cm": 4}
    notes = {"format": "panelwright-fitting/1", "wearer": "w-01", "notes": [note]}
    Path("f.json").write_text(json.dumps(notes), encoding="utf-8")
    lengths = []
    for further in ([], ["--fitting", "f.json"]):
        assert main(["widths", *GARMENT, "--widths", "150", "--out", "w.pdf", "--json", *further]) == 0
        (one,) = json.loads(capsys.readouterr().out)["widths"]
        lengths.append(min(lay["length_mm"] for lay in one["lays"]))
    assert 20.0 < lengths[1] - lengths[0] < 200.0


def test_a_narrow_cloth_is_told_and_the_others_are_laid(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(["widths", *GARMENT, "--widths", "12,150"]) == 0
    told = capsys.readouterr().out
    assert "– Too narrow. Centre front" in told


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        ([*GARMENT, "--widths", "ninety"], '"ninety" is not a length'),
        ([*GARMENT, "--widths", "5"], "the width is 5 cm; give between 10 and 400 cm"),
        ([*GARMENT, "--widths", "11,12"], "across the grain and the outer cloth, spread out, is 12.0 cm wide"),
        ([*GARMENT, "--cloth", "outter"], 'no piece is cut from "outter"; did you mean outer?'),
        ([*GARMENT, "--out", "w.txt"], '"w.txt" is no picture'),
        ([*GARMENT, "--lay-seconds", "0"], "give more than 0"),
        ([*GARMENT, "--widths", "90", "--sold-by", "-1"], "--sold-by"),
        ([], "takes a measurements file (or --size 88) and a design file, but no files were given"),
    ],
)
def test_what_cannot_be_asked_is_told_in_a_sentence(
    words: list[str],
    sentence: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(["widths", *words]) == 2
    assert sentence in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []
