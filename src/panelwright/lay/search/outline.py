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
        ways = (made for _, made in sorted(_with_one_less(points), key=lambda way: way[0]))
        step = next((made for made in ways if _is_near(made, ring, most)), None)
        if step is None:
            break
        points = step
    return points


def _is_near(points: Array, ring: shapely.LinearRing, most: float) -> bool:
    made = shapely.LinearRing(points)
    return bool(shapely.hausdorff_distance(made, ring) <= most) and bool(shapely.Polygon(points).is_valid)


def _with_one_less(points: Array) -> Iterator[tuple[float, Array]]:
    """(area that it grows by, outline with one vertex less) for every way to grow into one."""
    before, after = np.roll(points, 1, axis=0), np.roll(points, -1, axis=0)
    turn = cross(points - before, after - points)
    for k in range(len(points)):
        nxt = (k + 1) % len(points)
        if turn[k] <= 0.0:  # a hollow corner is filled
            yield abs(float(turn[k])) / 2, np.delete(points, k, axis=0)
        elif turn[nxt] > 0.0:  # an edge between two round corners gives way to where its neighbours meet
            u, v, edge = points[k] - before[k], points[nxt] - after[nxt], points[nxt] - points[k]
            span = float(cross(u, v))
            if span < 0.0:
                meet = points[k] + float(cross(edge, v)) / span * u
                made = points.copy()
                made[k] = meet
                yield abs(float(cross(edge, meet - points[k]))) / 2, np.delete(made, nxt, axis=0)


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
    merged = True
    while merged:
        merged = False
        for a in range(len(parts)):
            for b in range(a + 1, len(parts)):
                joined = _joined(parts[a], parts[b])
                if joined is not None:
                    parts[a] = joined
                    del parts[b]
                    merged = True
                    break
            if merged:
                break
    return parts


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
