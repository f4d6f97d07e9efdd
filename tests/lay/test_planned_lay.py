"""Short lays of real garments: no longer than the first lay, sound by the outside verifier, in the right hands."""

import json
import signal
from collections import Counter
from pathlib import Path

import pytest
from lay.garment_instance import lay_verifier, written

from panelwright.app.demo.troupe import designs
from panelwright.app.garment import make_garment
from panelwright.body.size_table import size
from panelwright.cli.console import Console
from panelwright.cli.main import main
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.lay.cloth import Cloth
from panelwright.lay.lay import Lay
from panelwright.lay.lay_garment import lay_pieces
from panelwright.lay.piece_to_cut import PieceToCut, pieces_to_cut
from panelwright.lay.planned_lay import Planning, planned_lay
from panelwright.lay.search.budget import Budget
from panelwright.lay.search.task import Found

PLANNING = Planning(Budget(moves=1500))


@pytest.fixture(scope="module")
def cutting() -> CuttingPattern:
    """The troupe's garment with the most unlike pieces."""
    design = next(cut.design for cut in designs() if cut.design.ref == "river-06")
    return make_garment(size(88), design).cutting


@pytest.fixture(scope="module")
def pieces(cutting: CuttingPattern) -> tuple[PieceToCut, ...]:
    return pieces_to_cut(cutting, "outer")


@pytest.mark.parametrize(("folded", "one_way"), [(True, False), (True, True), (False, False), (False, True)])
def test_a_planned_lay_is_sound_and_holds_every_piece(
    folded: bool, one_way: bool, pieces: tuple[PieceToCut, ...], shared: Path
) -> None:
    cloth = Cloth("outer", folded=folded, one_way=one_way)
    wanted = [piece if folded else piece.spread() for piece in pieces]
    width = cloth.half if folded else cloth.width
    laid = planned_lay(wanted, width, folded, one_way, 2.0, PLANNING)
    lay = Lay(cloth, folded, laid, 2.0)
    instance, result = written(lay, wanted)
    assert lay_verifier(shared)(instance, result)[2] == []
    first = lay_pieces(cloth, pieces)
    assert Counter((laid.piece.id, laid.copy, laid.spare) for laid in lay.laid) == Counter(
        (laid.piece.id, laid.copy, laid.spare) for laid in first.laid
    )
    assert lay.length <= 1.05 * first.length


def test_asking_for_a_short_lay_never_gives_a_longer_one(pieces: tuple[PieceToCut, ...]) -> None:
    cloth = Cloth("outer")
    heard: list[Found] = []
    planning = Planning(Budget(moves=1500), told=lambda _, best: heard.append(best))
    planned, first = lay_pieces(cloth, pieces, planning=planning), lay_pieces(cloth, pieces)
    assert planned.length <= first.length
    assert planned.length == pytest.approx(min(first.length, heard[-1].length), abs=1e-6)


def test_no_pieces_take_no_cloth() -> None:
    assert planned_lay((), 700.0, True, False, 2.0, PLANNING) == ()


@pytest.mark.parametrize(
    ("value", "sentence"), [("soon", "--lay-seconds takes a number like 60"), ("0", "give more than 0")]
)
def test_a_time_that_is_none_is_refused(
    value: str, sentence: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("d.json").write_text('{"format": "panelwright-design/1", "ref": "d", "title": "Plain"}', encoding="utf-8")
    assert main(["make", "d.json", "--size", "88", "--lay-seconds", value]) == 2
    assert sentence in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == [tmp_path / "d.json"]


def test_ctrl_c_ends_the_search_and_the_best_lay_is_drawn(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    told: list[str] = []

    def pressed(_console: Console, _done: int, _total: int, what: str) -> None:
        told.append(what)
        if what.endswith(" cm"):  # a search tells
            signal.raise_signal(signal.SIGINT)

    monkeypatch.setattr(Console, "progress", pressed)
    monkeypatch.chdir(tmp_path)
    Path("d.json").write_text('{"format": "panelwright-design/1", "ref": "d", "title": "Plain"}', encoding="utf-8")
    before = signal.getsignal(signal.SIGINT)
    assert main(["lay", "d.json", "--size", "88", "--seconds", "3000", "--draw", "lay.svg", "--json"]) == 0
    assert signal.getsignal(signal.SIGINT) is before
    facts = json.loads(capsys.readouterr().out)
    assert len(facts["lays"]) == sum(what.endswith(" cm") for what in told)
    assert Path("lay.svg").is_file()


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["--cores", "0"], "--cores is 0; give between 1 and 64"),
        (["--cores", "both"], "--cores takes a whole number"),
    ],
)
def test_cores_that_cannot_be_are_refused(
    words: list[str], sentence: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("d.json").write_text('{"format": "panelwright-design/1", "ref": "d", "title": "Plain"}', encoding="utf-8")
    assert main(["lay", "d.json", "--size", "88", "--draw", "lay.svg", *words]) == 2
    assert sentence in capsys.readouterr().err
