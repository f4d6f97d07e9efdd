"""Lays to plan: what a file may hold, what is refused, and the lays of the folder `shared` before its verifier."""

import copy
import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import shapely
from lay.garment_instance import Verify, lay_verifier

from panelwright.app.lay_instance import lay_result, load_lay_instance, read_lay_instance
from panelwright.cli.console import Console
from panelwright.cli.main import main
from panelwright.errors import InputError
from panelwright.lay.search.budget import Budget
from panelwright.lay.search.search import shortest_lay

NAMES = ("folded/circle_skirt", "folded/gored_skirt", "folded/shirt_top", "folded/strapless_bodice", "folded/waistcoat")
OPEN = ("open/albano", "open/mao", "open/shirts", "open/trousers")
# The lays of `baselines.json` were searched for a minute each; so few moves take some.
MOVES, LONGER = 8000, 1.18

FRONT = {"name": "front", "outline": [[0, 0], [300, 0], [280, 150], [20, 150]], "cut": "fold", "fold_edge": 0}
SIDE = {"name": "side", "outline": [[0, 0], [200, 0], [200, 90], [0, 120]], "demand": 2, "cut": "pair"}
POCKET = {"name": "pocket", "outline": [[0, 0], [90, 0], [90, 80], [0, 80]]}
LANTERN: dict[str, Any] = {
    "format": "garment-lay/1",
    "name": "lantern",
    "cloth": {"width_mm": 400, "mode": "folded", "napped": False},
    "spacing_mm": 2,
    "pieces": [FRONT, SIDE, POCKET],
}


def changed(mode: str = "folded", napped: bool = False, **fields: object) -> str:
    document = copy.deepcopy(LANTERN)
    document["cloth"].update(mode=mode, napped=napped)
    document.update(fields)
    return json.dumps(document)


def with_piece(**fields: object) -> str:
    return changed(pieces=[{**SIDE, **fields}])


@pytest.fixture(scope="module")
def verify(shared: Path) -> Verify:
    return lay_verifier(shared)


@pytest.mark.parametrize("name", [*NAMES, *OPEN])
def test_a_search_is_sound_and_near_the_best_known(name: str, shared: Path, verify: Verify) -> None:
    path = shared / "data" / "lays" / f"{name}.json"
    instance = load_lay_instance(path)
    found = shortest_lay(instance.task, Budget(moves=MOVES))
    length, _, bad = verify(json.loads(path.read_text(encoding="utf-8")), lay_result(instance, found))
    assert bad == []
    assert length == pytest.approx(found.length, abs=1e-3)
    baselines = json.loads((path.parent / "baselines.json").read_text(encoding="utf-8"))
    assert found.length <= LONGER * baselines["instances"][path.stem]["best_mm"]


@pytest.mark.parametrize(("mode", "placements"), [("folded", 1 + 2 + 1), ("open", 1 + 4 + 1)])
@pytest.mark.parametrize("napped", [False, True])
def test_pairs_and_folds_become_what_the_cloth_gives(mode: str, placements: int, napped: bool, verify: Verify) -> None:
    text = changed(mode, napped)
    instance = read_lay_instance(text)
    assert len(instance.task.pieces) == placements
    assert instance.copies[1] == ("side", 0)
    found = shortest_lay(instance.task, Budget(moves=500))
    filled = json.loads(text)
    usual = {"demand": 1, "cut": "single", "fold_edge": None, "mirror_allowed": False, "rotations": [0, 180]}
    filled["pieces"] = [{**usual, **piece} for piece in filled["pieces"]]
    assert verify(filled, lay_result(instance, found))[2] == []
    half_turns = {place.turn.degrees for place in found.places if not place.turn.mirrored}
    assert half_turns == {0.0} if napped else half_turns <= {0.0, 180.0}


@pytest.mark.parametrize("napped", [False, True])
def test_a_bias_piece_lies_at_45_degrees(napped: bool) -> None:
    band = {"name": "band", "outline": [[0, 0], [200, 0], [200, 40], [0, 40]], "bias": True, "demand": 2}
    instance = read_lay_instance(changed("open", napped, pieces=[band, POCKET]))
    degrees = {turn.degrees for turn in instance.task.pieces[0].turns}
    assert degrees == ({45.0, 315.0} if napped else {45.0, 135.0, 225.0, 315.0})
    for place in shortest_lay(instance.task, Budget(moves=300)).places[:2]:
        side = place.points(instance.task.outlines[0])[1] - place.points(instance.task.outlines[0])[0]
        assert abs(abs(side[0]) - abs(side[1])) < 1e-6


def test_the_grain_may_be_off_only_as_far_as_is_said() -> None:
    strict, slack = (
        read_lay_instance(changed("open", pieces=[{**POCKET, **extra}])) for extra in ({}, {"grain_tolerance_deg": 2})
    )
    assert {turn.degrees for turn in strict.task.pieces[0].turns} == {0.0, 180.0}
    assert {turn.degrees for turn in slack.task.pieces[0].turns} == {0.0, 2.0, 358.0, 180.0, 182.0, 178.0}


def test_a_tube_has_a_fold_at_both_sides() -> None:
    halves = {"name": "half", "outline": [[0, 0], [300, 0], [280, 150], [20, 150]], "cut": "fold", "fold_edge": 0}
    text = changed("tubular", spacing_mm=0, pieces=[{**halves, "demand": 4}])
    instance = read_lay_instance(text)
    found = shortest_lay(instance.task, Budget(moves=1500))
    # Two beside each other at each fold, their slanted ends together; on folded cloth they would take twice as much.
    assert found.length == pytest.approx(600.0, rel=0.01)
    sides = [place.points(instance.task.outlines[0])[:2, 1] for place in found.places]
    assert sorted(round(float(side.mean())) for side in sides) == [0, 0, 400, 400]
    assert all(float(np.ptp(side)) < 1e-9 for side in sides)
    areas = [shapely.Polygon(place.points(instance.task.outlines[0])) for place in found.places]
    assert shapely.union_all(areas).area == pytest.approx(sum(area.area for area in areas), rel=1e-6)
    assert shapely.box(-1e-6, -1e-6, 700.0, 400.0 + 1e-6).covers(shapely.union_all(areas))


def test_a_piece_on_the_fold_is_opened_on_open_cloth() -> None:
    whole = read_lay_instance(changed("open")).task.outlines[0]
    assert np.ptp(whole, axis=0) == pytest.approx([300.0, 300.0])


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        (changed(pieces=[]), "pieces"),
        (changed(spacing_mm=-1), "spacing_mm"),
        (changed(cloth={"width_mm": 0}), "cloth.width_mm"),
        (changed(cloth={"width_mm": 400, "mode": "sack"}), 'cloth.mode is "sack"'),
        (with_piece(bias=True, cut="fold", fold_edge=0), "does not run along the grain"),
        (with_piece(grain_tolerance_deg=11), "grain_tolerance_deg"),
        (changed(pieces=[SIDE, SIDE]), 'two pieces are called "side"'),
        (with_piece(outline=[[0, 0], [10, 10], [10, 0], [0, 10]]), "crosses itself"),
        (with_piece(outline=[[0, 0], [10, 0], [20, 0]]), "crosses itself or has no area"),
        (with_piece(outline=[[0, 0], [0, 10], [10, 10]]), "runs clockwise"),
        (with_piece(outline=[[0, 0], [10, 0], [1e9, 10]]), "outline"),
        (with_piece(cut="fold"), "fold_edge says with which edge"),
        (with_piece(cut="fold", fold_edge=9), "fold_edge says with which edge"),
        (with_piece(cut="fold", fold_edge=2), "does not run along the grain"),
        (with_piece(demand=0), "demand"),
        (with_piece(demand=5000), "demand"),
        (with_piece(outline=[[0, 0], [10, 0], [10, 500]]), "500 mm across and the cloth 400 mm"),
        (changed(napped=True, pieces=[{**SIDE, "rotations": [180]}]), "may not lie unturned"),
        (changed(pieces=[{**SIDE, "name": f"s{k}", "demand": 600} for k in range(2)]), "1200 pieces are to be laid"),
        ('{"format": "panelwright-design/1"}', "a design"),
        ("[" * 100_000, "nested too deep"),
    ],
)
def test_what_cannot_be_laid_is_refused_in_a_sentence(text: str, sentence: str) -> None:
    with pytest.raises(InputError) as caught:
        read_lay_instance(text)
    assert sentence in str(caught.value)


def test_the_command_writes_a_lay_and_tells_how_good_it_is(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("lantern.json").write_text(changed(), encoding="utf-8")
    assert main(["lay", "lantern.json", "--moves", "300", "--seed", "2", "--json"]) == 0
    facts = json.loads(capsys.readouterr().out)
    result = json.loads(Path("lantern-lay.json").read_text(encoding="utf-8"))
    assert facts["length_mm"] == result["length_mm"]
    area = 300 * 150 - 20 * 150 + 2 * 200 * 105 + 90 * 80
    assert facts["use"] == pytest.approx(area / (400 * result["length_mm"]))
    assert main(["lay", "lantern.json", "--moves", "300", "--seed", "2", "--out", "again.json"]) == 0
    assert Path("again.json").read_text(encoding="utf-8") == Path("lantern-lay.json").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        ([], "takes a lay to plan, but no files were given"),
        (["missing.json"], 'there is no file "missing.json"'),
        (["lantern.json", "--seconds", "soon"], "--seconds takes a number like 60"),
        (["lantern.json", "--seconds", "nan"], "give more than 0"),
        (["lantern.json", "--moves", "many"], "--moves takes a whole number"),
        (["lantern.json", "--moves", "0"], "give at least 1"),
        (["lantern.json", "--seed", "-1"], "--seed"),
        (["lantern.json", "--out", "."], "is a folder"),
        (["narrow.json"], '"narrow.json": front is'),
    ],
)
def test_the_command_refuses_in_one_sentence(
    words: list[str],
    sentence: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("lantern.json").write_text(changed(), encoding="utf-8")
    Path("narrow.json").write_text(changed(cloth={"width_mm": 100}), encoding="utf-8")
    assert main(["lay", *words]) == 2
    assert sentence in capsys.readouterr().err


def test_a_search_that_is_stopped_keeps_the_best_lay_so_far(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    told: list[str] = []

    def stop_soon(_console: Console, done: int, _total: int, what: str) -> None:
        told.append(what)
        if done > 0 and len(told) > 3:
            raise KeyboardInterrupt

    monkeypatch.setattr(Console, "progress", stop_soon)
    monkeypatch.chdir(tmp_path)
    Path("lantern.json").write_text(
        changed("open", pieces=[{**SIDE, "demand": 5}, {**POCKET, "demand": 3}]), encoding="utf-8"
    )
    assert main(["lay", "lantern.json", "--moves", "100000"]) == 130
    assert "stopped" in capsys.readouterr().err
    result = json.loads(Path("lantern-lay.json").read_text(encoding="utf-8"))
    assert f"{result['length_mm']:.1f} mm" == told[-1]


def test_loading_the_machine_code_is_no_part_of_a_short_search(shared: Path, tmp_path: Path) -> None:
    """In a process of its own, where nothing is loaded yet; by computing time, whatever else the machine does."""
    path, out = shared / "data" / "lays" / "folded" / "circle_skirt.json", tmp_path / "lay.json"
    command = [sys.executable, "-m", "panelwright", "lay", str(path), "--seconds", "0.8", "--out", str(out), "--json"]
    done = subprocess.run(command, capture_output=True, text=True, timeout=300, check=True)
    baselines = json.loads((path.parent / "baselines.json").read_text(encoding="utf-8"))
    assert json.loads(done.stdout)["length_mm"] <= LONGER * baselines["instances"]["circle_skirt"]["best_mm"]
