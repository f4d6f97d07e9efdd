"""The words of a hand sheet alone give back every outline."""

from functools import cache

import numpy as np
import pytest
import shapely
from drawing.hand_reader import read

from panelwright.app.demo.troupe import designs, troupe
from panelwright.app.garment import make_garment
from panelwright.app.hand_steps import hand_work
from panelwright.body.size_table import size

NEAR = 0.5  # mm on paper
REFS = [cut.design.ref for cut in designs()]


@cache
def garment(ref, wearer):
    design = next(cut.design for cut in designs() if cut.design.ref == ref)
    body = size(88) if wearer == "size-88" else next(d.wearer for d in troupe() if d.wearer.ref == wearer)
    return make_garment(body, design)


def text_of(steps):
    return "\n".join(line for step in steps for p in step.passages for line in (p.head, *p.sentences))


def laid_on(outline, true):
    """The outline moved, never turned over, to lie on the true one as well as it can (iterated nearest points)."""
    moved = outline - outline.mean(axis=0) + true.mean(axis=0)
    ring = shapely.LinearRing(true)
    for _ in range(25):
        foot = shapely.get_coordinates(
            shapely.line_interpolate_point(ring, shapely.line_locate_point(ring, shapely.points(moved)))
        )
        a, b = moved - moved.mean(axis=0), foot - foot.mean(axis=0)
        u, _, v = np.linalg.svd(a.T @ b)
        turn = u @ np.diag([1.0, np.linalg.det(u @ v)]) @ v
        moved = a @ turn + foot.mean(axis=0)
    return moved


def apart(outline, true):
    """Farthest that a point of either outline lies from the other, mm."""
    laid = laid_on(outline, true)
    pairs = ((laid, true), (true, laid))
    return max(float(shapely.distance(shapely.LinearRing(a), shapely.points(even(b))).max()) for a, b in pairs)


def true_outline(piece):
    """Quarter scale, the grain upright."""
    points = shapely.get_coordinates(shapely.segmentize(piece.outline.exterior, 4.0))[:-1] / 4
    way = np.subtract(piece.grain.end, piece.grain.start)
    c, s = way[1] / np.hypot(*way), way[0] / np.hypot(*way)
    return points @ np.array([[c, s], [-s, c]])


@pytest.mark.parametrize("wearer", ["size-88", "w-04"])
@pytest.mark.parametrize("ref", REFS)
def test_the_words_alone_give_every_outline(ref, wearer):
    made = garment(ref, wearer)
    drawn = read(text_of(hand_work(made).steps))
    pieces = {piece.id: piece for piece in made.cutting.pattern.pieces}
    assert pieces.keys() <= drawn.keys()
    off = {id: apart(even(drawn[id].outline), true_outline(piece)) for id, piece in pieces.items()}
    assert max(off.values()) < NEAR


def even(outline):
    return shapely.get_coordinates(shapely.segmentize(shapely.LinearRing(outline), 1.0))[:-1]
