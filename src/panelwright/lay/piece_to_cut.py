"""A piece to cut: what one cloth must yield of one piece, and how its outline may lie on the cloth."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from shapely import Polygon

from panelwright.finish.cut_piece import Cut, CutPiece, CuttingPattern
from panelwright.geometry.arrays import Array, frozen
from panelwright.geometry.placement import Placement
from panelwright.lay.opened import opened_outline
from panelwright.pattern.piece import Layer, Piece


@dataclass(frozen=True, eq=False)
class PieceToCut:
    """One piece in one cloth. Coordinates are the piece's own, mm.

    Attributes:
        id: of the piece.
        label: what it is called.
        layer: outer, facing, lining or interfacing.
        outline: the cut line, shape (m, 2), closed, anticlockwise.
        grain: the two ends of the grain line, shape (2, 2), from the lower to the upper.
        fold: the two ends of the edge that lies on the fold, shape (2, 2), or None.
        face_up: how many are cut as they are drawn, on cloth whose right side is up.
        face_down: how many are cut turned over.
        opened: the line, shape (2, 2), along which a piece that is drawn by halves was opened, or None.
        code: short name that stands on it; its id where none is given.
    """

    id: str
    label: str
    layer: Layer
    outline: Array
    grain: Array
    fold: Array | None
    face_up: int
    face_down: int
    opened: Array | None = None
    code: str = ""

    def __post_init__(self) -> None:
        object.__setattr__(self, "code", self.code or self.id)
        for name in ("outline", "grain"):
            object.__setattr__(self, name, frozen(getattr(self, name)))

    @property
    def count(self) -> int:
        """Pieces in all; one on the fold is one."""
        return self.face_up + self.face_down

    @property
    def spare(self) -> int:
        """How many too many come out of folded cloth, where every cut gives one of each hand."""
        return 0 if self.fold is not None else abs(self.face_up - self.face_down)

    @cached_property
    def area(self) -> float:
        """Of all that is cut, mm²: one that is drawn by halves counts whole."""
        whole = 2 if self.fold is not None else 1
        return whole * self.count * float(Polygon(self.outline).area)

    @cached_property
    def up(self) -> float:
        """The direction that is laid along the cloth, radians: the fold's, else the grain's, towards the piece's top.

        A grain line drawn exactly across the piece is taken from left to right.
        """
        start, end = self.grain if self.fold is None else self.fold
        along = end - start
        if along[1] < 0 or (along[1] == 0 and along[0] < 0):
            along = -along
        return math.atan2(along[1], along[0])

    def turn(self, mirrored: bool, half_turn: bool) -> Placement:
        """The turn that lays the grain along the cloth (+x), the piece's top ahead, or behind after a half turn."""
        angle = self.up - math.pi if mirrored else -self.up
        return Placement(angle + math.pi if half_turn else angle, mirrored=mirrored)

    def extent(self) -> tuple[float, float]:
        """(along the grain, across it): the room that its outline takes on the cloth, mm."""
        along, across = np.ptp(self.turn(False, False).points(self.outline), axis=0)
        return float(along), float(across)

    def spread(self) -> "PieceToCut":
        """The piece for cloth that is spread out: one that is drawn by halves is opened along its fold."""
        if self.fold is None:
            return self
        return replace(self, outline=opened_outline(self.outline, self.fold), fold=None, opened=self.fold)


def as_laid(pieces: Sequence[PieceToCut], folded: bool) -> tuple[PieceToCut, ...]:
    """Pieces, as the pattern has them, for cloth that is folded or spread out."""
    return tuple(pieces) if folded else tuple(piece.spread() for piece in pieces)


def cloths_of(cutting: CuttingPattern) -> tuple[str, ...]:
    """The cloths that a garment is cut from, in the order of its pieces."""
    return tuple(dict.fromkeys(cut.cloth for _, cut_piece in cutting.pieces for cut in cut_piece.cuts))


def pieces_to_cut(cutting: CuttingPattern, cloth: str) -> tuple[PieceToCut, ...]:
    """What one cloth must yield, in the order of the pieces."""
    return tuple(_wanted(cutting, cloth))


def _wanted(cutting: CuttingPattern, cloth: str) -> Iterator[PieceToCut]:
    for piece, cut_piece in cutting.pieces:
        for cut in cut_piece.cuts:
            if cut.cloth == cloth and cut.count > 0:
                yield _piece_to_cut(piece, cut_piece, cut)


def _piece_to_cut(piece: Piece, cut_piece: CutPiece, cut: Cut) -> PieceToCut:
    folds = [edge.curve for edge in piece.edges if edge.kind == "fold"]
    fold = np.array([folds[0].start, folds[0].end]) if cut.mode == "fold" and folds else None
    up, down = _hands(piece, cut)
    grain = np.array([piece.grain.start, piece.grain.end])
    return PieceToCut(
        piece.id, piece.label, piece.layer, cut_piece.cut_line, grain, fold, up, down, code=cut_piece.code
    )


def _hands(piece: Piece, cut: Cut) -> tuple[int, int]:
    """(face up, face down): one of each for a pair.

    A single of the outer layer that is cut twice serves as its own facing, which lies face down; so do the singles
    of other layers, whose right side (an interfacing's: the side without glue) is on the other side of the garment.
    """
    if cut.mode == "fold":
        return cut.count, 0
    if cut.mode == "pair" or piece.layer == "outer":
        return (cut.count + 1) // 2, cut.count // 2
    return 0, cut.count
