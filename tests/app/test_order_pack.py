"""The order of work on paper and as data, for a learner with nothing but a size."""

import json
from pathlib import Path
from typing import Any

import pikepdf
import pytest
from bad_input.case import HEM, TOP, design
from pdf_reading import text_of

from panelwright.app import garment_cost, shopping_rows
from panelwright.app.design_file import read_design
from panelwright.app.garment import make_garment
from panelwright.body.size_table import size
from panelwright.body.units import Unit
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


PRICES = {
    "format": "panelwright-group/1",
    "ref": "festival",
    "title": "Festival",
    "money": "EUR",
    "garments": [
        {"size": 92, "design": "d.json", "cloths": {"outer": "red silk"}},
        {"size": 88, "design": "d.json", "cloths": {"outer": "blue silk"}},
    ],
    "cloths": {
        "red silk": {"width_cm": 140, "price_per_metre": 99},
        "blue silk": {"width_cm": 140, "price_per_metre": 20, "sold_by_cm": 25},
        "facing": {"width_cm": 145, "price_per_metre": 5},
        "velvet": {"width_cm": 140, "price_per_metre": 70},
    },
    "notion_prices": {"separating zip": 3.5, "lacing cord": 0.9},
    "spare": {"cloth_percent": 50},
}
ZIP = {"kind": "closure", "uid": "back", "place": "centre-back", "type": "zip"}


def ordered(folder: Path, capsys: pytest.CaptureFixture[str], *further: str, **changes: object) -> dict[str, Any]:
    (folder / "d.json").write_text(design(steps=[TOP, HEM, ZIP], finish={"facing": "full"}, **changes))
    (folder / "group.json").write_text(json.dumps(PRICES))
    words = ["order", "--size", "88", str(folder / "d.json"), "--out", str(folder / "o.pdf"), "--json"]
    assert main([*words, *further]) == 0
    told: dict[str, Any] = json.loads(capsys.readouterr().out)
    return told


def test_the_cost_is_that_of_the_garments_own_lays_and_notions(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Reckoned again from the lays of the same garment: metres as the shop cuts them, times the price."""
    told = ordered(tmp_path, capsys, "--prices", str(tmp_path / "group.json"))["costs"]
    silk, facing = told["cloths"]
    assert (silk["cloth"], facing["cloth"]) == ("blue silk", "facing")
    cloths = {
        "outer": {"width_cm": 140, "sold_by_cm": 25},
        "facing": {"width_cm": 145},
    }
    garment = make_garment(
        size(88), read_design(design(steps=[TOP, HEM, ZIP], finish={"facing": "full"}, cloth_to_buy=cloths))
    )
    for bought, lay, price in zip((silk, facing), garment.lays, (20, 5), strict=True):
        assert bought["to_buy_mm"] == lay.to_buy
        assert bought["cost"] == pytest.approx(price * lay.to_buy / 1000)
    assert [notion["cost"] for notion in told["notions"]] == [3.5]
    assert told["cost"] == pytest.approx(silk["cost"] + facing["cost"] + 3.5)
    assert told["without_price"] == []
    with pikepdf.open(tmp_path / "o.pdf") as document:
        last = len(document.pages) - 1
    text = " ".join(text_of(tmp_path / "o.pdf", last).split())
    assert "What it costs" in text
    assert f"In all {told['cost']:.2f} EUR" in text


def test_a_bill_takes_its_columns_by_their_heads(monkeypatch: pytest.MonkeyPatch) -> None:
    """A shopping list may put its columns otherwise, or have more; the bill stays."""
    shopping = garment_cost.garment_cost(make_garment(size(88), read_design(design(steps=[TOP, HEM, ZIP]))))
    bill = garment_cost.bill_of(shopping)
    for rows, heads in (("cloth_rows", "CLOTH_HEADS"), ("notion_rows", "NOTION_HEADS")):
        told = [list(reversed(row)) for row in getattr(shopping_rows, rows)(shopping, Unit.CM)]
        monkeypatch.setattr(garment_cost, rows, lambda *_, told=told: told)
        monkeypatch.setattr(garment_cost, heads, tuple(reversed(getattr(shopping_rows, heads))))
    assert garment_cost.bill_of(shopping) == bill
    assert [cells[2] for cells in bill.cloths] == [f"{each.to_buy / 1000:.2f} m" for each in shopping.cloths]


def test_prices_of_the_design_will_do_and_without_any_there_is_no_cost(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert ordered(tmp_path, capsys)["costs"] is None
    told = ordered(tmp_path, capsys, cloth_to_buy={"outer": {"width_cm": 140, "price_per_metre": 20}})["costs"]
    assert told["cost"] == pytest.approx(20 * told["cloths"][0]["to_buy_mm"] / 1000)
    assert told["without_price"] == ["facing", "separating zip"]


def test_what_is_no_file_of_prices_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "d.json").write_text(design())
    words = ["order", "--size", "88", str(tmp_path / "d.json"), "--prices", str(tmp_path / "d.json")]
    assert main(words) == 2
    assert "the file holds a design, not a group" in capsys.readouterr().err
