"""The learner's outline cut at the corners of the model, so that each of its stretches has its model edge."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.intake.drawn_piece import DrawnPiece
from panelwright.intake.review_match import Match
from panelwright.pattern.edge import Edge
from panelwright.pattern.piece import Piece

# A corner that the learner drew is taken for the model's from so far, mm of the paper.
CORNER_REACH: Final = 12.0
# Farther than this a corner counts no more when it is settled which corner is which, mm of the paper.
_CAP: Final = 40.0


@dataclass(frozen=True)
class EdgePair:
    """A model's edge and the stretch of the learner's outline that stands for it, lying on it, mm of the garment."""

    model: Edge
    learner: Curve


def edge_pairs(match: Match, scale: float) -> tuple[EdgePair, ...] | None:
    """Each edge of the model with the learner's stretch, in the model's order; None if corners cannot be told.

    Where both have as many corners, they go round together, begun where they lie nearest. Otherwise each corner of
    the model has the learner's nearest one within 12 mm of the paper, else the nearest place on the outline.
    """
    model, laid = match.model, match.laid
    if len(laid.edges) == len(model.edges):
        corners = np.array([edge.curve.start for edge in laid.edges])
        apart = np.hypot(*(corners[None, :, :] - model.vertices[:, None, :]).transpose(2, 0, 1))
        apart, count = np.minimum(apart, _CAP * scale), len(corners)
        shifts = [sum(apart[k, (k + s) % count] for k in range(count)) for s in range(count)]
        first = int(np.argmin(shifts))
        turned = laid.edges[first:] + laid.edges[:first]
        return tuple(EdgePair(edge, own.curve) for edge, own in zip(model.edges, turned, strict=True))
    return _cut(model, laid, scale)


def _cut(model: Piece, laid: DrawnPiece, scale: float) -> tuple[EdgePair, ...] | None:
    loop = laid.edges[0].curve
    for edge in laid.edges[1:]:
        loop = loop.joined(edge.curve)
    joints = np.cumsum([0.0, *(edge.curve.length for edge in laid.edges)])[:-1]
    places = [_place(loop, joints, corner, scale) for corner in model.vertices]
    start = int(np.argmin(places))
    order = places[start:] + places[:start]
    if any(b - a < scale for a, b in zip(order, [*order[1:], order[0] + loop.length], strict=True)):
        return None
    return tuple(
        EdgePair(edge, _stretch(loop, a, b)) for edge, a, b in zip(model.edges, places, _next(places), strict=True)
    )


def _next(places: list[float]) -> list[float]:
    return places[1:] + places[:1]


def _place(loop: Curve, joints: Array, corner: Array, scale: float) -> float:
    apart = [float(np.hypot(*(loop.point(joint) - corner))) for joint in joints]
    near = int(np.argmin(apart))
    return float(joints[near]) if apart[near] < CORNER_REACH * scale else loop.nearest(corner)[0] % loop.length


def _stretch(loop: Curve, start: float, end: float) -> Curve:
    """The stretch of a loop from one place on to another, over its start if need be."""
    if start < end:
        return loop.between(start, end)
    rest = loop.between(start, loop.length)
    return rest.joined(loop.between(0.0, end)) if end > 0 else rest
