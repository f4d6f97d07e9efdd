"""The mouth of a dart: whether the allowances on its two sides have room beside each other."""

import math
from dataclasses import dataclass
from typing import Final

import numpy as np

from panelwright.body.worded_length import length_words
from panelwright.design.dart import Dart, dart_on
from panelwright.design.position import spoken
from panelwright.errors import DesignError
from panelwright.geometry.arrays import Array
from panelwright.pattern.edge import Edge
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

ALLOWANCE: Final = 15.0  # mm, the widest usual one (common practice); a step does not know the garment's
OF_EDGE: Final = 1 / 3  # of an edge that a corner may take (rule 8 of docs/pattern-file.md)


@dataclass(frozen=True, eq=False)
class MouthCorner:
    """One corner of a dart's mouth.

    Attributes:
        edge: that the dart opens into.
        away: unit direction of that edge from the corner, away from the mouth, shape (2,).
        out: unit normal of the edge, away from the piece, shape (2,).
    """

    dart: Dart
    edge: Edge
    corner: Array
    away: Array
    out: Array

    @property
    def slant(self) -> float:
        """The angle between the dart's middle line, seen outwards, and the edge, radians, 0 … π."""
        along = self._along
        return math.acos(float(np.clip(along @ self.away / np.linalg.norm(along), -1.0, 1.0)))

    @property
    def cut_short(self) -> float:
        """Over how much of the edge an allowance of 15 mm ends on the middle line (see `geometry.mouth`), mm."""
        along = self._along
        across = np.array([-along[1], along[0]])
        nearing = float(across @ self.away)
        if abs(nearing) < 1e-9 * float(np.linalg.norm(along)):
            return 0.0
        return float(-across @ (self.corner + ALLOWANCE * self.out - self.dart.point) / nearing)

    @property
    def most(self) -> float:
        """Over how much it may, mm."""
        return min(ALLOWANCE, OF_EDGE * self.edge.curve.length)

    @property
    def _along(self) -> Array:
        one, other = self.dart.mouth
        return (one + other) / 2 - self.dart.point


def refuse_aslant(pattern: Pattern, piece: Piece) -> None:
    """Refuse darts of a piece that leave their edge too much aslant.

    Raises:
        DesignError: if the allowance beside a mouth would be cut short over more than a corner's share of its edge.
    """
    for seam in pattern.seams:
        if seam.kind == "dart" and len(seam.a) == 1 and seam.a[0].piece == piece.id:
            for corner in _corners(dart_on(pattern, seam.id)):
                if corner.slant < math.pi / 2 and corner.cut_short > corner.most:
                    _refuse(corner)


def _corners(dart: Dart) -> tuple[MouthCorner, MouthCorner]:
    before, after = dart.piece.before(dart.first), dart.piece.after(dart.second)
    one, other = -before.curve.end_tangent, after.curve.start_tangent
    return (
        MouthCorner(dart, before, before.curve.end, one, np.array([-one[1], one[0]])),
        MouthCorner(dart, after, after.curve.start, other, np.array([other[1], -other[0]])),
    )


def _refuse(corner: MouthCorner) -> None:
    edge = spoken(corner.edge.line).removesuffix("/line")
    raise DesignError(
        f"the dart would leave the {edge} edge at {math.degrees(corner.slant):.0f}°: so aslant, the allowance beside "
        f"its mouth is cut short over {length_words(corner.cut_short)} of {length_words(corner.edge.curve.length)} to "
        f"the next corner, and {length_words(corner.most)} is the most; choose a place more squarely before its point, "
        "or farther from the corner",
        corner.dart.line,
    )
