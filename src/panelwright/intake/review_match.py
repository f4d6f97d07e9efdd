"""Which of a learner's pieces is which of the model's: by name, else by shape."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from scipy.optimize import linear_sum_assignment

from panelwright.geometry.arrays import Array
from panelwright.intake.drawn_piece import DrawnPiece
from panelwright.intake.review_fit import Fit, best_fit
from panelwright.pattern.piece import Piece

# By shape a piece is taken for another if half of its outline lies nearer than this share of the outline's length.
LIKENESS: Final = 0.015
_UNLIKE: Final = 1e6


@dataclass(frozen=True)
class Match:
    """A learner's piece beside the model's, both at full scale; `fit` lays the first on the second."""

    learner: DrawnPiece
    model: Piece
    fit: Fit
    by_name: bool

    @property
    def laid(self) -> DrawnPiece:
        """The learner's piece as it lies on the model's, its outline anticlockwise."""
        place = self.fit.placement
        edges = [replace(edge, curve=edge.curve.placed(place)) for edge in self.learner.edges]
        if place.mirrored:
            edges = [replace(edge, curve=edge.curve.reversed()) for edge in reversed(edges)]
        return replace(self.learner, edges=tuple(edges), grain=None, inside=(), notches=(), marks=())


def matches(learner: Sequence[DrawnPiece], model: Sequence[Piece], scale: float) -> list[Match]:
    """The pairs, in the model's order. A name, the id or the label of a piece, goes before a shape.

    Args:
        learner: pieces at full scale.
        model: pieces as they should be.
        scale: mm of the garment to one mm of the learner's paper.
    """
    named: dict[str, DrawnPiece] = {}
    for piece in model:
        left = [each for each in learner if each not in named.values()]
        same = [each for each in left if _names(each.id, each.label) & _names(piece.id, piece.label)]
        if same:
            named[piece.id] = same[0]
    found = [Match(named[p.id], p, best_fit(ring_of(named[p.id]), p, scale), True) for p in model if p.id in named]
    others = [piece for piece in learner if piece not in named.values()]
    found += _by_shape(others, [piece for piece in model if piece.id not in named], scale)
    order = [piece.id for piece in model]
    return sorted(found, key=lambda match: order.index(match.model.id))


def ring_of(piece: DrawnPiece) -> Array:
    """The outline as places, shape (n, 2), not closed."""
    return np.concatenate([edge.curve.polyline()[:-1] for edge in piece.edges])


def _by_shape(learner: Sequence[DrawnPiece], model: Sequence[Piece], scale: float) -> list[Match]:
    """The pairs of what has no name in common that are alike enough, taken so that all in all they are most alike."""
    if not learner or not model:
        return []
    fits = [[_fit_of_shape(each, piece, scale) for piece in model] for each in learner]
    unlike = [[_UNLIKE if fit is None else fit.off for fit in row] for row in fits]
    rows, columns = linear_sum_assignment(np.array(unlike))
    pairs = [(learner[j], model[k], fits[j][k]) for j, k in zip(rows.tolist(), columns.tolist(), strict=True)]
    alike = [(each, piece) for each, piece, fit in pairs if fit is not None]
    return [Match(each, piece, best_fit(ring_of(each), piece, scale), False) for each, piece in alike]


def _fit_of_shape(each: DrawnPiece, piece: Piece, scale: float) -> Fit | None:
    length = piece.outline.length
    if not 0.8 < sum(edge.curve.length for edge in each.edges) / length < 1.25:
        return None
    fit = best_fit(ring_of(each), piece, scale, in_short=True)
    return fit if fit.off < LIKENESS * length else None


def _names(*words: str) -> set[str]:
    return {word.strip().casefold() for word in words if word.strip()}
