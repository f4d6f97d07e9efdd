"""Outlines made ready for the search: fewer vertices, grown by half the spacing, cut into convex parts."""

from typing import Final

import numpy as np
import shapely

from panelwright.geometry.arrays import Array, cross

FEW: Final = 40  # vertices; more make the search slow
MOST: Final = 2.5  # times as many vertices as are few enough are left, whatever that costs in cloth
QUARTER_ARC: Final = 3


def simplified(outline: Array, most: float, few: int = FEW) -> Array:
    """The outline, shape (n, 2), anticlockwise and open, with fewer vertices; it only ever grows.

    Args:
        outline: to simplify.
        most: how far it may grow anywhere, in its own unit.
        few: vertices at which it is simple enough.
    """
    if len(outline) <= few:
        return outline
    from panelwright.lay.search.fewer_corners import fewer_corners  # compiled late: it takes seconds

    made: Array = fewer_corners(np.ascontiguousarray(outline, float), most, few)
    return made if shapely.Polygon(made).is_valid else outline


def simple_enough(outline: Array, most: float, few: int = FEW) -> Array:
    """The same, but it may grow more until `MOST` times as many as are few are left; at last it becomes its hull."""
    made, size, many = simplified(outline, most, few), float(np.ptp(outline, axis=0).max()), int(MOST * few)
    while len(made) > many and most < size:
        most *= 2.0
        made = simplified(made, most, many)
    if len(made) <= many:
        return made
    hull = shapely.get_coordinates(shapely.Polygon(outline).convex_hull)[:-1]
    return simplified(hull if _area(hull) > 0.0 else hull[::-1], size, many)


def grown(outline: Array, by: float) -> Array:
    """The outline moved outwards by a distance everywhere; round corners become few straight lines outside them."""
    if by <= 0.0:
        return outline
    radius = by / np.cos(np.pi / (4 * QUARTER_ARC))
    ring = shapely.Polygon(outline).buffer(radius, quad_segs=QUARTER_ARC).exterior
    return np.array(ring.normalize().coords)[:-1][::-1] if not ring.is_ccw else np.array(ring.coords)[:-1]


def convex_parts(outline: Array) -> list[Array]:
    """Convex polygons, anticlockwise, that cover exactly what is inside an outline.

    Triangles are joined across their common edges, the longest first, where the corners at both ends stay convex
    (S. Hertel and K. Mehlhorn, 1983).
    """
    rings = _triangles(outline)
    at = {(ring[k - 1], ring[k]): number for number, ring in enumerate(rings) for k in range(len(ring))}
    common = [(a, b) for a, b in at if a < b and (b, a) in at]
    for a, b in sorted(common, key=lambda pair: -float(np.hypot(*(outline[pair[0]] - outline[pair[1]])))):
        left, right = at[a, b], at[b, a]
        joined = _joined(rings[left], rings[right], a, b)
        if left != right and _is_convex(outline, joined, a) and _is_convex(outline, joined, b):
            rings[left], rings[right] = joined, []
            at |= {(joined[k - 1], joined[k]): left for k in range(len(joined))}
    return [outline[ring] for ring in rings if ring]


def _triangles(outline: Array) -> list[list[int]]:
    """Triangles that cover an outline, anticlockwise, by the numbers of its corners."""
    number = {(x, y): k for k, (x, y) in enumerate(outline.tolist())}
    made = shapely.get_parts(shapely.constrained_delaunay_triangles(shapely.Polygon(outline)))
    rings = [[number[x, y] for x, y in np.array(part.exterior.coords)[:3].tolist()] for part in made]
    areas = [_area(outline[ring]) for ring in rings]
    return [ring if area > 0.0 else ring[::-1] for ring, area in zip(rings, areas, strict=True) if area != 0.0]


def _joined(one: list[int], other: list[int], a: int, b: int) -> list[int]:
    """Two rings as one; the first goes from a to b, the second from b to a."""
    start, back = one.index(b), other.index(a)
    rest = [*other[back:], *other[:back]]
    return [*one[start:], *one[:start], *rest[1:-1]]


def _is_convex(outline: Array, ring: list[int], corner: int) -> bool:
    k = ring.index(corner)
    before, here, after = outline[[ring[k - 1], corner, ring[(k + 1) % len(ring)]]]
    u, v = here - before, after - here
    return bool(cross(u, v) >= -1e-9 * np.hypot(*u) * np.hypot(*v))


def _area(ring: Array) -> float:
    return float(cross(ring, np.roll(ring, -1, axis=0)).sum()) / 2
