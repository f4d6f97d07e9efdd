"""The cutting list of each cloth: what is cut from it, how, and how many pieces that makes."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from panelwright.finish.cut_piece import Cut, CuttingPattern
from panelwright.pattern.piece import Extent, Layer, Piece

_ONCE: Final[dict[Extent, int]] = {"half_on_fold": 1, "one_side": 2, "whole": 1}


@dataclass(frozen=True)
class ListedPiece:
    """One piece in one cloth's list.

    Attributes:
        piece, label: id and name of the piece.
        layer: that it is drawn for.
        cut: mode and count; `count` is of finished whole pieces (a pair is 2, one on the fold is 1).
        sets: how many layers are cut by this one drawing: 2 where the facing is the outer piece once more.
    """

    piece: str
    label: str
    layer: Layer
    cut: Cut
    sets: int

    @property
    def words(self) -> str:
        """`2 on fold`, `2 pairs`, `1 single`."""
        return counted_cut(self.cut)


@dataclass(frozen=True)
class ClothList:
    """What is cut from one cloth.

    Attributes:
        cloth: its name.
        rows: its pieces in the pattern's order.
    """

    cloth: str
    rows: tuple[ListedPiece, ...]

    @property
    def total(self) -> int:
        """How many pieces of cloth lie on the table in the end."""
        return sum(row.cut.count for row in self.rows)

    @property
    def one_set(self) -> tuple[ListedPiece, ...]:
        """The pieces of one of two equal sets, or () where the cloth is not cut twice throughout."""
        if not self.rows or any(row.sets < 2 for row in self.rows):
            return ()
        if any(row.cut.count % 2 for row in self.rows):
            return ()
        return tuple(replace(row, cut=_half(row.cut), sets=1) for row in self.rows)

    @property
    def two_ways(self) -> str:
        """A sentence that offers both ways of cutting one cloth twice, or empty where it is cut once.

        Pinning one set and cutting it twice is quicker; one combined lay is never longer than two sets (a rule of the
        cutting table).
        """
        one = sum(row.cut.count for row in self.one_set)
        if not one:
            return ""
        return (
            f"Outer and facing are both cut from it: pin one set of {one} pieces and cut it twice, or lay all "
            f"{self.total} together, which never takes more cloth."
        )


def cutting_lists(cutting: CuttingPattern) -> tuple[ClothList, ...]:
    """The list of every cloth, in the order in which the pieces name them."""
    rows: dict[str, list[ListedPiece]] = {}
    for row in _rows(cutting):
        rows.setdefault(row.cut.cloth, []).append(row)
    return tuple(ClothList(cloth, tuple(listed)) for cloth, listed in rows.items())


def counted_cut(cut: Cut) -> str:
    """How a piece is cut, in the trade's words: `1 on fold`, `2 pairs`, `1 single`."""
    if cut.mode == "pair":
        pairs = cut.count // 2
        return f"{pairs} {'pair' if pairs == 1 else 'pairs'}"
    return f"{cut.count} on fold" if cut.mode == "fold" else f"{cut.count} single"


def _rows(cutting: CuttingPattern) -> Iterator[ListedPiece]:
    for piece, side in cutting.pieces:
        for cut in side.cuts:
            yield ListedPiece(piece.id, piece.label, piece.layer, cut, max(1, cut.count // _once(piece)))


def _once(piece: Piece) -> int:
    """How many a single layer of the garment takes."""
    return 1 if piece.extent == "one_side" and piece.hand != "both" else _ONCE[piece.extent]


def _half(cut: Cut) -> Cut:
    """Half of a cut; of the pair of a whole piece, which is an outer and a facing, a single one."""
    count = cut.count // 2
    return Cut(cut.cloth, "single" if cut.mode == "pair" and count % 2 else cut.mode, count)
