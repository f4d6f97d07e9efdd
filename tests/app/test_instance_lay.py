"""A lay of outlines, drawn: every piece where the file's own rule puts it, and the files that show it."""

import json
import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import cv2
import numpy as np
import pikepdf
import pytest
import shapely
from app.test_lay_instance import FRONT, MOVES, POCKET, SIDE, changed
from lay.garment_instance import lay_verifier
from shapely import affinity
from tidy_sheet import assert_sheet_is_tidy, recorded

from panelwright.app.instance_lay import instance_lay
from panelwright.app.lay_instance import lay_result, load_lay_instance, read_lay_instance
from panelwright.app.lay_result import read_lay_result
from panelwright.cli.main import main
from panelwright.drawing.heading import Heading
from panelwright.drawing.lay_sheet import lay_picture, lay_sheets
from panelwright.drawing.paper import PAPERS
from panelwright.drawing.sheet import Sheet
from panelwright.errors import InputError, LayError
from panelwright.lay.fault import lay_faults
from panelwright.lay.lay import Lay
from panelwright.lay.search.budget import Budget
from panelwright.lay.search.search import shortest_lay

TOP = {"name": "top", "outline": [[0, 0], [150, 10], [140, 60], [0, 50]], "mirror_allowed": True, "demand": 2}
TURNED = {**POCKET, "name": "turned", "rotations": [90]}
DEMO = Path(__file__).resolve().parents[2] / "src" / "panelwright" / "app" / "demo" / "data"


def planned(text: str, moves: int = 300) -> tuple[Lay, dict[str, Any]]:
    instance = read_lay_instance(text)
    found = shortest_lay(instance.task, Budget(moves=moves))
    return instance_lay(instance, found), lay_result(instance, found)


def posed(outline: list[list[float]], place: dict[str, Any]) -> shapely.Polygon:
    """By the words of docs/lay-file.md, with shapely's own moves."""
    shape = shapely.Polygon(outline)
    if place["mirrored"]:
        shape = affinity.scale(shape, 1, -1, origin=(0, 0))
    turned = affinity.rotate(shape, place["rotation_deg"], origin=(0, 0))
    return affinity.translate(turned, place["x"], place["y"])


@pytest.mark.parametrize("mode", ["folded", "open", "tubular"])
def test_pieces_lie_where_the_files_rule_puts_them(mode: str) -> None:
    pieces = [FRONT, SIDE, POCKET, TOP, TURNED]
    lay, result = planned(changed(mode, pieces=pieces))
    outlines: dict[str, Any] = {piece["name"]: piece["outline"] for piece in pieces}
    if mode == "open":  # opened about its fold, y = 0
        outlines["front"] = [[0, 0], [20, -150], [280, -150], [300, 0], [280, 150], [20, 150]]
    assert len(lay.laid) == len(result["placements"])
    for laid, place in zip(lay.laid, result["placements"], strict=True):
        assert (laid.piece.id, laid.copy) == (place["piece"], place["copy"])
        off = laid.area.symmetric_difference(posed(outlines[place["piece"]], place)).area
        assert off == pytest.approx(0.0, abs=1e-6)
        assert laid.area.covers(shapely.LineString(laid.grain))
    assert lay.length == pytest.approx(result["length_mm"])
    assert (lay.width, lay.folded, lay.tubular) == (400.0, mode != "open", mode == "tubular")
    areas = [shapely.Polygon(outlines[place["piece"]]).area for place in result["placements"]]
    layers = [2 if mode != "open" and place["piece"] in ("front", "side") else 1 for place in result["placements"]]
    cloth = 400.0 if mode == "open" else 800.0
    assert lay.use == pytest.approx(np.dot(areas, layers) / (cloth * lay.length))


def test_both_distances_are_equal_but_of_a_piece_that_lies_across() -> None:
    lay, _ = planned(changed(pieces=[FRONT, SIDE, TURNED]))
    for laid in lay.laid:
        near, far = lay.grain_distances(laid)
        assert (abs(near - far) < 1e-6) == (laid.piece.id != "turned")
    words = " ".join(lettering_texts(lay))
    assert "Turned off the straight grain, so that the two lengths differ: turned." in words


def test_on_a_tube_grain_is_measured_from_the_nearer_fold_and_both_folds_are_drawn() -> None:
    """Four halves, two at each fold: see the search's own test of a tube."""
    lay, _ = planned(changed("tubular", spacing_mm=0, pieces=[{**FRONT, "demand": 4}]), 1500)
    at_folds = [laid.placement.points(laid.piece.fold)[:, 1] for laid in lay.laid if laid.piece.fold is not None]
    assert sorted(round(float(ends.mean())) for ends in at_folds) == [0, 0, 400, 400]
    for laid in lay.laid:
        near, far = lay.grain_distances(laid)
        assert near == pytest.approx(far)
        assert near == pytest.approx(min(laid.grain[0, 1], 400.0 - laid.grain[0, 1]))
    texts = lettering_texts(lay)
    assert texts.count("fold") == 2
    words = " ".join(texts)
    assert "a tube that is 40.0 cm wide as it lies flat" in words
    assert "selvage" not in words
    spare, _ = planned(changed("tubular", pieces=[POCKET]))
    assert "A tube gives two of each: one is spare of pocket." in " ".join(lettering_texts(spare))
    assert "off-fold" not in {fault.kind for fault in lay_faults(lay, [lay.laid[0].piece])}
    for other in (
        replace(lay, laid=(lay.laid[0].moved(0.0, 30.0), *lay.laid[1:])),
        replace(lay, tubular=False),  # folded cloth has one fold
    ):
        assert "off-fold" in {fault.kind for fault in lay_faults(other, [lay.laid[0].piece])}
    with pytest.raises(LayError, match="a tube lies double"):
        replace(lay, folded=False)


def lettering_texts(lay: Lay) -> list[str]:
    return lettering_texts_of(lay_picture([lay], Heading("festival", "")))


@pytest.mark.parametrize("reduction", [4, 10])
@pytest.mark.parametrize("mode", ["folded", "open", "tubular"])
def test_sheets_are_tidy_at_both_scales_and_hold_no_empty_page(mode: str, reduction: int) -> None:
    lay, _ = planned(changed(mode, pieces=[FRONT, SIDE, POCKET, TOP]))
    sheets = lay_sheets(lay, Heading("festival", ""), PAPERS["A4"], reduction)
    for sheet in sheets:
        assert_sheet_is_tidy(sheet)
        assert len(sheet.laid) > 1
    assert f"drawn at 1:{reduction} " in " ".join(lettering_texts_of(sheets[0]))


def lettering_texts_of(sheet: Sheet) -> list[str]:
    return [text.text for text in recorded(sheet).letterings]


@pytest.mark.parametrize("name", ["folded/waistcoat", "open/mao"])
def test_a_lay_from_outside_is_drawn_on_one_sheet_as_large_as_it_needs(name: str, shared: Path) -> None:
    lay_verifier(shared)
    instance = load_lay_instance(shared / "data" / "lays" / f"{name}.json")
    lay = instance_lay(instance, shortest_lay(instance.task, Budget(moves=MOVES // 20)))
    (sheet, *_) = lay_sheets(lay, Heading(name, ""), PAPERS["A4"], 4)
    assert_sheet_is_tidy(sheet)
    assert sheet.height > lay.width / 4
    assert sheet.width >= lay.to_buy / 4


def test_a_result_is_read_back_and_what_cannot_be_cut_is_refused() -> None:
    text = changed()
    instance = read_lay_instance(text)
    _, result = planned(text)
    found = read_lay_result(json.dumps(result), instance)
    assert found.length == pytest.approx(result["length_mm"])
    assert [(place.x, place.y) for place in found.places] == [(p["x"], p["y"]) for p in result["placements"]]

    def with_first(**fields: object) -> str:
        first, *others = result["placements"]
        return json.dumps({**result, "placements": [{**first, **fields}, *others]})

    sentences = {
        with_first(y=5.0): 'cannot be cut: "front" lies 5.0000 mm off the fold',
        with_first(x=-3.0): "out of the cloth",
        with_first(rotation_deg=45): '"front" may not be turned by 45°',
        with_first(piece="sleeve"): 'copy 0 of "front" lies nowhere',
        json.dumps({"placements": result["placements"] * 2}): "stands there twice",
        with_first(x="left"): "placements[1].x must be a number",
        text: "the file holds a lay to plan, not where pieces lie",
        "{}": "placements is missing",
    }
    second = result["placements"][1]
    both = [
        {**second, "copy": 1} if (place["piece"], place["copy"]) == ("side", 1) else place
        for place in result["placements"]
    ]
    sentences[json.dumps({"placements": both})] = '"side" and "side" overlap by'
    for given, sentence in sentences.items():
        with pytest.raises(InputError, match=re.escape(sentence)):
            read_lay_result(given, instance)


def test_the_command_draws_all_three_kinds_of_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("lantern.json").write_text(changed(), encoding="utf-8")
    assert main(["lay", "lantern.json", "--moves", "300", "--draw", "a.pdf", "--sold-by", "2 in", "--json"]) == 0
    facts = json.loads(capsys.readouterr().out)
    assert facts["files"] == ["lantern-lay.json", "a.pdf"]
    assert facts["to_buy_mm"] == pytest.approx(np.ceil(facts["length_mm"] / 50.8) * 50.8)
    same = ["lay", "lantern.json", "--result", "lantern-lay.json"]
    for name in ("a.svg", "a.png", "b.pdf"):
        assert main([*same, "--draw", name, "--scale", "quarter", "--units", "inches"]) == 0
    assert "drawn at 1:4" in Path("a.svg").read_text(encoding="utf-8").lower()
    assert cv2.imread("a.png", cv2.IMREAD_GRAYSCALE).min() < 50
    with pikepdf.open("b.pdf") as document:
        assert len(document.pages) >= 1


def test_the_command_plans_and_draws_the_lays_of_a_garment(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    words = ["--moves", "200", "--draw", "m.svg", "--sold-by", "25", "--json"]
    assert main(["lay", str(DEMO / "wearer-w-01.json"), str(DEMO / "design-moon-05.json"), *words]) == 0
    facts = json.loads(capsys.readouterr().out)
    assert [lay["cloth"] for lay in facts["lays"]] == ["moon velvet", "facing"]
    for lay in facts["lays"]:
        assert lay["length_mm"] <= lay["to_buy_mm"] == pytest.approx(250.0 * round(lay["to_buy_mm"] / 250.0))
    assert "Moon velvet, 150.0 cm wide" in Path("m.svg").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["lantern.json", "--draw", "a.gif"], '"a.gif" is no picture that can be drawn: end it in .svg, .pdf or .png'),
        (["lantern.json", "--scale", "half", "--draw", "a.svg"], 'the scale "half" is not known'),
        (["lantern.json", "--scale", "quarter"], "give --draw FILE too"),
        (["lantern.json", "--result", "r.json"], "give --draw FILE too"),
        (["lantern.json", "--draw", "a.svg", "--sold-by", "some"], '--sold-by: "some" is not a length'),
        (["lantern.json", "--draw", "a.svg", "--sold-by", "0"], "it is sold by 0 cm; give between 0.1 and 1000 cm"),
        (["huge.json", "--draw", "a.svg"], "the lay cannot be drawn: the width is 1000 cm; give between 10 and 400 cm"),
        (["lantern.json", "d.json", "--result", "r.json"], "--result draws a lay of outlines"),
        (["--size", "88", str(DEMO / "design-moon-05.json"), "--draw", "a.svg", "--out", "b.svg"], "give one of them"),
        (["--size", "88", str(DEMO / "design-moon-05.json"), "--out", "b.txt"], "end it in .svg, .pdf or .png"),
    ],
)
def test_what_cannot_be_drawn_is_told_in_a_sentence(
    words: list[str],
    sentence: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("lantern.json").write_text(changed(), encoding="utf-8")
    Path("huge.json").write_text(changed(cloth={"width_mm": 5000, "mode": "folded"}), encoding="utf-8")
    assert main(["lay", *words]) == 2
    assert sentence in capsys.readouterr().err
    assert not list(tmp_path.glob("*.svg"))
