"""A lay whose pieces a person moves: along, across, turned round; its grain never leaves the cloth's."""

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from math import pi
from typing import Annotated, Final

import shapely
from pydantic import Field, ValidationError

from panelwright.app.block_record import Record
from panelwright.app.board_piece import Document
from panelwright.app.field_fault import sentence
from panelwright.app.hand_record import HandRecord, MoveRecord
from panelwright.app.place_record import MOST_LAID, lie_alike, placed, places_of
from panelwright.drawing.lay_label import cut_here
from panelwright.errors import InputError
from panelwright.geometry.placement import Placement
from panelwright.json_text import parse_object
from panelwright.lay.fault import LayFault, lay_faults
from panelwright.lay.lay import LaidPiece, Lay
from panelwright.lay.piece_to_cut import PieceToCut, as_laid

# A page sees outlines that are off by so much, so that it can look at many of them while a hand moves, mm.
NEAR: Final = 0.2
_WORDS: Final = {
    "overlap": "lie on each other",
    "near": "lie too near to each other",
    "off-cloth": "lies off the cloth",
    "off-fold": "lies off the fold",
    "against-nap": "lies against the one-way cloth",
    "off-grain": "lies off the grain",
}


class _MovesRecord(Record):
    moves: Annotated[list[MoveRecord], Field(min_length=1, max_length=MOST_LAID)]
    based_on: Annotated[str, Field(max_length=64)]


@dataclass(frozen=True, eq=False)
class HandLay:
    """A lay as a hand has moved it.

    Attributes:
        planned: as the planner lays it now.
        pieces: what it lays, as the pattern has them.
        hand: what was moved, or None.
    """

    planned: Lay
    pieces: tuple[PieceToCut, ...]
    hand: HandRecord | None = None

    @cached_property
    def record(self) -> HandRecord:
        """What was moved, and from where: the planner's lay at the first move; where nothing is moved, as it is now."""
        planned, hand = places_of(self.planned.laid), self.hand
        if hand is None or placed(self.planned, hand.places) is None:
            return HandRecord(places=planned)
        return hand if hand.moves or lie_alike(hand.places, planned) else HandRecord(places=planned)

    @cached_property
    def base(self) -> Lay:
        """What the moves begin with."""
        return placed(self.planned, self.record.places) or self.planned

    @cached_property
    def revision(self) -> str:
        """Another one for every state of the moves and what they begin with."""
        return hashlib.sha256(self.record.model_dump_json().encode()).hexdigest()[:16]

    @cached_property
    def lay(self) -> Lay:
        """With everything where the hand has put it."""
        moves = self.record.moves
        return replace(
            self.base, laid=tuple(_moved(laid, moves.get((laid.piece.id, laid.copy))) for laid in self.base.laid)
        )

    @property
    def is_moved(self) -> bool:
        """Whether a hand has moved anything."""
        return bool(self.record.moves)

    @cached_property
    def faults(self) -> tuple[LayFault, ...]:
        """What is wrong with it; nothing where it can be cut.

        A page's outlines are coarse, so pieces may lie a little nearer to each other than the planner lays them.
        """
        near = replace(self.lay, spacing=max(0.0, self.base.spacing - 4 * NEAR))
        return lay_faults(near, as_laid(self.pieces, self.base.folded))

    def moved(self, moves: Sequence[MoveRecord], on: HandRecord | None = None) -> HandRecord:
        """What is moved once further single moves are made, one after the other.

        Args:
            moves: the oldest first.
            on: what they were made on, where that is not this lay as it is now.

        Raises:
            InputError: if a piece is not laid here.
        """
        known = {(laid.piece.id, laid.copy) for laid in self.base.laid}
        for move in moves:
            if move.key not in known:
                raise InputError(f"{move.piece} is not laid on this cloth {move.number + 1} times", "moves")
        return (on or self.record).moved(*((move,) for move in moves))

    def document(self) -> Document:
        """The *Hand* answer of docs/board.md."""
        lay, faults, record = self.lay, self.faults, self.record
        labels = {laid.piece.id: laid.piece.label for laid in lay.laid}
        return {
            "revision": self.revision,
            "width_mm": lay.width,
            "folded": lay.folded,
            "one_way": lay.cloth.one_way,
            "spacing_mm": max(0.0, lay.spacing - 2 * NEAR),
            "pieces": [_piece(self.base, laid) for laid in self.base.laid],
            "moves": [move.model_dump() for move in record.moves.values()],
            "can_undo": record.can_undo,
            "can_redo": record.can_redo,
            "planned": lay_numbers(self.planned),
            "mine": lay_numbers(lay) if not faults else None,
            "faults": [fault_words(fault, labels) for fault in faults],
        }


def read_moves(text: str) -> tuple[list[MoveRecord], str]:
    """(moves, revision that they were made on) of a request, `{"moves": [{"piece", "number", "turned", "x", "y"}],
    "based_on"}`.

    Raises:
        InputError: if it holds anything else.
    """
    try:
        record = _MovesRecord.model_validate(parse_object(text))
    except ValidationError as error:
        raise InputError(*sentence(error, _MovesRecord)) from error
    return record.moves, record.based_on


def _moved(laid: LaidPiece, move: MoveRecord | None) -> LaidPiece:
    if move is None:
        return laid
    if move.turned:
        laid = replace(laid, placement=_round(laid).after(laid.placement))
    return laid.moved(move.x, move.y)


def _round(laid: LaidPiece) -> Placement:
    """Half a turn about the middle of the piece as it lies; on the fold it is turned over, so that it stays there."""
    (left, low), (right, high) = laid.outline.min(axis=0), laid.outline.max(axis=0)
    if laid.piece.fold is not None:
        return Placement(0.0, float(left + right), 0.0, mirrored=True)
    return Placement(pi, float(left + right), float(low + high))


def _piece(lay: Lay, laid: LaidPiece) -> Document:
    outline = shapely.get_coordinates(shapely.simplify(laid.area, NEAR).exterior)[:-1]
    return {
        "piece": laid.piece.id,
        "number": laid.copy,
        "label": laid.piece.label,
        "code": laid.piece.code,
        "cut": cut_here(lay, laid),
        "on_fold": laid.piece.fold is not None,
        "outline": outline.round(2).tolist(),
        "box": [float(value) for value in laid.area.bounds],
        "grain": laid.grain.round(2).tolist(),
    }


def lay_numbers(lay: Lay) -> Document:
    """Length, length to buy and share of the cloth that becomes pieces."""
    return {"length_mm": round(lay.length, 1), "to_buy_mm": round(lay.to_buy, 1), "use": round(lay.use, 4)}


def fault_words(fault: LayFault, labels: dict[str, str]) -> str:
    """`Centre front and Side back lie on each other.`"""
    names = " and ".join(labels.get(piece, piece) for piece in fault.pieces)
    return f"{names} {_WORDS.get(fault.kind, 'cannot be cut so')}."
