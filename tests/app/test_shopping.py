"""Buying for a group: the list reckoned again from its own parts, its files, and what is refused."""

import csv
import json
from pathlib import Path
from typing import Any

import pikepdf
import pypdfium2
import pytest
from app.test_instance_lay import DEMO
from skirt_garment import document
from tidy_sheet import assert_sheet_is_tidy

from panelwright.app.garment import Garment
from panelwright.app.group import load_group
from panelwright.app.paper import PaperChoice
from panelwright.app.shopping import Shopping, make_group, shopping_for
from panelwright.app.shopping_folder import write_shopping
from panelwright.app.shopping_rows import total_words
from panelwright.app.shopping_sheet import group_lay_sheets, shopping_sheets
from panelwright.app.shopping_text import shopping_csv, shopping_text
from panelwright.body.units import Unit
from panelwright.cli.main import main
from panelwright.errors import BlockError
from panelwright.lay.piece_to_cut import pieces_to_cut

LANTERN, DRUM = str(DEMO / "design-lantern-01.json"), str(DEMO / "design-drum-03.json")
W01, W02 = str(DEMO / "wearer-w-01.json"), str(DEMO / "wearer-w-02.json")
SILK = {"width_cm": 114, "folded": True, "sold_by_cm": 10, "price_per_metre": 28}
CALICO = {"width_cm": 150, "folded": True, "shrinkage_percent": 5, "price_per_metre": 4}
GROUP: dict[str, Any] = {
    "format": "panelwright-group/1",
    "ref": "lanterns",
    "title": "Lantern bearers",
    "money": "EUR",
    "garments": [
        {"wearer": W01, "design": LANTERN, "cloths": {"outer": "silk"}},
        {"wearer": W02, "design": LANTERN, "count": 2, "cloths": {"outer": "silk"}},
    ],
    "cloths": {"silk": SILK, "facing": CALICO},
    "notion_prices": {"separating zip": 3.5},
    "spare": {"cloth_percent": 10, "notions_percent": 10},
}


def saved(folder: Path, **changes: object) -> Path:
    path = folder / "group.json"
    path.write_text(json.dumps({**GROUP, **changes}), encoding="utf-8")
    return path


@pytest.fixture(scope="module")
def shopping(tmp_path_factory: pytest.TempPathFactory) -> Shopping:
    group = load_group(saved(tmp_path_factory.mktemp("group")))
    return shopping_for(group, make_group(group))


def test_every_cloth_is_bought_for_all_that_is_cut_from_it(shopping: Shopping) -> None:
    assert [bought.cloth.name for bought in shopping.cloths] == ["silk", "facing", "interfacing"]
    for bought, own in zip(shopping.cloths, ("outer", "facing", "interfacing"), strict=True):
        area = sum(
            count * piece.area
            for count, garment in zip((1, 2), shopping.garments, strict=True)
            for piece in pieces_to_cut(garment.cutting, own)
        )
        assert bought.use == pytest.approx(area / (bought.cloth.width * sum(lay.length for lay in bought.lays)))
        needed = bought.length * 1.1 / (1 - bought.cloth.shrinkage)
        assert 0.0 <= bought.to_buy - needed < bought.cloth.sold_by
    silk, facing, interfacing = shopping.cloths
    assert silk.cost == pytest.approx(28 * silk.to_buy / 1000)
    assert facing.cost == pytest.approx(4 * facing.to_buy / 1000)
    assert interfacing.cloth.assumed


def test_two_wearers_who_share_a_reference_get_a_block_each(tmp_path: Path) -> None:
    other = json.loads(Path(W02).read_text(encoding="utf-8")) | {"ref": "w-01"}
    (tmp_path / "other.json").write_text(json.dumps(other), encoding="utf-8")
    skirt = str(DEMO / "design-ring-08.json")
    group = load_group(saved(tmp_path, garments=[{"wearer": who, "design": skirt} for who in (W01, "other.json", W01)]))
    first, second, again = make_group(group)
    assert again.block is first.block
    assert group.garments[0].wearer.ref == group.garments[1].wearer.ref
    for made, own in zip((first, second), group.garments, strict=False):
        waist = next(level.body_girth for level in made.block.pattern.levels if level.id == "waist")
        assert waist == pytest.approx(own.wearer["waist_girth"])


def test_a_block_that_cannot_be_made_names_whose_it_is(tmp_path: Path) -> None:
    flared = {"gores": 4, "length_cm": 35, "flare_cm": 30}
    (tmp_path / "d.json").write_text(json.dumps(document("gored-skirt", [], skirt=flared)), encoding="utf-8")
    group = load_group(saved(tmp_path, garments=[{"wearer": W02, "design": "d.json"}]))
    with pytest.raises(BlockError, match=r"^Skirt for w-02: the seams of 4 gores would lean"):
        make_group(group)


NOTES: dict[str, Any] = {
    "format": "panelwright-fitting/1",
    "wearer": "w-01",
    "notes": [
        {"kind": "take-in", "seam": "back-princess", "level": "waist", "amount_cm": 0.6},
        {"kind": "take-in", "seam": "front-underarm", "level": "waist", "amount_cm": 0.5},
    ],
}


def waist(garment: Garment) -> float:
    return garment.cutting.pattern.level("waist").finished_girth


def test_a_wearers_notes_go_with_all_garments_of_that_wearer(tmp_path: Path) -> None:
    """6 mm each side of both back princess seams are 24 mm of waist (geometry); four panels have no underarm seam."""
    skirt = str(DEMO / "design-ring-08.json")
    garments = [{"wearer": who, "design": cut} for who, cut in ((W01, LANTERN), (W02, LANTERN), (W01, skirt))]
    (tmp_path / "f.json").write_text(json.dumps(NOTES), encoding="utf-8")
    plain = make_group(load_group(saved(tmp_path, garments=garments)))
    group = load_group(saved(tmp_path, garments=garments, fittings=["f.json"], cloths={}, notion_prices={}))
    made = make_group(group)
    changes = [waist(own) - waist(before) for own, before in zip(made, plain, strict=True)]
    assert changes == pytest.approx([-24.0, 0.0, 0.0], abs=0.1)
    shopping = shopping_for(group, made)
    assert shopping.fitted == ("A",)
    assert shopping.notes_left_out == ("A", "C")
    text = shopping_text(shopping, Unit.CM)
    assert "Cut after the wearer's fitting notes: A." in text
    assert "some change nothing on A, C:" in " ".join(text.split())


def test_notes_on_the_command_line_do_what_those_in_the_group_do(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "f.json").write_text(json.dumps(NOTES), encoding="utf-8")
    saved(tmp_path)
    assert main(["buy", "group.json", "--fitting", "f.json", "--out", "line", "--json"]) == 0
    given = json.loads(capsys.readouterr().out)
    saved(tmp_path, fittings=["f.json"])
    assert main(["buy", "group.json", "--out", "line", "--json"]) == 0
    assert json.loads(capsys.readouterr().out) == given
    assert (given["fitted"], given["notes_left_out"]) == (["A"], ["A"])


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"wearer": "w-09"}, 'fitting notes of "w-09", and nothing is made for anybody of that reference'),
        ({"format": "panelwright-group/1"}, "give the fitting notes after --fitting"),
    ],
)
def test_notes_that_cannot_be_used_are_told(
    changes: dict[str, str],
    sentence: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "f.json").write_text(json.dumps(NOTES | changes), encoding="utf-8")
    saved(tmp_path)
    assert main(["buy", "group.json", "--fitting", "f.json"]) == 2
    assert sentence in capsys.readouterr().err


def test_the_cost_is_the_sum_of_what_has_a_price_and_names_the_rest(shopping: Shopping) -> None:
    silk, facing, _ = shopping.cloths
    zips = sum(notion.count for notion in shopping.notions if notion.name == "separating zip")
    assert zips == 3
    assert shopping.cost == pytest.approx((silk.cost or 0) + (facing.cost or 0) + 3.5 * zips)
    assert shopping.without_price == ("interfacing", "spiral steel bone", "bone casing")
    assert total_words(shopping).startswith(
        f"In all {shopping.cost:.2f} EUR, without interfacing, spiral steel bone and"
    )
    assert shopping.reels == -(-shopping.thread // 100_000)


def test_the_table_of_commas_says_the_same(shopping: Shopping) -> None:
    rows = list(csv.DictReader(shopping_csv(shopping).splitlines()))
    assert [row["name"] for row in rows if row["what"] == "cloth"] == ["silk", "facing", "interfacing"]
    assert sum(float(row["cost"] or 0) for row in rows) == pytest.approx(shopping.cost, abs=0.02)
    assert [float(row["buy_cm"]) * 10 for row in rows[:3]] == [bought.to_buy for bought in shopping.cloths]
    assert rows[0]["for"] == "A B"
    assert sum(int(row["count"]) for row in rows if row["what"] == "zip") == 3


def test_a_name_that_a_table_program_would_reckon_stays_text(tmp_path: Path) -> None:
    cloths = {"outer": "=1+1"}
    group = load_group(
        saved(tmp_path, garments=[{"size": 88, "design": LANTERN, "cloths": cloths}], cloths={}, notion_prices={})
    )
    table = shopping_csv(shopping_for(group, make_group(group)))
    assert "'=1+1" in table
    assert ",=1+1" not in table


@pytest.mark.parametrize("unit", [Unit.CM, Unit.INCH])
def test_pages_are_tidy_and_bear_no_measurement(shopping: Shopping, unit: Unit, tmp_path: Path) -> None:
    choice = PaperChoice(unit=unit)
    for sheet in (*shopping_sheets(shopping, choice), *group_lay_sheets(shopping, choice)):
        assert_sheet_is_tidy(sheet)
    files = write_shopping(shopping, tmp_path, choice)
    assert [file.suffix for file in files] == [".pdf", ".txt", ".csv", ".pdf"]
    pages = pypdfium2.PdfDocument(files[0])
    words = " ".join(page.get_textpage().get_text_range() for page in pages)
    pages.close()
    for text in (words, shopping_text(shopping, unit)):
        assert all(
            part in text for part in ("Lantern bearers", "Silk", "separating zip", "w-01", "reel of sewing thread")
        )
        assert not any(name in text.lower() for name in ("girth", "estimated", "bust"))
    with pikepdf.open(files[3]) as document:
        assert len(document.pages) >= 3


def test_the_command_writes_the_list_and_tells_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    saved(
        tmp_path,
        garments=[{"size": 88, "design": LANTERN, "count": 2}, {"wearer": W01, "design": DRUM}],
        cloths={},
        notion_prices={},
    )
    assert main(["buy", "group.json", "--json", "--units", "inches", "--paper", "letter"]) == 0
    facts = json.loads(capsys.readouterr().out)
    assert [cloth["cloth"] for cloth in facts["cloths"]] == ["outer", "facing", "interfacing"]
    assert facts["cloths"][0]["garments"] == ["A", "B"]
    assert facts["cost"] is None
    assert all(Path(file).is_file() for file in facts["files"])
    assert "No prices are given" in Path("lanterns-shopping/shopping-list.txt").read_text(encoding="utf-8")


ONE = {"wearer": W01, "design": LANTERN}
MOON = {"wearer": W01, "design": str(DEMO / "design-moon-05.json")}
ROUND = {"wearer": W01, "design": str(DEMO / "design-round-04.json"), "cloths": {"festival silk": "moon velvet"}}


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"garments": []}, "garments"),
        (
            {"garments": [{"design": LANTERN}]},
            "garments[1] needs either a wearer, a measurements file, or a size like 88",
        ),
        ({"garments": [{**ONE, "size": 88}]}, "garments[1] needs either a wearer"),
        ({"garments": [{**ONE, "count": 0}]}, "garments[1].count"),
        ({"garments": [{"size": 87, "design": LANTERN}]}, "there is no size 87"),
        ({"garments": [{"wearer": "gone.json", "design": LANTERN}]}, 'there is no file "gone.json"'),
        ({"garments": [{"wearer": LANTERN, "design": LANTERN}]}, "the file holds a design"),
        (
            {"garments": [{**ONE, "cloths": {"silk": "red"}}]},
            'lantern-01 cuts nothing from "silk"; its cloths are outer, facing',
        ),
        ({"cloths": {"velvet": {"width_cm": 140}}}, 'no garment is cut from "velvet"; its cloths are silk, facing'),
        ({"cloths": {"silk": {"width_cm": 20}}}, "Lantern bodice, sweetheart for w-01: Centre front (CF) is"),
        ({"cloths": {"silk": {"width_cm": 5}}}, "the width is 5 cm; give between 10 and 400 cm"),
        ({"cloths": {"silk": {"price_per_metre": -1}}}, "the price of a metre is -1; give 0 or more"),
        ({"cloths": {"silk": {"price_per_metre": "cheap"}}}, "cloths.silk.price_per_metre must be a number"),
        ({"notion_prices": {"zipper": 2}}, 'no garment needs "zipper"'),
        ({"notion_prices": {"separating zip": -2}}, "notion_prices.separating zip"),
        ({"spare": {"cloth_percent": 80}}, "spare.cloth_percent"),
        ({"longest_lay_cm": 10}, "the longest lay is 10 cm; give between 50 and 3000 cm"),
        ({"ref": "The Group"}, 'ref "The Group" cannot be used'),
        ({"title": ""}, "title must be one line"),
        (
            {"garments": [MOON, ROUND], "cloths": {}, "notion_prices": {}},
            "moon-05 and round-04 say different things of the cloth",
        ),
        ({"colour": "red"}, '"colour" is not a known field'),
        ({"format": "panelwright-design/1"}, "the file holds a design, not a group: give a group of garments"),
    ],
)
def test_what_cannot_be_bought_is_told_in_a_sentence(
    changes: dict[str, object],
    sentence: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    saved(tmp_path, **changes)
    assert main(["buy", "group.json"]) == 2
    told = capsys.readouterr().err.strip().splitlines()[-1]
    assert sentence in told
    assert told.startswith("panelwright: ")
