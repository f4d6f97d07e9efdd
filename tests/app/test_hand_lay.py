"""A lay moved by hand: where pieces go, what is found wrong with it, judged by the outside verifier too."""

import json
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from lay.boxes import box
from lay.garment_instance import lay_verifier, written
from plain_cutting_pattern import plain_cutting_pattern

from panelwright.app.hand_lay import HandLay, HandLays
from panelwright.errors import InputError
from panelwright.lay.cloth import Cloth
from panelwright.lay.lay_garment import lay_pieces
from panelwright.lay.piece_to_cut import PieceToCut, pieces_to_cut

PLAIN = pieces_to_cut(plain_cutting_pattern(), "outer")
FAR = 900.0  # mm: beyond every piece


def hand_lay(folded: bool = True, one_way: bool = False, pieces: tuple[PieceToCut, ...] = PLAIN) -> HandLay:
    cloth = Cloth("outer", 1400.0, folded, one_way)
    return HandLay(lay_pieces(cloth, pieces), pieces)


def moves(*given: dict[str, object]) -> str:
    return json.dumps({"moves": [{"number": 0, **move} for move in given]})


@pytest.mark.parametrize("folded", [True, False])
def test_what_is_not_moved_lies_as_the_planner_laid_it(folded: bool) -> None:
    own = hand_lay(folded)
    told = own.document()
    assert told["faults"] == []
    assert told["mine"] == told["planned"]
    assert len(told["pieces"]) == len(own.base.laid)
    for piece, laid in zip(told["pieces"], own.base.laid, strict=True):
        assert piece["box"] == pytest.approx(laid.area.bounds)
        assert np.abs(np.array(piece["outline"]).max(axis=0) - laid.outline.max(axis=0)).max() < 0.25


@pytest.mark.parametrize("folded", [True, False])
def test_every_piece_is_turned_and_spread_along_the_cloth_soundly(folded: bool, shared: Path) -> None:
    own = hand_lay(folded)
    given = [
        {"piece": laid.piece.id, "number": laid.copy, "turned": True, "x": FAR * k - float(laid.outline[:, 0].min())}
        for k, laid in enumerate(own.base.laid)
    ]
    own.put(json.dumps({"moves": given}))
    assert own.faults == ()
    wanted = [piece if folded else piece.spread() for piece in PLAIN]
    length, _, bad = lay_verifier(shared)(*written(own.lay, wanted))
    assert bad == []
    assert length == pytest.approx(own.lay.length, abs=0.01)
    for before, after in zip(own.base.laid, own.lay.laid, strict=True):
        assert after.area.area == pytest.approx(before.area.area)
        assert after.outline[:, 1].min() == pytest.approx(before.outline[:, 1].min(), abs=1e-6)
        first, second = own.lay.grain_distances(after)
        assert first == pytest.approx(second, abs=1e-6)
    numbers = own.document()["mine"]
    assert isinstance(numbers, dict)
    assert numbers["length_mm"] == pytest.approx(own.lay.length, abs=0.05)
    assert numbers["use"] == pytest.approx(own.base.use * own.base.length / own.lay.length, abs=1e-3)


@pytest.mark.parametrize(
    ("given", "sentence"),
    [
        ({"piece": "SF", "y": 2000.0}, "Side front lies off the cloth."),
        ({"piece": "CF", "y": 20.0}, "Centre front lies off the fold."),
        ({"piece": "SF", "x": -2000.0}, "Side front lies off the cloth."),
    ],
)
def test_what_cannot_be_cut_is_told_and_has_no_numbers(given: dict[str, object], sentence: str) -> None:
    own = hand_lay()
    own.put(moves(given))
    told = own.document()
    assert told["mine"] is None
    assert sentence in told["faults"]


def test_pieces_that_lie_on_each_other_or_against_the_nap_are_told() -> None:
    pieces = (box("A", 200.0, 300.0, 1, 1), box("B", 200.0, 300.0, 1, 1))
    own = hand_lay(one_way=True, pieces=pieces)
    one, other = own.base.laid
    x, y = (float(value) for value in one.outline.min(axis=0) - other.outline.min(axis=0))
    own.put(moves({"piece": "B", "x": x + 50.0, "y": y, "turned": False}))
    assert own.document()["faults"] == ["Box A and Box B lie on each other."]
    own.put(moves({"piece": "B", "turned": True}))
    assert own.document()["faults"] == ["Box B lies against the one-way cloth."]
    own.put(moves())
    assert own.document()["faults"] == []


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("[]", "named values"),
        ("{}", "moves is missing"),
        (moves({"piece": "SLEEVE"}), "SLEEVE is not laid on this cloth 1 times"),
        (moves({"piece": "SF", "x": 1e9}), "moves"),
        (moves({"piece": "SF", "turned": "yes"}), "must be true or false"),
        (moves({"piece": "SF", "angle": 45}), '"angle" is not a known field'),
    ],
)
def test_moves_that_cannot_be_are_refused(text: str, sentence: str) -> None:
    with pytest.raises(InputError, match=sentence):
        hand_lay().put(text)


def test_hands_lays_are_kept_for_the_same_pieces_and_begin_anew_when_told() -> None:
    hands, lay = HandLays(), hand_lay().base
    own = hands.of(lay, PLAIN)
    own.put(moves({"piece": "SF", "x": FAR}))
    assert hands.of(lay, PLAIN) is own
    assert hands.of(lay_pieces(Cloth("outer", 1300.0, True), PLAIN), PLAIN).moves == {}
    hands.forget(lay, PLAIN)
    assert hands.of(lay, PLAIN).moves == {}


def test_a_shorter_lay_found_later_is_what_unmoved_pieces_begin_with() -> None:
    hands, found = HandLays(), hand_lay().base
    first = replace(found, laid=tuple(laid.moved(100.0, 0.0) for laid in found.laid))
    lengths = [hands.of(lay, PLAIN).document()["planned"]["length_mm"] for lay in (first, found)]
    assert lengths[0] - lengths[1] == pytest.approx(100.0, abs=0.11)
    hands.forget(first, PLAIN)
    seen = hands.of(first, PLAIN)
    hands.of(found, PLAIN, moving=True).put(moves({"piece": "SF", "x": FAR}))
    assert hands.of(found, PLAIN) is seen
    assert seen.base.laid is first.laid  # moved on the first: it stays with that
