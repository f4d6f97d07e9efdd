"""A lay whose pieces a person moves: along, across, turned round; its grain never leaves the cloth's."""

from collections import OrderedDict
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from math import pi
from threading import Lock
from typing import Annotated, Final

import shapely
from pydantic import BaseModel, ConfigDict, Field, ValidationError

from panelwright.app.board_piece import Document
from panelwright.app.field_fault import sentence
from panelwright.app.lay_search import lay_key
from panelwright.drawing.lay_label import cut_here
from panelwright.errors import InputError
from panelwright.geometry.placement import Placement
from panelwright.json_text import parse_object
from panelwright.lay.fault import LayFault, lay_faults
from panelwright.lay.lay import LaidPiece, Lay
from panelwright.lay.piece_to_cut import PieceToCut

KEPT: Final = 24
# A page sees outlines that are off by so much, so that it can look at many of them while a hand moves, mm.
NEAR: Final = 0.2
FARTHEST: Final = 50_000.0
_WORDS: Final = {
    "overlap": "lie on each other",
    "near": "lie too near to each other",
    "off-cloth": "lies off the cloth",
    "off-fold": "lies off the fold",
    "against-nap": "lies against the one-way cloth",
    "off-grain": "lies off the grain",
}


class _Record(BaseModel):
    model_config = ConfigDict(strict=True, frozen=True, extra="forbid", allow_inf_nan=False)


class MoveRecord(_Record):
    """Where a piece went from where the planner laid it: turned round about its middle if so, then shifted, mm."""

    piece: Annotated[str, Field(min_length=1, max_length=200)]
    number: Annotated[int, Field(ge=0, le=10_000)]
    turned: bool = False
    x: Annotated[float, Field(ge=-FARTHEST, le=FARTHEST)] = 0.0
    y: Annotated[float, Field(ge=-FARTHEST, le=FARTHEST)] = 0.0


class _MovesRecord(_Record):
    moves: Annotated[list[MoveRecord], Field(max_length=2000)]


@dataclass(eq=False)
class HandLay:
    """A lay and what a hand has moved in it.

    Attributes:
        base: as the planner laid it.
        pieces: what it lays, as the pattern has them.
        moves: (piece, copy) -> where it went; what is not moved is not among them.
    """

    base: Lay
    pieces: tuple[PieceToCut, ...]
    moves: dict[tuple[str, int], MoveRecord] = field(default_factory=dict)

    @property
    def lay(self) -> Lay:
        """With everything where the hand has put it."""
        return replace(self.base, laid=tuple(self._moved(laid) for laid in self.base.laid))

    @property
    def faults(self) -> tuple[LayFault, ...]:
        """What is wrong with it; nothing where it can be cut.

        A page's outlines are coarse, so pieces may lie a little nearer to each other than the planner lays them.
        """
        own = self.pieces if self.base.folded else tuple(piece.spread() for piece in self.pieces)
        return lay_faults(replace(self.lay, spacing=max(0.0, self.base.spacing - 4 * NEAR)), own)

    def put(self, text: str) -> None:
        """Take the moves of a request, `{"moves": [{"piece", "number", "turned", "x", "y"}]}`.

        Raises:
            InputError: if it holds anything else, or a piece that is not laid here.
        """
        try:
            record = _MovesRecord.model_validate(parse_object(text))
        except ValidationError as error:
            raise InputError(*sentence(error, _MovesRecord)) from error
        known = {(laid.piece.id, laid.copy) for laid in self.base.laid}
        moves = {(move.piece, move.number): move for move in record.moves}
        for key in moves:
            if key not in known:
                raise InputError(f"{key[0]} is not laid on this cloth {key[1] + 1} times", "moves")
        self.moves = moves

    def document(self) -> Document:
        """The *Hand* answer of docs/board.md."""
        lay, faults = self.lay, self.faults
        labels = {laid.piece.id: laid.piece.label for laid in lay.laid}
        return {
            "width_mm": lay.width,
            "folded": lay.folded,
            "one_way": lay.cloth.one_way,
            "spacing_mm": max(0.0, lay.spacing - 2 * NEAR),
            "pieces": [_piece(self.base, laid) for laid in self.base.laid],
            "moves": [move.model_dump() for move in self.moves.values()],
            "planned": _numbers(self.base),
            "mine": _numbers(lay) if not faults else None,
            "faults": [_told(fault, labels) for fault in faults],
        }

    def _moved(self, laid: LaidPiece) -> LaidPiece:
        move = self.moves.get((laid.piece.id, laid.copy))
        if move is None:
            return laid
        if move.turned:
            laid = replace(laid, placement=_round(laid).after(laid.placement))
        return laid.moved(move.x, move.y)


@dataclass(eq=False)
class HandLays:
    """The lays that hands have moved, for the same pieces on the same cloth. Several threads may ask."""

    _own: OrderedDict[str, HandLay] = field(default_factory=OrderedDict)
    _lock: Lock = field(default_factory=Lock)

    def of(self, lay: Lay, pieces: Sequence[PieceToCut], moving: bool = False) -> HandLay:
        """The one for these pieces; where nothing is moved it begins with `lay`, which a search may have found since.

        With `moving` it stays with what it began with: moves that come now were made on that.
        """
        key = lay_key(lay.cloth, lay.folded, pieces)
        with self._lock:
            own = self._own.setdefault(key, HandLay(lay, tuple(pieces)))
            own.base = replace(own.base if own.moves or moving else lay, cloth=lay.cloth)
            self._own.move_to_end(key)
            while len(self._own) > KEPT:
                self._own.popitem(last=False)
            return own

    def forget(self, lay: Lay, pieces: Sequence[PieceToCut]) -> None:
        """Begin anew the next time that it is asked for."""
        with self._lock:
            self._own.pop(lay_key(lay.cloth, lay.folded, pieces), None)


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


def _numbers(lay: Lay) -> Document:
    return {"length_mm": round(lay.length, 1), "to_buy_mm": round(lay.to_buy, 1), "use": round(lay.use, 4)}


def _told(fault: LayFault, labels: dict[str, str]) -> str:
    """`Centre front and Side back lie on each other.`"""
    names = " and ".join(labels.get(piece, piece) for piece in fault.pieces)
    return f"{names} {_WORDS.get(fault.kind, 'cannot be cut so')}."
