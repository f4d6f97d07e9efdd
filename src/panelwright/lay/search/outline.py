"""Outlines made ready for the search: fewer vertices, grown by half the spacing, cut into convex parts."""

from collections.abc import Iterator
from typing import Final

import numpy as np
import shapely

from panelwright.geometry.arrays import Array, cross

FEW: Final = 40  # vertices; more make the search slow
QUARTER_ARC: Final = 3


def simplified(outline: Array, most: float, few: int = FEW) -> Array:
    """The outline, shape (n, 2), anticlockwise and open, with fewer vertices; it only ever grows.

    Args:
        outline: to simplify.
        most: how far it may grow anywhere, in its own unit.
        few: vertices at which it is simple enough.
    """
    points, ring = outline, shapely.LinearRing(outline)
    while len(points) > few:
        step = next((made for made in _with_one_less(points) if _is_near(made, ring, most)), None)
        if step is None:
            break
        points = step
    return points


def _is_near(points: Array, ring: shapely.LinearRing, most: float) -> bool:
    made = shapely.LinearRing(points)
    return bool(shapely.hausdorff_distance(made, ring) <= most) and bool(shapely.Polygon(points).is_valid)


def _with_one_less(points: Array) -> Iterator[Array]:
    """The outline with one vertex less for every way to grow into one, that which grows it least first."""
    before, after = np.roll(points, 1, axis=0), np.roll(points, -1, axis=0)
    u, v, edge = points - before, after - np.roll(points, -2, axis=0), after - points
    turn, span = cross(u, edge), cross(u, v)
    hollow = turn <= 0.0  # such a corner is filled
    # An edge between two round corners gives way to where its neighbours meet.
    meets = ~hollow & (np.roll(turn, -1) > 0.0) & (span < 0.0)
    along = np.divide(cross(edge, v), span, out=np.zeros(len(points)), where=meets)[:, None] * u
    grows = np.where(hollow, np.abs(turn), np.where(meets, np.abs(cross(edge, along)), np.inf))
    for k in np.argsort(grows, kind="stable")[: np.isfinite(grows).sum()].tolist():
        if hollow[k]:
            yield np.delete(points, k, axis=0)
        else:
            made = points.copy()
            made[k] = points[k] + along[k]
            yield np.delete(made, (k + 1) % len(points), axis=0)


def grown(outline: Array, by: float) -> Array:
    """The outline moved outwards by a distance everywhere; round corners become few straight lines outside them."""
    if by <= 0.0:
        return outline
    radius = by / np.cos(np.pi / (4 * QUARTER_ARC))
    ring = shapely.Polygon(outline).buffer(radius, quad_segs=QUARTER_ARC).exterior
    return np.array(ring.normalize().coords)[:-1][::-1] if not ring.is_ccw else np.array(ring.coords)[:-1]


def convex_parts(outline: Array) -> list[Array]:
    """Convex polygons that cover exactly what is inside an outline."""
    triangles = shapely.get_parts(shapely.constrained_delaunay_triangles(shapely.Polygon(outline)))
    parts = [np.array(shapely.Polygon(part).exterior.coords)[:-1] for part in triangles]
    parts = [part if _area(part) > 0 else part[::-1] for part in parts if abs(_area(part)) > 0.0]
    numbers, made = list(range(len(parts))), len(parts)
    apart: set[tuple[int, int]] = set()  # what could not be joined cannot be later either
    while pair := _first_pair(parts, numbers, apart):
        a, b, joined = pair
        parts[a], numbers[a] = joined, made
        del parts[b], numbers[b]
        made += 1
    return parts


def _first_pair(parts: list[Array], numbers: list[int], apart: set[tuple[int, int]]) -> tuple[int, int, Array] | None:
    """The first two parts that can be joined, by their places, and what they become."""
    for a, one in enumerate(numbers):
        for b in range(a + 1, len(numbers)):
            if (one, numbers[b]) not in apart:
                joined = _joined(parts[a], parts[b])
                if joined is not None:
                    return a, b, joined
                apart.add((one, numbers[b]))
    return None


def _joined(a: Array, b: Array) -> Array | None:
    """Two anticlockwise convex polygons that share an edge as one, if that is convex."""
    for i in range(len(a)):
        for j in range(len(b)):
            if np.array_equal(a[i], b[(j + 1) % len(b)]) and np.array_equal(a[(i + 1) % len(a)], b[j]):
                ring = np.concatenate([np.roll(a, -i - 1, axis=0), np.roll(b, -j - 1, axis=0)[1:-1]])
                before, after = np.roll(ring, 1, axis=0), np.roll(ring, -1, axis=0)
                if (cross(ring - before, after - ring) >= -1e-9 * abs(_area(ring))).all():
                    return ring
                return None
    return None


def _area(ring: Array) -> float:
    return float(cross(ring, np.roll(ring, -1, axis=0)).sum()) / 2
