"""A dart in the outline of a piece: two legs that meet at its point, and the seam that sews them to each other."""

import math
from dataclasses import dataclass

import numpy as np

from panelwright.body.worded_length import length_words
from panelwright.design.body_chart import closest
from panelwright.design.position import spoken
from panelwright.errors import DesignError
from panelwright.geometry.arrays import Array, turn
from panelwright.pattern.edge import Edge
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam, SeamRegion, Span
from panelwright.pattern.spoken_piece import spoken_piece

PIVOT = "-pivot"  # how the mark is called about which a dart turns, where that is not its point


@dataclass(frozen=True, eq=False)
class Dart:
    """A dart as it lies in a piece.

    Attributes:
        piece: the piece.
        first: the leg from the mouth to the point, in the sense of the outline.
        second: the leg from the point back to the mouth.
        seam: the seam of the two legs.
    """

    piece: Piece
    first: Edge
    second: Edge
    seam: Seam

    @property
    def line(self) -> str:
        """Id of its line."""
        return self.first.line

    @property
    def point(self) -> Array:
        """Its point, shape (2,)."""
        return self.first.curve.end

    @property
    def pivot(self) -> Array:
        """What it turns about: the mark, else its point, shape (2,)."""
        mark = next((mark for mark in self.piece.marks if mark.id == f"{self.line}{PIVOT}"), None)
        return self.point if mark is None else np.array(mark.at)

    @property
    def mouth(self) -> tuple[Array, Array]:
        """The ends of its mouth, the first leg's and the second's, shape (2,) each."""
        return self.first.curve.start, self.second.curve.end

    @property
    def value(self) -> float:
        """The angle at the pivot between the ends of its mouth, radians, above 0."""
        pivot = self.pivot
        return turn(self.mouth[0] - pivot, self.mouth[1] - pivot)

    @property
    def width(self) -> float:
        """How far its mouth is open, mm."""
        return float(np.linalg.norm(self.mouth[1] - self.mouth[0]))

    @property
    def words(self) -> str:
        """`2.8 cm wide (15.3°)`."""
        return f"{length_words(self.width)} wide ({math.degrees(self.value):.1f}°)"


def dart_on(pattern: Pattern, line: str) -> Dart:
    """The dart on a line.

    Raises:
        DesignError: if the line is none of a dart; the sentence lists the darts that there are.
    """
    darts = {seam.id: seam for seam in pattern.seams if seam.kind == "dart"}
    if line not in darts:
        known = closest(line, list(darts)) if darts else "; the pattern has none, so join two panels with a dart first"
        raise DesignError(f"{spoken(line)} is no dart{known}", line)
    seam = darts[line]
    spans = seam.a + seam.b
    if len(spans) != 2 or spans[0].piece != spans[1].piece:
        raise DesignError(f"the legs of the dart {spoken(line)} are cut apart; swing it before that", line)
    piece = pattern.piece(spans[0].piece)
    first, second = piece.edge(spans[0].edge), piece.edge(spans[1].edge)
    if piece.after(first).id != second.id:
        raise DesignError(f"the legs of the dart {spoken(line)} do not meet in {spoken_piece(piece)}", line)
    return Dart(piece, first, second, seam)


def dart_seam(piece: str, line: str, region: SeamRegion, ease: float = 0.0) -> Seam:
    """The seam of the two legs of a dart, from its mouth to its point."""
    first, second = leg_ids(piece, line)
    return Seam(line, "dart", (Span(piece, first),), (Span(piece, second, 1.0, 0.0),), region, ease=ease)


def leg_ids(piece: str, line: str) -> tuple[str, str]:
    """Ids of the two legs of a dart in a piece."""
    return f"{piece}.{line}", f"{piece}.{line}-2"
