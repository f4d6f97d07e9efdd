"""The order of work on paper and as data, for a learner with nothing but a size."""

import json
from pathlib import Path

import pikepdf
import pytest
from bad_input.case import design

from panelwright.cli.main import main


def test_the_order_of_work_of_a_size_is_printed_and_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "d.json").write_text(design(finish={"facing": "full"}))
    out = tmp_path / "order.pdf"
    words = ["order", "--size", "88", str(tmp_path / "d.json"), "--out", str(out), "--paper", "letter", "--json"]
    assert main(words) == 0
    told = json.loads(capsys.readouterr().out)
    with pikepdf.open(out) as document:
        assert len(document.pages) == told["pages"] > 1
        assert [round(float(value)) for value in document.pages[0].mediabox] == [0, 0, 612, 792]
    titles = [task["title"] for task in told["tasks"]]
    assert titles.index("Panel seams of the front") < titles.index("Side seams") < titles.index("Make the facing")
    side = next(sewn for task in told["tasks"] for sewn in task["sewn"] if sewn["seam"] == "side")
    assert (side["stitch"], side["seam_class"]) == (301, 1)
    assert 400 < side["length_mm"] < 700  # twice a side seam of a bodice


def test_inches_are_told_in_inches(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    step = {"kind": "strap", "uid": "straps", "type": "separate", "width_cm": 2.5}
    steps = [
        {"kind": "top-edge", "uid": "top", "shape": "straight", "centre": {"level": "upper-bust"},
         "side": {"level": "upper-bust"}},
        step,
    ]  # fmt: skip
    (tmp_path / "d.json").write_text(design(steps=steps, finish={"facing": "full"}))
    words = ["order", "--size", "88", str(tmp_path / "d.json"), "--out", str(tmp_path / "o.pdf"), "--units", "inches"]
    assert main([*words, "--json"]) in (0, 1)
    told = json.loads(capsys.readouterr().out)
    strap = next(task for task in told["tasks"] if task["title"].startswith("Strap"))
    assert any("1/4 in" in words for words in strap["words"])
