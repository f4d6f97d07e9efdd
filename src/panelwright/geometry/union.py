"""The cut line where allowances overlap: the outer boundary of an outline and all of its strips together.

Points are complex numbers, x + iy, as in `corner`.
"""

from collections.abc import Sequence
from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import LinearRing, LineString, Polygon

from panelwright.geometry.arrays import Array, cross
from panelwright.geometry.corner import Run
from panelwright.geometry.tolerances import TOLERANCES

# (edge, first point, last point), inclusive and wrapping.
CutRun = tuple[int, int, int]

# A stretch of the boundary is an edge's if its ends and its middle are this near to the edge's allowance, mm.
_OWN: Final = TOLERANCES.polyline
_SAME: Final = 1e-7
# Of a notch: the widest angle of one that is cut deeper, radians; by how much two allowances may lap there, how deep
# the snip is at most, and how far from its corner it begins, mm.
NARROW: Final = 1.4
_SNIP: Final = 0.9 * TOLERANCES.allowance
_DEEPEST: Final = 3.0
_BESIDE: Final = 1e-3
# A step back: by less than this, mm, where the boundary turns round twice (cosine of both turns).
_HAIR: Final = 1.0
_BACK: Final = -0.999


def united(
    lines: Sequence[Run],
    runs: Sequence[Run],
    widths: Sequence[float],
    corners: Sequence[int],
    folds: Sequence[int],
    notched: bool = False,
) -> tuple[Array, tuple[CutRun, ...]]:
    """(points, runs) of the cut line, found by a union of areas.

    Args:
        lines: points on each edge of the outline.
        runs: offset points of each edge, with the corners that they run to.
        widths: of each allowance, mm.
        corners: edges at whose end the area between their own run and the next one's is filled.
        folds: edges on the fold: everything beyond their line is cut away.
        notched: whether two edges meet in a narrow notch, as the legs of a dart do; see `deepened`.
    """
    rings = [np.concatenate([line, run[::-1]]) for line, run, width in zip(lines, runs, widths, strict=True) if width]
    rings += [np.array([lines[k][-1], runs[k][-1], runs[(k + 1) % len(runs)][0]]) for k in corners]
    outline = np.concatenate([line[:-1] for line in lines])
    area = shapely.union_all([_filled(ring) for ring in (outline, *rings)])
    for k in folds:
        area = area.intersection(_inside_fold(lines[k][0], lines[k][-1]))
    ring = deepened(_without_hairs(_largest(area))) if notched else _largest(area)
    return _owned(ring, [LineString(_plane(line)) for line in lines], np.asarray(widths, float))


def _plane(points: Run) -> Array:
    return np.column_stack([points.real, points.imag])


def _filled(ring: Run) -> shapely.Geometry:
    """All that a closed line encloses, however often it crosses itself."""
    polygon = Polygon(_plane(ring))
    if polygon.is_valid:
        return polygon
    noded = shapely.node(LinearRing(_plane(ring)))
    return shapely.union_all(shapely.get_parts(shapely.polygonize([noded])))


def _inside_fold(start: complex, end: complex) -> Polygon:
    """A square much larger than any garment on the left of the line through two points."""
    along = TOLERANCES.extent * (end - start) / abs(end - start)
    return Polygon(_plane(np.array([start - along, start + along, start + along * (1 + 1j), start - along * (1 - 1j)])))


def _largest(area: shapely.Geometry) -> Array:
    """The outer ring of an area, anticlockwise, open, without points that coincide."""
    polygon = max(shapely.get_parts(area), key=shapely.area)
    ring: Array = shapely.get_coordinates(shapely.orient_polygons(Polygon(polygon.exterior)))[:-1]
    apart: Array = np.linalg.norm(ring - np.roll(ring, 1, axis=0), axis=1)
    return ring[apart > _SAME]


def _without_hairs(ring: Array) -> Array:
    """A closed ring without the short steps back that are left where two boundaries run on each other for a while."""
    ahead = np.roll(ring, -1, axis=0) - ring
    lengths = np.linalg.norm(ahead, axis=1)
    ahead /= lengths[:, None]
    back = (np.roll(ahead, 1, axis=0) * ahead).sum(axis=1) < _BACK
    hairs = np.flatnonzero(back & np.roll(back, -1) & (lengths < _HAIR))
    return np.delete(ring, [*hairs, *((hairs + 1) % len(ring))], axis=0) if len(hairs) else ring


def deepened(ring: Array) -> Array:
    """A closed ring whose narrow notches are cut a hair deeper, so that each side keeps its allowance to the end.

    Where two allowances meet in a notch of angle v, each is lapped by less than a tenth of a millimetre over the last
    0.1 / sin v mm of the other. A snip of that depth leaves both right within half of it (geometry). Wide corners stay.

    Args:
        ring: shape (n, 2), anticlockwise, the first point not repeated.
    """
    ahead = np.roll(ring, -1, axis=0) - ring
    ahead /= np.linalg.norm(ahead, axis=1)[:, None]
    behind = np.roll(ahead, 1, axis=0)
    turns = np.arctan2(cross(behind, ahead), (behind * ahead).sum(axis=1))
    # A notch turns right by more than a right angle; what is left of half a turn is its angle.
    for k in np.flatnonzero(turns < NARROW - np.pi)[::-1]:
        angle = float(np.pi + turns[k])
        depth = min(_SNIP * float(np.cos(angle / 2)) / max(float(np.sin(angle)), 1e-6), _DEEPEST)
        inwards = (behind[k] - ahead[k]) / np.linalg.norm(behind[k] - ahead[k])
        beside = ring[k] - _BESIDE * behind[k], ring[k] + _BESIDE * ahead[k]
        ring = np.insert(np.delete(ring, k, axis=0), k, [beside[0], ring[k] + depth * inwards, beside[1]], axis=0)
    return ring


def _owned(ring: Array, lines: Sequence[LineString], widths: Array) -> tuple[Array, tuple[CutRun, ...]]:
    """The ring, started where an edge's run starts, and whose each stretch of it is."""
    places = np.concatenate([ring, (ring + np.roll(ring, -1, axis=0)) / 2])
    ends, middles = np.hsplit(_off(places, lines, widths), 2)
    worst = np.maximum(np.maximum(ends, np.roll(ends, -1, axis=1)), middles)
    owner = _claimed(np.where(worst.min(axis=0) < _OWN, worst.argmin(axis=0), -1), places, lines)
    changes = np.flatnonzero(owner != np.roll(owner, 1))
    if not len(changes):
        return ring, ((int(owner[0]), 0, len(ring) - 1),)
    ring, owner = np.roll(ring, -changes[0], axis=0), np.roll(owner, -changes[0])
    starts = changes - changes[0]
    ends = np.append(starts[1:], len(ring)) % len(ring)
    return ring, tuple((int(owner[s]), int(s), int(e)) for s, e in zip(starts, ends, strict=True) if owner[s] >= 0)


def _off(places: Array, lines: Sequence[LineString], widths: Array) -> Array:
    """How far each place is off each edge's allowance, shape (edges, places), mm; infinite where it is surely farther.

    A place at an edge's allowance lies no farther than that outside the edge's bounds.
    """
    bounds, reach = shapely.bounds(np.array(lines)), (widths + 2 * _OWN)[:, None]
    low, high = bounds[:, None, :2] - reach[..., None], bounds[:, None, 2:] + reach[..., None]
    near = ((places >= low) & (places <= high)).all(axis=-1)
    off = np.full(near.shape, np.inf)
    which, at = np.nonzero(near)
    apart = shapely.distance(np.array(lines)[which], shapely.points(places[at]))
    off[which, at] = np.abs(apart - widths[which])
    return off


def _claimed(owner: NDArray[np.intp], places: Array, lines: Sequence[LineString]) -> NDArray[np.intp]:
    """Whose each stretch is; the cut-off tip of a sharp corner that reaches over another edge stays its own edge's.

    Args:
        owner: of each stretch of the ring, or -1.
        places: the points of the ring, and then the middles of its stretches, shape (2n, 2).
    """
    owned, bare, count = np.flatnonzero(owner >= 0), np.flatnonzero(owner < 0), len(owner)
    if not len(owned) or not len(bare):
        return owner
    starts, ends, middles = (
        shapely.distance(np.array(lines)[:, None], shapely.points(places[at]))
        for at in (bare, (bare + 1) % count, bare + count)
    )
    claimed = owner.copy()
    for k, stretch in enumerate(bare):
        place = int(np.searchsorted(owned, stretch))
        beside = [int(owner[owned[place - 1]]), int(owner[owned[place % len(owned)]])]
        if not {int(starts[:, k].argmin()), int(ends[:, k].argmin())} <= set(beside):
            claimed[stretch] = min(beside, key=lambda edge: float(middles[edge, k]))
    return claimed
