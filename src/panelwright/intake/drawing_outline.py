"""Which closed lines of a drawing are pieces: cut lines, stitch lines in them, frames round them."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray

from panelwright.errors import InputError
from panelwright.geometry.arrays import Array
from panelwright.intake.drawing_chain import joined
from panelwright.intake.drawing_limits import MOST_OUTLINES
from panelwright.intake.drawing_role import Role, role_of
from panelwright.intake.drawing_stroke import Stroke

# Ends nearer than this meet, mm; an outline that is open by less than the second is closed, and that is told.
REACH: Final = 0.15
OPEN: Final = 2.0
# A closed line smaller than this is a sign or a hole, mm.
LEAST: Final = 18.0
WIDEST_ALLOWANCE: Final = 60.0
_SAMPLES: Final = 72
# An inner line is parallel to an outer one if so many of its places lie at one of three widths, each to 1.5 mm.
_AT_A_WIDTH: Final = 0.8
_SAME_WIDTH: Final = 1.5
_FRAME_HOLDS: Final = 2
_COARSE: Final = 4_000
# So many places of a line lie in another that holds it.
_MOSTLY: Final = 0.95


@dataclass(frozen=True, eq=False)
class Ring:
    """A closed line.

    Attributes:
        line: the line, ending where it starts.
        role: what its layer says that it is.
        gap: by how much it was open before it was closed, mm.
    """

    line: Stroke
    role: Role
    gap: float = 0.0

    @cached_property
    def area(self) -> shapely.Polygon:
        """What it encloses, about."""
        polygon = shapely.Polygon(self.line.preview)
        shapely.prepare(polygon)
        return polygon

    @cached_property
    def size(self) -> float:
        """Its area without sign, mm²."""
        return float(self.area.area)

    @cached_property
    def samples(self) -> Array:
        """Places along it at even distances, shape (n, 2)."""
        points = self.line.preview
        steps = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
        at = np.arange(_SAMPLES) / _SAMPLES * steps[-1]
        return np.column_stack([np.interp(at, steps, points[:, k]) for k in (0, 1)])

    def holds(self, other: "Ring") -> bool:
        """Whether another line lies inside, on it here and there perhaps."""
        low, high = self.area.bounds, other.area.bounds
        slack = 0.2
        if any(a > b + slack for a, b in zip(low[:2], high[:2], strict=True)):
            return False
        if any(a < b - slack for a, b in zip(low[2:], high[2:], strict=True)):
            return False
        inside = shapely.dwithin(self.area, shapely.points(other.samples), slack)
        return bool(np.mean(inside) > _MOSTLY)

    def widths_in(self, inner: "Ring") -> Array:
        """How far places of an inner line lie from this one, mm, shape (n,)."""
        return np.asarray(shapely.distance(shapely.points(inner.samples), self._coarse))

    @cached_property
    def _coarse(self) -> shapely.LineString:
        """The line through so few points that distances from it are quick, true to a tenth of a millimetre."""
        points = self.line.preview
        return shapely.LineString(points if len(points) <= _COARSE else points[:: len(points) // _COARSE + 1])


@dataclass(frozen=True, eq=False)
class Found:
    """A piece as it is outlined.

    Attributes:
        cut: its cut line, None where there is none or nobody says which of the two the only line is.
        stitch: its stitch line.
        only: the only outline, where it may be either.
        widths: distances from stitch to cut line where both are drawn, mm.
    """

    cut: Ring | None = None
    stitch: Ring | None = None
    only: Ring | None = None
    widths: Array = field(default_factory=lambda: np.zeros(0))

    @property
    def outline(self) -> Ring:
        """The line that the piece is read from: its stitch line where it is drawn."""
        ring = self.stitch or self.cut or self.only
        if ring is None:
            raise ValueError("a piece has an outline")
        return ring

    @property
    def outer(self) -> Ring:
        """The outermost line."""
        ring = self.cut or self.only or self.stitch
        if ring is None:
            raise ValueError("a piece has an outline")
        return ring


@dataclass(frozen=True, eq=False)
class Outlines:
    """What closed lines a drawing has.

    Attributes:
        pieces: with their outlines.
        holes: closed lines inside them that are none.
        small: closed lines too small for a piece.
        open: lines that are not closed.
        frames: how many lines were taken for the frame of a sheet.
        widest_gap: of the longest line that could not be closed, mm; 0 where there is none.
    """

    pieces: tuple[Found, ...]
    holes: tuple[Stroke, ...]
    small: tuple[Stroke, ...]
    open: tuple[Stroke, ...]
    frames: int
    widest_gap: float


def find_outlines(strokes: Sequence[Stroke], roles: Mapping[str, Role], reach: float = REACH) -> Outlines:
    """The pieces among the strokes of a drawing, in the order in which their outlines are drawn.

    Raises:
        InputError: if there are more closed lines than a pattern has.
    """
    by_group: dict[str, list[Stroke]] = defaultdict(list)
    for stroke in strokes:
        by_group[stroke.group].append(stroke)
    rings: list[Ring] = []
    left: list[Stroke] = []
    for own in by_group.values():
        found, still_open = _rings(own, roles, reach)
        rings += found
        left += still_open
    least = LEAST * reach / REACH
    large = [ring for ring in rings if np.ptp(ring.line.preview, axis=0).max() >= least and ring.size > 0]
    kept = {id(ring) for ring in large}
    small = [ring.line for ring in rings if id(ring) not in kept]
    if len(large) > MOST_OUTLINES:
        raise InputError(f"the drawing has more than {MOST_OUTLINES} closed lines: save the pattern's pieces alone")
    large, frames = _without_frames(large)
    pieces, holes = _pieces(large)
    gap = max((line for line in left), key=lambda line: line.length, default=None)
    return Outlines(pieces, holes, tuple(small), tuple(left), frames, gap.gap() if gap else 0.0)


def _rings(strokes: list[Stroke], roles: Mapping[str, Role], reach: float) -> tuple[list[Ring], list[Stroke]]:
    """Closed lines among the strokes of a group: of each kind by itself, helped out by fold lines where it is open."""
    pools: dict[Role, list[Stroke]] = defaultdict(list)
    for stroke in strokes:
        pools[role_of(stroke.names, roles)].append(stroke)
    folds = pools.pop("fold", [])
    rings: list[Ring] = []
    left: list[Stroke] = []
    for role, pool in pools.items():
        if role in ("cut", "stitch", "any"):
            closed, still_open = joined(pool, reach)
            if still_open and folds:
                more, still_open = joined([*still_open, *folds], reach)
                closed += more
                still_open = [line for line in still_open if role_of(line.names, roles) != "fold"]
            rings += [Ring(line, role) for line in closed]
            nearly = [line for line in still_open if _nearly_closed(line, reach)]
            rings += [Ring(_closed(line), role, line.gap()) for line in nearly]
            left += [line for line in still_open if not _nearly_closed(line, reach)]
        else:
            left += pool
    if not rings and len(pools) > 1:  # an outline drawn on several layers
        drawn = [stroke for role in ("cut", "stitch", "any") for stroke in pools.get(role, [])]
        closed, _ = joined([*drawn, *folds], reach)
        rings = [Ring(line, "any") for line in closed]
    return rings, [*left, *folds]


def _nearly_closed(line: Stroke, reach: float) -> bool:
    return line.gap() <= OPEN * reach / REACH and line.length > 100 * line.gap()


def _closed(line: Stroke) -> Stroke:
    runs = (*line.runs, np.array([line.end, line.start]))
    return Stroke(runs, line.names, line.group, line.own)


def _holding(rings: list[Ring]) -> NDArray[np.bool_]:
    """Whether ring k holds ring j, shape (n, n)."""
    held = np.zeros((len(rings), len(rings)), bool)
    for k, ring in enumerate(rings):
        for j, other in enumerate(rings):
            held[k, j] = j != k and other.size <= 1.02 * ring.size and ring.holds(other)
    return held


def _without_frames(rings: list[Ring]) -> tuple[list[Ring], int]:
    """The rings but for rectangles round several others that do not lie in one another, or round whole groups."""
    held = _holding(rings)
    frames = set()
    for k, ring in enumerate(rings):
        if not _is_rectangle(ring) or not held[k].any():
            continue
        inside = np.flatnonzero(held[k])
        apart = inside[~held[np.ix_(inside, inside)].any(axis=0)]
        foreign = any(rings[j].line.group != ring.line.group for j in apart)
        if len(apart) >= _FRAME_HOLDS or foreign:
            frames.add(k)
    return [ring for k, ring in enumerate(rings) if k not in frames], len(frames)


def _is_rectangle(ring: Ring) -> bool:
    box = np.ptp(ring.line.preview, axis=0)
    return ring.role == "any" and ring.size > 0.999 * float(box[0] * box[1])


def _pieces(rings: list[Ring]) -> tuple[tuple[Found, ...], tuple[Stroke, ...]]:
    """Cut lines with the stitch lines in them, and the rest of the closed lines: those inside pieces are holes."""
    order = {id(ring): k for k, ring in enumerate(rings)}
    by_size = sorted(rings, key=lambda ring: -ring.size)
    found: list[Found] = []
    holes: list[Stroke] = []
    for ring in by_size:
        at = _holder(ring, found)
        if at is None:
            found.append(_alone(ring))
        elif (pair := _paired(found[at], ring)) is not None:
            found[at] = pair
        else:
            holes.append(ring.line)
    found.sort(key=lambda piece: order[id(piece.outer)])
    return tuple(found), tuple(holes)


def _holder(ring: Ring, found: list[Found]) -> int | None:
    """The smallest piece that a line lies in; pieces of different groups lie over each other freely."""
    inside = [
        k for k, piece in enumerate(found) if piece.outer.line.group == ring.line.group and piece.outer.holds(ring)
    ]
    return min(inside, key=lambda k: found[k].outer.size, default=None)


def _alone(ring: Ring) -> Found:
    match ring.role:
        case "cut":
            return Found(cut=ring)
        case "stitch":
            return Found(stitch=ring)
    return Found(only=ring)


def _paired(piece: Found, ring: Ring) -> Found | None:
    """The piece with another line as its stitch line, or as the cut line it is drawn over; None where it is neither."""
    if piece.stitch is not None:
        if piece.cut is None and ring.role == "cut" and ring.size > 0.98 * piece.stitch.size:
            return Found(ring, piece.stitch, widths=ring.widths_in(piece.stitch))
        return None
    outer = piece.outer
    widths = outer.widths_in(ring)
    told = ring.role == "stitch" and (outer.role != "any" or ring.size > 0.3 * outer.size)
    if told and widths.max() <= WIDEST_ALLOWANCE * 1.5:
        return Found(outer, ring, widths=widths)
    if ring.role == "any" and ring.size > 0.3 * outer.size and _parallel(widths):
        return Found(outer, ring, widths=widths)
    return None


def _parallel(widths: Array) -> bool:
    """Whether distances are those of an allowance: nowhere wide, and at most three widths nearly all along."""
    if widths.max() > WIDEST_ALLOWANCE or widths.max() < 0.5:
        return False
    left = widths
    for _ in range(3):
        if len(left):
            counts = [(np.abs(left - width) <= _SAME_WIDTH).sum() for width in left]
            left = left[np.abs(left - left[int(np.argmax(counts))]) > _SAME_WIDTH]
    return len(left) <= (1 - _AT_A_WIDTH) * len(widths)
