"""The grade report: how far each corner of each piece moves from size to size, and what is odd about it."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np

from panelwright.body.units import Unit, format_length
from panelwright.finding import Finding
from panelwright.geometry.arrays import Array
from panelwright.grading.nested_piece import NestedPiece, Reference

FORMAT: Final = "panelwright-grade/1"
UNEVEN: Final = 3.0  # mm by which a step may differ from an even grade (own choice)
UNEVEN_SHARE: Final = 0.4  # of the even step, besides (own choice)
NO_MOVE: Final = 1.0  # mm: less has no direction
REMEDY: Final = (
    "Look at the nested drawing there: the sizes' measurements may not rise evenly, or a height of the design is an "
    "offset where a share of the way between two levels would grow with the size."
)


@dataclass(frozen=True, eq=False)
class CornerGrade:
    """One corner of a piece through the sizes.

    Attributes:
        piece: id.
        vertex: its number in the pattern file, from 0.
        between: ids of the edges that end and begin there.
        at: from the reference, one row a size, shape (sizes, 2), mm.
    """

    piece: str
    vertex: int
    between: tuple[str, str]
    at: Array

    @property
    def moves(self) -> Array:
        """From each size to the next, shape (sizes - 1, 2), mm."""
        moves: Array = np.diff(self.at, axis=0)
        return moves


@dataclass(frozen=True, eq=False)
class GradeReport:
    """What `grade_report` returns.

    Attributes:
        busts: bust girths, cm, rising.
        reference: at which the sizes are laid on one another.
        corners: of all pieces.
        unlike: ids of pieces that differ in more than size.
        unit: of the wording.
    """

    busts: tuple[int, ...]
    reference: Reference
    corners: tuple[CornerGrade, ...]
    unlike: tuple[str, ...]
    unit: Unit = Unit.CM

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Pieces that are not alike in every size; corners that turn back; steps that are uneven."""
        found = [_unlike(piece) for piece in self.unlike]
        for corner in self.corners:
            found += self._crossing(corner) or self._uneven(corner)
        return tuple(found)

    def document(self) -> dict[str, object]:
        """The report, ready for JSON; lengths in mm, x towards the centre front, y up."""
        pieces: dict[str, list[dict[str, object]]] = {}
        for corner in self.corners:
            moves = [
                {"from": a, "to": b, "x": float(x), "y": float(y), "distance": float(np.hypot(x, y))}
                for (a, b), (x, y) in zip(pairwise(self.busts), corner.moves, strict=True)
            ]
            at = {str(bust): [float(x), float(y)] for bust, (x, y) in zip(self.busts, corner.at, strict=True)}
            entry = {"vertex": corner.vertex, "between": list(corner.between), "at": at, "moves": moves}
            pieces.setdefault(corner.piece, []).append(entry)
        return {
            "format": FORMAT,
            "unit": "mm",
            "reference": self.reference,
            "sizes": list(self.busts),
            "pieces": [{"piece": piece, "corners": corners} for piece, corners in pieces.items()],
            "unlike": list(self.unlike),
        }

    def _crossing(self, corner: CornerGrade) -> list[Finding]:
        for number, (one, two) in enumerate(pairwise(corner.moves)):
            back = float(one @ two)
            if back < 0 and min(np.hypot(*one), np.hypot(*two)) > NO_MOVE:
                a, b, c = self.busts[number : number + 3]
                message = (
                    f"{_place(corner)} moves {self._words(one)} from size {a} to {b} and turns back by "
                    f"{self._words(two)} to {c}: the nested lines cross."
                )
                off = float(np.hypot(*two))
                return [Finding("grade-crossing", "warning", corner.piece, off, NO_MOVE, message, REMEDY)]
        return []

    def _uneven(self, corner: CornerGrade) -> list[Finding]:
        steps = np.diff(self.busts).astype(float)
        even = corner.moves.sum(axis=0) / steps.sum()
        off = np.linalg.norm(corner.moves - even * steps[:, None], axis=1)
        worst = int(off.argmax())
        expected = even * steps[worst]
        limit = max(UNEVEN, UNEVEN_SHARE * float(np.hypot(*expected)))
        if off[worst] <= limit:
            return []
        a, b = self.busts[worst : worst + 2]
        message = (
            f"{_place(corner)} moves {self._words(corner.moves[worst])} from size {a} to {b}; an even grade of this "
            f"range would move it {self._words(expected)}."
        )
        return [Finding("grade-uneven", "advice", corner.piece, float(off[worst]), limit, message, REMEDY)]

    def _words(self, move: Array) -> str:
        return format_length(float(np.hypot(*move)), self.unit)


def grade_report(
    pieces: Sequence[NestedPiece], unlike: Sequence[str], reference: Reference, unit: Unit = Unit.CM
) -> GradeReport:
    """The report of nested pieces, which all have the same sizes."""
    busts = tuple(pieces[0].members) if pieces else ()
    corners = []
    for piece in pieces:
        at = np.array([piece.corners(bust) for bust in busts])
        edges = next(iter(piece.members.values()))[0].edges
        for vertex in range(len(edges)):
            corners.append(CornerGrade(piece.id, vertex, (edges[vertex - 1].id, edges[vertex].id), at[:, vertex]))
    return GradeReport(busts, reference, tuple(corners), tuple(unlike), unit)


def _place(corner: CornerGrade) -> str:
    """`The corner of CF between hem and centre front`."""
    lines = [edge.partition(".")[2].rpartition("/")[2].replace("-", " ") for edge in corner.between]
    return f"The corner of {corner.piece} between {lines[0]} and {lines[1]}"


def _unlike(piece: str) -> Finding:
    return Finding(
        "grade-unlike",
        "warning",
        piece,
        1.0,
        0.0,
        f"{piece} has not the same edges in every size, so its sizes cannot be nested.",
        "Make this piece from each size's own pattern, or draw the design so that the edge is there in every size.",
        unit="pieces",
    )
