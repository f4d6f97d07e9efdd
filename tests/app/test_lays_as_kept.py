"""A garment is cut by the lays that were kept with it, and by none that no longer fit it."""

import json
import re
from dataclasses import replace
from pathlib import Path

import pytest
from bad_input.case import design
from pdf_reading import text_of

from panelwright.app.design_file import read_design
from panelwright.app.garment import Garment, make_garment
from panelwright.app.hand_lay import HandLay
from panelwright.app.hand_record import MoveRecord
from panelwright.app.laid_for import LaidFor
from panelwright.app.lays_as_kept import lays_as_kept
from panelwright.app.lays_file import LayRecord, LaysRecord, lays_text
from panelwright.app.place_record import places_of
from panelwright.body.size_table import size
from panelwright.body.units import Unit
from panelwright.cli.main import main
from panelwright.errors import InputError
from panelwright.lay.cloth import Cloth
from panelwright.lay.fault import lay_faults
from panelwright.lay.lay_garment import lay_pieces
from panelwright.lay.piece_to_cut import as_laid, pieces_to_cut

FAR = 1200.0  # mm: beyond every piece
TEXT = design(
    finish={"facing": "full"}, cloth_to_buy={"outer": {"width_cm": 140, "folded": True, "price_per_metre": 20}}
)


@pytest.fixture(scope="module")
def garment() -> Garment:
    return make_garment(size(88), read_design(TEXT))


def kept(garment: Garment, cloth: Cloth | None = None, **move: object) -> LaysRecord:
    """The lays of a garment whose outer side front was moved along the cloth, as the board keeps them."""
    cloth = cloth or garment.cloths[0]
    pieces = pieces_to_cut(garment.cutting, cloth.name)
    first = lay_pieces(cloth, pieces)
    own = HandLay(first, pieces)
    single = MoveRecord.model_validate({"piece": "SF", "number": 0, "x": FAR, **move})
    hand = own.moved([single])
    of = LaidFor.of(first, pieces)
    length = HandLay(first, pieces, hand).lay.length
    record = LayRecord(
        cloth=of.cloth, width_mm=of.width, folded=of.folded, one_way=of.one_way, pieces=of.pieces, length_mm=length,
        hand=hand,
    )  # fmt: skip
    return LaysRecord(design=garment.design.ref, wearer=garment.wearer.ref, lays=(record,))


def changed(record: LaysRecord, **fields: object) -> LaysRecord:
    """The same with its one lay changed."""
    return record.model_copy(update={"lays": (record.lays[0].model_copy(update=fields),)})


def test_it_is_laid_as_the_hand_moved_it_and_the_other_cloth_as_ever(garment: Garment) -> None:
    first, other = garment.lays
    (own,) = lays_as_kept(garment, kept(garment))
    moved = next(laid for laid in own.laid if laid.piece.id == "SF")
    before = next(laid for laid in first.laid if laid.piece.id == "SF")
    assert moved.placement.x == pytest.approx(before.placement.x + FAR)
    assert lay_faults(own, as_laid(pieces_to_cut(garment.cutting, "outer"), own.folded)) == ()
    outer, facing = replace(garment, kept=(own,)).lays
    assert outer is own
    assert places_of(facing.laid) == places_of(other.laid)
    assert own.cost == pytest.approx(20 * own.to_buy / 1000)  # at today's price: none is kept


def test_what_a_search_found_is_laid_too(garment: Garment, monkeypatch: pytest.MonkeyPatch) -> None:
    """Of a planner that begins every lay 30 cm further on, since its own first lay cannot be bettered here."""
    shorter = garment.lays[0]
    first = replace(shorter, laid=tuple(laid.moved(300.0, 0.0) for laid in shorter.laid))
    monkeypatch.setattr("panelwright.app.lays_as_kept.lay_pieces", lambda *_, **__: first)
    (own,) = lays_as_kept(garment, changed(kept(garment), hand=None, found=places_of(shorter.laid)))
    assert places_of(own.laid) == places_of(shorter.laid) != places_of(first.laid)


def test_a_longer_lay_than_the_planner_makes_now_is_not_taken(garment: Garment) -> None:
    """As it may be from an earlier program; the board passes it over too."""
    first = garment.lays[0]
    longer = places_of(laid.moved(100.0, 0.0) for laid in first.laid)
    (own,) = lays_as_kept(garment, changed(kept(garment), hand=None, found=longer))
    assert places_of(own.laid) == places_of(first.laid)


def test_of_several_states_of_a_cloth_the_one_that_it_has_now_is_taken(garment: Garment) -> None:
    now, wider = kept(garment), kept(garment, Cloth("outer", 1500.0, True), x=FAR + 300.0)
    both = now.model_copy(update={"lays": (*wider.lays, *now.lays)})
    (own,) = lays_as_kept(garment, both)
    assert own.length == pytest.approx(now.lays[0].length_mm)


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        (
            lambda own: own.model_copy(update={"wearer": "w-01"}),
            'are of "lantern-09" for "w-01", but lantern-09 for si',
        ),
        (
            lambda own: own.model_copy(update={"design": "drum-03"}),
            'are of "drum-03" for "size-88", but lantern-09 for',
        ),
        (lambda own: own.model_copy(update={"wearer": "w\x1b[0m"}), r'for "w\x1b[0m", but lantern-09 for size-88 is'),
        (lambda own: own.model_copy(update={"lays": ()}), "are of nothing, but lantern-09 is cut from outer cloth and"),
        (lambda own: changed(own, cloth="red silk"), "are of red silk, but lantern-09 is cut from outer cloth and"),
        (lambda own: changed(own, width_mm=960.0), "outer cloth is kept for cloth 37 3/4 in wide, which is not"),
        (lambda own: changed(own, folded=False), "is kept for cloth that is spread out, which is not how it is cut"),
        (lambda own: changed(own, one_way=True, pieces="0" * 32), "for one-way cloth and the pieces as they were, wh"),
    ],
)
def test_lays_that_no_longer_fit_are_refused_with_what_and_a_remedy(
    garment: Garment, change: object, sentence: str
) -> None:
    assert callable(change)
    with pytest.raises(InputError, match=re.escape(sentence) + ".*: .*leave --lays away") as refused:
        lays_as_kept(garment, change(kept(garment)), Unit.INCH)
    assert refused.value.where.startswith("lays")


def test_lays_that_cannot_be_cut_are_refused_though_they_are_of_these_pieces(garment: Garment) -> None:
    off = kept(garment, y=-3000.0)
    with pytest.raises(InputError, match=r"cannot be cut as it is kept, since Side front lies off the cloth: move"):
        lays_as_kept(garment, off)
    first = garment.lays[0]
    heap = tuple(place.model_copy(update={"x": 500.0, "y": 400.0}) for place in places_of(first.laid))
    with pytest.raises(InputError, match=r"outer cloth cannot be cut as it is kept, since .* lie"):
        lays_as_kept(garment, changed(kept(garment), hand=None, found=heap))
    with pytest.raises(InputError, match="since it has not a place for each of its pieces"):
        lays_as_kept(garment, changed(kept(garment), hand=None, found=heap[1:]))
    hand = kept(garment).lays[0].hand
    assert hand is not None
    few = hand.model_copy(update={"places": tuple(place for place in hand.places if place.piece != "CF")})
    with pytest.raises(InputError, match="since it has not a place for each of its pieces"):
        lays_as_kept(garment, changed(kept(garment), hand=few))


def test_make_prints_the_kept_lay_and_order_reckons_by_it(
    garment: Garment, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "d.json").write_text(TEXT)
    own = kept(garment)
    (tmp_path / "lays.json").write_text(lays_text(own))
    given = ["--size", "88", str(tmp_path / "d.json")]
    with_lays = ["--lays", str(tmp_path / "lays.json")]
    long = f"{own.lays[0].length_mm / 10:.1f} cm long"
    said = {}
    for name, more in (("as-ever", []), ("as-kept", with_lays)):
        assert main(["make", *given, "--out", str(tmp_path / name), *more, "--json"]) == 0
        said[name] = json.loads(capsys.readouterr().out)["laid_as_kept"]
        assert (long in text_of(tmp_path / name / "lay.pdf", 0)) == bool(more)
        assert (long in (tmp_path / name / "lay.svg").read_text()) == bool(more)
    assert said == {"as-ever": [], "as-kept": ["outer"]}
    assert main(["make", *given, "--out", str(tmp_path / "as-kept"), *with_lays]) == 0
    assert "as-kept, outer cloth laid as kept:" in capsys.readouterr().out
    costs = []
    for more in ([], with_lays):
        assert main(["order", *given, "--out", str(tmp_path / "order.pdf"), *more, "--json"]) == 0
        costs.append(json.loads(capsys.readouterr().out)["costs"])
    bought = garment.cloths[0].to_buy(own.lays[0].length_mm)
    assert costs[1]["cloths"][0]["to_buy_mm"] == bought > costs[0]["cloths"][0]["to_buy_mm"]
    assert costs[1]["cost"] == pytest.approx(20 * bought / 1000)
    assert costs[1]["cloths"][1] == costs[0]["cloths"][1]


@pytest.mark.parametrize(
    ("cloths", "called", "sentence"),
    [
        ({"silk": {"width_cm": 140}}, {"outer": "silk"}, ""),
        ({"silk": {"width_cm": 150}}, {"outer": "silk"}, "folded, but the prices are of cloth 150.0 cm wide: give"),
        ({"silk": {"width_cm": 140}}, {"outer": "silk", "facing": "silk"}, "not all that is cut from silk: give the"),
    ],
)
def test_prices_are_those_of_the_cloth_that_the_lay_is_kept_for(
    garment: Garment, cloths: object, called: object, sentence: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    group = {
        "format": "panelwright-group/1", "ref": "festival", "title": "Festival", "cloths": cloths,
        "garments": [{"size": 88, "design": "d.json", "cloths": called}],
    }  # fmt: skip
    for name, text in (("d", TEXT), ("g", json.dumps(group)), ("lays", lays_text(kept(garment)))):
        (tmp_path / f"{name}.json").write_text(text)
    words = ["order", "--size", "88", str(tmp_path / "d.json"), "--out", str(tmp_path / "order.pdf")]
    status = main([*words, "--prices", str(tmp_path / "g.json"), "--lays", str(tmp_path / "lays.json"), "--json"])
    told = json.loads(capsys.readouterr().out)
    if sentence:
        assert status == 2
        assert sentence in told["error"]
    else:
        assert told["costs"]["cloths"][0]["to_buy_mm"] == garment.cloths[0].to_buy(kept(garment).lays[0].length_mm)


def test_a_file_of_another_kind_is_told_by_its_name(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "d.json").write_text(TEXT)
    assert main(["make", "--size", "88", str(tmp_path / "d.json"), "--lays", str(tmp_path / "d.json")]) == 2
    assert 'panelwright: "d.json": the file holds a design, not the lays of a garment' in capsys.readouterr().err
