"""One piece in every size of a range, laid on a reference: a place that all sizes share."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal, get_args

import numpy as np

from panelwright.errors import InputError
from panelwright.finish.cut_piece import CutPiece, CuttingPattern
from panelwright.geometry.arrays import Array
from panelwright.pattern.level import WAIST
from panelwright.pattern.piece import Piece
from panelwright.quotation import quoted

Reference = Literal["waist", "bottom", "top"]
REFERENCES: Final[tuple[str, ...]] = get_args(Reference)


@dataclass(frozen=True, eq=False)
class NestedPiece:
    """A piece that has the same edges in every size.

    Attributes:
        id, label: of the piece.
        members: bust girth in cm -> the piece and how it is cut, the smallest size first.
        references: bust girth -> the place of the piece that all sizes share, shape (2,), mm.

    Grain stays upright: sizes are shifted and not turned.
    """

    id: str
    label: str
    members: Mapping[int, tuple[Piece, CutPiece]]
    references: Mapping[int, Array]

    def corners(self, bust: int) -> Array:
        """Every corner of the piece in a size, from the reference, shape (n, 2), mm."""
        corners: Array = self.members[bust][0].vertices - self.references[bust]
        return corners


def checked_reference(name: str) -> Reference:
    """The reference of this name.

    Raises:
        InputError: if there is none.
    """
    for known in REFERENCES:
        if name == known:
            return known  # type: ignore[return-value]  # one of the literals
    raise InputError(f"sizes are nested at {', '.join(REFERENCES)}, not at {quoted(name)}", "at")


def nested(
    sizes: Mapping[int, CuttingPattern], reference: Reference
) -> tuple[tuple[NestedPiece, ...], tuple[str, ...]]:
    """(the pieces that are alike in every size, ids of those that are not).

    Facings, linings and interfacings repeat the shell and are left out.

    Args:
        sizes: bust girth in cm -> its cutting pattern, the smallest first; at least two.
        reference: `waist`, the end of the waist line towards the centre front; `bottom` or `top`, the corner
            there towards the centre front. A piece without a waist takes `bottom`.
    """
    own = {bust: {p.id: (p, cut) for p, cut in made.pieces if not p.derived_from} for bust, made in sizes.items()}
    ids = list(dict.fromkeys(id for pieces in own.values() for id in pieces))
    alike, unlike = [], []
    for id in ids:
        members = {bust: pieces[id] for bust, pieces in own.items() if id in pieces}
        outlines = {tuple((edge.id, edge.line) for edge in piece.edges) for piece, _ in members.values()}
        if len(members) == len(sizes) and len(outlines) == 1:
            first = next(iter(members.values()))[0]
            alike.append(NestedPiece(id, first.label, members, _references(members, reference)))
        else:
            unlike.append(id)
    return tuple(alike), tuple(unlike)


def _references(members: Mapping[int, tuple[Piece, CutPiece]], reference: Reference) -> dict[int, Array]:
    waists = {bust: piece.inside_line(WAIST) for bust, (piece, _) in members.items()}
    if reference == "waist" and all(waists.values()):
        return {bust: line.curve.end for bust, line in waists.items() if line is not None}
    # The corner of the smallest size, and the same corner of every other.
    smallest = next(iter(members.values()))[0].vertices
    up = 1.0 if reference == "top" else -1.0
    corner = int(np.argmax(smallest @ np.array([1.0, up])))
    return {bust: piece.vertices[corner] for bust, (piece, _) in members.items()}


def sizes_apart(busts: Sequence[int]) -> None:
    """Refuse what is no range.

    Raises:
        InputError: if there are fewer than two sizes, or one stands twice.
    """
    if len(busts) < 2 or len(set(busts)) < len(busts):
        raise InputError("a range takes at least two sizes, each once, like 80,84,88", "busts")
