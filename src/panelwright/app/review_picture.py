"""A learner's piece over the model's, with the numbers of its points."""

import math
from collections.abc import Sequence
from typing import Final

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from panelwright.app.review_words import ToldPoint
from panelwright.drawing.drawing import Drawing, Lettering, Sign, Stroke
from panelwright.drawing.path import Path
from panelwright.drawing.pen import HAIRLINE, Pen
from panelwright.geometry.arrays import Array
from panelwright.intake.review import PieceReview
from panelwright.intake.review_match import ring_of
from panelwright.pattern.piece import Piece

LEARNER: Final = Pen(0.6)
MODEL: Final = Pen(0.25, (), 0.45)
RADIUS: Final = 2.3
NUMBER: Final = 3.0
AWAY: Final = 6.5
_WAYS: Final = 24


def piece_picture(piece: PieceReview, told: Sequence[ToldPoint], factor: float) -> Drawing:
    """The learner's line bold, the model's faint, numbers beside their places; mm on paper, where the model lies.

    Args:
        piece: with its fit.
        told: all points; those that lie on this piece are numbered on it.
        factor: mm on paper to one mm of the garment.
    """
    model = piece.match.model
    signs: list[Sign] = [Stroke(Path.curve(edge.curve.scaled(factor)), MODEL, "old block line") for edge in model.edges]
    signs += [Stroke(Path.curve(edge.curve.scaled(factor)), LEARNER, "stitch lines") for edge in piece.match.laid.edges]
    taken: list[Array] = []
    both = shapely.union(model.outline, shapely.Polygon(ring_of(piece.match.laid)).buffer(0.0)).buffer(0.0)
    covered = shapely.transform(both, lambda places: places * factor)
    for each in told:
        for at in _places(each, model):
            signs += _number(each.number, at * factor, covered, taken)
    return Drawing(tuple(signs))


def _places(each: ToldPoint, model: Piece) -> list[Array]:
    """Where a point is on this piece, mm of the garment."""
    ids = {edge.id for edge in model.edges}
    if each.point.kind == "seam":
        sides = [id for id in (each.point.edge, each.point.beside) if id in ids]
        curves = [model.edge(id).curve for id in sides]
        return [curve.point(0.5 * curve.length) for curve in curves]
    return [np.array(each.point.at)] if each.point.at is not None and each.point.edge in ids else []


def _number(number: int, at: Array, covered: BaseGeometry, taken: list[Array]) -> list[Sign]:
    """A ringed number on the free side of its place, with a fine line to it."""
    angles = np.arange(_WAYS) * 2 * math.pi / _WAYS
    ways = [np.array([math.cos(angle), math.sin(angle)]) for angle in angles]

    def room(way: Array) -> float:
        centre = at + AWAY * way
        clear = min((float(np.hypot(*(centre - other))) - 2 * RADIUS for other in taken), default=AWAY)
        inside = covered.contains(shapely.Point(centre))
        return min(float(covered.boundary.distance(shapely.Point(centre))), clear) - (AWAY if inside else 0.0)

    way = max(ways, key=room)
    centre = at + AWAY * way
    taken.append(centre)
    return [
        Stroke(Path.polyline([at, centre - RADIUS * way]), HAIRLINE, "text"),
        Stroke(Path.circle(centre, RADIUS), HAIRLINE, "text"),
        Lettering(
            str(number), (float(centre[0]), float(centre[1]) - 0.36 * NUMBER), NUMBER, anchor="middle", bold=True
        ),
    ]
