"""A lay moved by hand: where pieces go, what is found wrong with it, judged by the outside verifier too."""

import json
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from lay.boxes import box
from lay.garment_instance import lay_verifier, written
from plain_cutting_pattern import plain_cutting_pattern
from pydantic import ValidationError

from panelwright.app.hand_lay import HandLay, read_moves
from panelwright.app.hand_record import MOST_STEPS, HandRecord, MoveRecord
from panelwright.app.place_record import MOST_LAID, places_of
from panelwright.errors import InputError
from panelwright.lay.cloth import Cloth
from panelwright.lay.lay_garment import lay_pieces
from panelwright.lay.piece_to_cut import PieceToCut, pieces_to_cut

PLAIN = pieces_to_cut(plain_cutting_pattern(), "outer")
FAR = 900.0  # mm: beyond every piece


def hand_lay(folded: bool = True, one_way: bool = False, pieces: tuple[PieceToCut, ...] = PLAIN) -> HandLay:
    cloth = Cloth("outer", 1400.0, folded, one_way)
    return HandLay(lay_pieces(cloth, pieces), pieces)


def with_moves(own: HandLay, *given: dict[str, object]) -> HandLay:
    """The same lay with further single moves."""
    moves = [MoveRecord.model_validate({"number": 0, **move}) for move in given]
    return HandLay(own.planned, own.pieces, own.moved(moves))


def text(*given: dict[str, object]) -> str:
    return json.dumps({"moves": [{"number": 0, **move} for move in given], "based_on": "now"})


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
    own = with_moves(own, *given)
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
    own = with_moves(hand_lay(), given)
    told = own.document()
    assert told["mine"] is None
    assert sentence in told["faults"]


def test_pieces_that_lie_on_each_other_or_against_the_nap_are_told() -> None:
    pieces = (box("A", 200.0, 300.0, 1, 1), box("B", 200.0, 300.0, 1, 1))
    own = hand_lay(one_way=True, pieces=pieces)
    one, other = own.base.laid
    x, y = (float(value) for value in one.outline.min(axis=0) - other.outline.min(axis=0))
    on_each_other = with_moves(own, {"piece": "B", "x": x + 50.0, "y": y})
    assert on_each_other.document()["faults"] == ["Box A and Box B lie on each other."]
    turned = with_moves(on_each_other, {"piece": "B", "turned": True})
    assert turned.document()["faults"] == ["Box B lies against the one-way cloth."]
    assert with_moves(turned, {"piece": "B"}).document()["faults"] == []


@pytest.mark.parametrize(
    ("given", "sentence"),
    [
        ("[]", "named values"),
        ('{"based_on": "now"}', "moves is missing"),
        ('{"moves": [], "based_on": "now"}', "moves"),
        (text({"piece": "SF"}).replace("based_on", "since"), "based_on is missing"),
        (text({"piece": "SF", "x": 1e9}), "moves"),
        (text({"piece": "SF", "turned": "yes"}), "must be true or false"),
        (text({"piece": "SF", "angle": 45}), '"angle" is not a known field'),
    ],
)
def test_moves_that_cannot_be_are_refused(given: str, sentence: str) -> None:
    with pytest.raises(InputError, match=sentence):
        read_moves(given)


def test_a_piece_that_is_not_laid_here_is_refused() -> None:
    with pytest.raises(InputError, match="SLEEVE is not laid on this cloth 1 times"):
        with_moves(hand_lay(), {"piece": "SLEEVE"})


def test_single_moves_are_taken_back_and_made_again() -> None:
    own = with_moves(
        hand_lay(), {"piece": "SF", "x": FAR}, {"piece": "SB", "x": 2 * FAR}, {"piece": "SF", "x": FAR / 2}
    )
    hand = own.record
    assert [move.x for move in hand.moves.values()] == [FAR / 2, 2 * FAR]
    hand = hand.undone()
    assert {key[0]: move.x for key, move in hand.moves.items()} == {"SF": FAR, "SB": 2 * FAR}
    assert (hand.can_undo, hand.can_redo) == (True, True)
    hand = hand.undone().undone()
    assert (hand.moves, hand.can_undo) == ({}, False)
    assert hand.undone() == hand
    for _ in range(4):
        hand = hand.redone()
    assert hand == own.record
    back = hand.put_back()
    assert back.moves == {}
    assert back.undone().moves == hand.moves
    onward = HandLay(own.planned, own.pieces, hand.undone()).moved([MoveRecord(piece="CB", number=0, x=5.0)])
    assert not onward.can_redo
    assert set(onward.moves) == {("SF", 0), ("SB", 0), ("CB", 0)}


def test_very_many_moves_become_one_at_the_old_end_and_lie_the_same() -> None:
    hand = HandRecord(places=places_of(hand_lay().base.laid))
    for k in range(MOST_STEPS + 20):
        hand = hand.moved((MoveRecord(piece="SF" if k % 2 else "SB", number=0, x=float(k)),))
    assert len(hand.steps) == hand.done == MOST_STEPS
    assert {key[0]: move.x for key, move in hand.moves.items()} == {"SB": MOST_STEPS + 18.0, "SF": MOST_STEPS + 19.0}


def test_more_moves_than_a_step_may_have_are_still_read_back() -> None:
    """Once the oldest step is the end of more single moves than pieces can be laid."""
    hand = HandRecord(places=places_of(hand_lay().base.laid))
    many = MOST_STEPS + MOST_LAID + 100
    singles = [(MoveRecord(piece="SF" if k % 2 else "SB", number=0, x=float(k)),) for k in range(many)]
    for k in range(0, many, 50):
        hand = hand.moved(*singles[k : k + 50])
    read = HandRecord.model_validate_json(hand.model_dump_json())
    assert read == hand
    assert {key[0]: move.x for key, move in read.moves.items()} == {"SB": many - 2.0, "SF": many - 1.0}
    for _ in range(MOST_STEPS - 1):
        read = read.undone()
    assert {key[0]: move.x for key, move in read.moves.items()} == {
        "SB": many - MOST_STEPS,
        "SF": many - MOST_STEPS - 1.0,
    }
    assert (read.undone().moves, read.undone().can_undo) == ({}, False)


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"done": 300}, "done says that 300 steps hold, but steps has 1"),
        ({"places": []}, 'steps move "SF" number 0, which has no place in places'),
    ],
)
def test_moves_in_a_file_that_no_hand_can_have_made_are_refused(change: dict[str, object], sentence: str) -> None:
    hand = HandRecord(places=places_of(hand_lay().base.laid)).moved((MoveRecord(piece="SF", number=0, x=FAR),))
    document = hand.model_dump(mode="json")
    assert HandRecord.model_validate(document) == hand
    with pytest.raises(ValidationError, match=sentence):
        HandRecord.model_validate(document | change)


def test_a_shorter_lay_found_later_is_what_unmoved_pieces_begin_with() -> None:
    found = hand_lay().base
    first = replace(found, laid=tuple(laid.moved(100.0, 0.0) for laid in found.laid))
    unmoved = HandRecord(places=places_of(first.laid))
    own = HandLay(found, PLAIN, unmoved)
    assert own.document()["planned"]["length_mm"] == pytest.approx(first.length - 100.0, abs=0.06)
    assert own.record.places == places_of(found.laid)
    moved = HandLay(found, PLAIN, unmoved.moved((MoveRecord(piece="SF", number=0, x=FAR),)))
    for own_laid, laid in zip(moved.base.laid, first.laid, strict=True):  # moved on the first: it stays with that
        assert np.abs(own_laid.outline - laid.outline).max() < 1e-6
    assert moved.document()["planned"] == own.document()["planned"]


def test_places_of_other_pieces_are_not_moved_on() -> None:
    """As a file that somebody changed could hold them."""
    own = hand_lay()
    strange = HandRecord(places=places_of(own.base.laid[1:])).moved((MoveRecord(piece="SF", number=0, x=FAR),))
    assert HandLay(own.planned, PLAIN, strange).record.moves == {}
