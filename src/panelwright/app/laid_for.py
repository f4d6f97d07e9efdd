"""What a lay is for: these pieces on this cloth."""

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Self

import numpy as np

from panelwright.body.units import Unit, format_length
from panelwright.geometry.arrays import Array
from panelwright.lay.lay import Lay
from panelwright.lay.piece_to_cut import PieceToCut

# Outlines are told apart to this many digits, mm: less is rounding, and every lay is proved again anyway.
_DIGITS: Final = 2


@dataclass(frozen=True)
class LaidFor:
    """The same for the same pieces on the same cloth, whoever drew them in whatever unit.

    Attributes:
        cloth: its name.
        width: of the cloth, mm.
        folded: whether it lies double.
        one_way: whether its pile, sheen or print runs one way.
        pieces: what stands for the outlines, grain lines and counts of the pieces.
    """

    cloth: str
    width: float
    folded: bool
    one_way: bool
    pieces: str

    @classmethod
    def of(cls, lay: Lay, pieces: Sequence[PieceToCut]) -> Self:
        """What a lay of `pieces`, as the pattern has them, is for."""
        return cls(lay.cloth.name, lay.cloth.width, lay.folded, lay.cloth.one_way, _digest(pieces))

    def unlike(self, other: "LaidFor", unit: Unit) -> str:
        """What of this is otherwise in the other, in words: `cloth 96.0 cm wide and the pieces as they were`."""
        differs = []
        if self.width != other.width:
            differs.append(f"cloth {format_length(self.width, unit)} wide")
        if self.folded != other.folded:
            differs.append("folded cloth" if self.folded else "cloth that is spread out")
        if self.one_way != other.one_way:
            differs.append("one-way cloth" if self.one_way else "cloth that may lie either way")
        if self.pieces != other.pieces:
            differs.append("the pieces as they were")
        return " and ".join(differs)


def _digest(pieces: Sequence[PieceToCut]) -> str:
    digest = hashlib.sha256()
    for piece in pieces:
        digest.update(repr((piece.id, piece.face_up, piece.face_down, piece.fold is not None)).encode())
        digest.update(_bytes(piece.outline))
        digest.update(_bytes(piece.grain))
    return digest.hexdigest()[:32]


def _bytes(points: Array) -> bytes:
    rounded: bytes = np.ascontiguousarray(np.round(points, _DIGITS) + 0.0).tobytes()  # + 0.0: no negative zero
    return rounded
