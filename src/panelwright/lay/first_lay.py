"""The first lay: piece after piece as far back on the cloth as it goes, in several orders, the shortest kept."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Final

import numpy as np
from shapely import Polygon

from panelwright.geometry.arrays import Array
from panelwright.geometry.placement import Placement
from panelwright.lay.column_profile import COLUMN, ColumnProfile
from panelwright.lay.lay import LaidPiece
from panelwright.lay.piece_to_cut import PieceToCut

# How many poses are tried in all, so that a lay takes about as long whatever is laid; and the seed of the orders.
TRIALS: Final = 1500
SEED: Final = 1
# A place is free if it is this far outside what is forbidden, mm: less than any tolerance, more than rounding.
_CLEAR: Final = 1e-7
# Outlines are grown by half the spacing and this share of it more, since their round corners are polygons.
_ROUNDNESS: Final = 0.002
_QUARTER_STEPS: Final = 16


@dataclass(frozen=True, eq=False)
class Pose:
    """A piece turned as it may lie, not shifted yet.

    Attributes:
        piece: what is laid.
        turn: without a shift.
        on_fold: it lies on the fold and can only be shifted along it.
        margin: half of the spacing and a little, which its outline is grown by, mm.
    """

    piece: PieceToCut
    turn: Placement
    on_fold: bool
    margin: float

    @cached_property
    def grown(self) -> Array:
        """The turned outline, grown by the margin, shape (m, 2)."""
        outline = self.turn.points(self.piece.outline)
        if not self.margin:
            return outline
        grown: Array = np.array(Polygon(outline).buffer(self.margin, _QUARTER_STEPS).exterior.coords)[:-1]
        return grown

    @cached_property
    def profile(self) -> ColumnProfile:
        """Its columns."""
        return ColumnProfile.of(self.grown)

    @property
    def length(self) -> float:
        """Along the cloth, mm."""
        return float(np.ptp(self.grown[:, 0]))

    def laid(self, column: int, low: float, copy: int, spare: bool) -> LaidPiece:
        """The piece with its first column and its lowest point there."""
        left, bottom = self.grown.min(axis=0)
        x, y = column * COLUMN - self.margin - left, low - self.margin - bottom
        if self.on_fold and self.piece.fold is not None:
            y = -self.turn.points(self.piece.fold)[0, 1]
        return LaidPiece(self.piece, copy, Placement(self.turn.angle, float(x), float(y), self.turn.mirrored), spare)


@dataclass(frozen=True, eq=False)
class Job:
    """One thing to lay: a piece in any of its poses.

    Attributes:
        poses: at least one.
        copy: number among those of its piece.
        spare: one of the two that are cut from folded cloth is not needed.
    """

    poses: tuple[Pose, ...]
    copy: int
    spare: bool


@dataclass(eq=False)
class Table:
    """The cloth while pieces are laid on it.

    Attributes:
        width: across, with the margin of the pieces on both sides, mm.
        places: (pose, first column, lowest point) of what lies there.
    """

    width: float
    places: list[tuple[Pose, int, float]] = field(default_factory=list)
    pairs: dict[tuple[Pose, Pose], tuple[Array, Array]] = field(default_factory=dict)

    def put(self, poses: Sequence[Pose]) -> float:
        """Lay one of the poses where it reaches least far along the cloth, then lowest; how far it reaches, mm."""
        tries = [(*self._first_place(pose), k) for k, pose in enumerate(poses)]
        reach, low, column, k = min((column * COLUMN + poses[k].length, low, column, k) for column, low, k in tries)
        self.places.append((poses[k], column, low))
        return reach

    def _first_place(self, pose: Pose) -> tuple[int, float]:
        """(column, lowest point) of the first column where a pose has room, as low as it goes there."""
        columns = 1 + max((column + other.profile.columns for other, column, _ in self.places), default=0)
        starts, stops = self._forbidden(pose, columns)
        low = np.zeros(columns)
        order = np.argsort(starts, axis=0)
        for start, stop in zip(*(np.take_along_axis(each, order, axis=0) for each in (starts, stops)), strict=True):
            low = np.where((start < low - _CLEAR) & (stop > low + _CLEAR), stop, low)
        free = low <= (_CLEAR if pose.on_fold else self.width - pose.profile.height + _CLEAR)
        first = int(free.argmax())
        return first, float(low[first])

    def _forbidden(self, pose: Pose, columns: int) -> tuple[Array, Array]:
        """Intervals that the lowest point may not lie in, one row for each piece that lies there."""
        starts = np.full((len(self.places), columns), np.inf)
        stops = np.full((len(self.places), columns), -np.inf)
        for row, (other, column, low) in enumerate(self.places):
            start, stop = self._pair(pose, other)
            first = column - pose.profile.columns + 1
            skip = max(0, -first)
            at = slice(first + skip, first + len(start))
            starts[row, at], stops[row, at] = low + start[skip:], low + stop[skip:]
        return starts, stops

    def _pair(self, pose: Pose, still: Pose) -> tuple[Array, Array]:
        if (pose, still) not in self.pairs:
            self.pairs[pose, still] = pose.profile.forbidden(still.profile)
        return self.pairs[pose, still]


def first_lay(
    pieces: Sequence[PieceToCut], width: float, folded: bool, one_way: bool = False, spacing: float = 0.0
) -> tuple[LaidPiece, ...]:
    """Places for all pieces on a cloth `width` mm across; the same pieces always give the same places.

    Args:
        pieces: each fits the cloth (see `fitting`).
        width: of the cloth as it lies, half of it where it is folded.
        folded: the cloth is double, its fold at y = 0.
        one_way: no piece may be turned round.
        spacing: least distance of two pieces, mm; it does not apply to the cloth's edges.
    """
    margin = spacing / 2 * (1 + _ROUNDNESS)
    to_lay = jobs(pieces, folded, one_way, margin)
    pairs: dict[tuple[Pose, Pose], tuple[Array, Array]] = {}
    best: tuple[float, list[LaidPiece]] = (np.inf, [])
    for order in _orders(to_lay):
        table = Table(width + 2 * margin, pairs=pairs)
        reach = max((table.put(job.poses) for job in order), default=0.0)
        if reach < best[0] - _CLEAR:
            best = (
                reach,
                [pose.laid(c, y, job.copy, job.spare) for job, (pose, c, y) in zip(order, table.places, strict=True)],
            )
    place = {id(piece): k for k, piece in enumerate(pieces)}
    return tuple(sorted(best[1], key=lambda laid: (place[id(laid.piece)], laid.copy)))


def _orders(jobs: Sequence[Job]) -> Iterator[list[Job]]:
    """Large ones first, by several measures; then at random near to those, as far as the trials reach."""
    sizes = np.array([_sizes(job.poses[0]) for job in jobs]).reshape(-1, 3)
    fold = np.array([job.poses[0].on_fold for job in jobs], bool)
    keys = [sizes[:, k] / max(float(sizes[:, k].max(initial=0.0)), 1.0) for k in range(3)]
    keys += [key + 2.0 * fold for key in keys]
    generator = np.random.default_rng(SEED)
    trials = max(1, sum(len(job.poses) for job in jobs))
    for number in range(max(len(keys), TRIALS // trials)):
        key = keys[number % len(keys)]
        if number >= len(keys):
            key = key + generator.normal(0.0, 0.3, len(jobs))
        yield [jobs[k] for k in np.argsort(-key, kind="stable")]


def _sizes(pose: Pose) -> tuple[float, float, float]:
    """(area, length, width) of a pose."""
    return float(Polygon(pose.grown).area), pose.length, pose.profile.height


def jobs(pieces: Sequence[PieceToCut], folded: bool, one_way: bool, margin: float) -> list[Job]:
    """All that must be laid. On folded cloth one place gives one of each hand; on the fold it gives a whole piece."""
    found: list[Job] = []
    for piece in pieces:
        if folded and piece.fold is not None:
            poses = _poses(piece, (_side_up(piece), not _side_up(piece)), one_way, margin)
            found += [Job(poses, copy, False) for copy in range(piece.count)]
        elif folded:
            poses = (*_poses(piece, (False, False), one_way, margin), *_poses(piece, (True, True), one_way, margin))
            needed = min(piece.face_up, piece.face_down)
            found += [Job(poses, copy, copy >= needed) for copy in range(max(piece.face_up, piece.face_down))]
        else:
            up, down = (_poses(piece, (hand, hand), one_way, margin) for hand in (False, True))
            found += [Job(up if copy < piece.face_up else down, copy, False) for copy in range(piece.count)]
    return found


def _poses(piece: PieceToCut, mirrored: tuple[bool, bool], one_way: bool, margin: float) -> tuple[Pose, ...]:
    """With its top ahead and, unless the cloth runs one way, behind; `mirrored` says which side is up in each."""
    turns = [piece.turn(mirrored[0], False), *([] if one_way else [piece.turn(mirrored[1], True)])]
    return tuple(Pose(piece, turn, piece.fold is not None, margin) for turn in turns)


def _side_up(piece: PieceToCut) -> bool:
    """Whether a piece on the fold must be mirrored to lie above it with its top ahead."""
    assert piece.fold is not None
    turn = piece.turn(False, False)
    fold = turn.points(piece.fold)[0, 1]
    return bool(turn.points(piece.outline)[:, 1].mean() < fold)
