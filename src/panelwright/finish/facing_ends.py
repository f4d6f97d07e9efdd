"""Where facings of neighbouring panels meet: at one place of their seam, so that the inner edge runs on across it."""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final, Self

import numpy as np

from panelwright.finish.facing_path import Band, EndKey
from panelwright.finish.seam_walk import SeamWalk
from panelwright.geometry.arrays import Array, turn
from panelwright.pattern.edge import Edge
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Seam, Span

_LEAST_ANGLE: Final = math.radians(65.0)
SQUARE: Final = math.pi / 2
_LOOK: Final = 4.0  # mm of the path that tell its direction
_EVEN: Final = 3.0  # mm: sides that give way by less than this share the turning of the inner edge
_LEFT: Final = 10.0  # mm of the shorter edge that are left beside a facing


@dataclass(frozen=True)
class BandEnd:
    """Where the inner edge of a facing meets an edge of its piece.

    Attributes:
        at_end: whether the facing covers the edge's end, or its start.
        arc: mm from the start of the edge.
        angle: inner angle of the facing there, radians.
        wants: how much of the edge it should cover, mm (see `Band`).
    """

    edge: Edge
    at_end: bool
    arc: float
    angle: float
    wants: float = 0.0

    @classmethod
    def both(cls, band: Band) -> tuple[Self, Self]:
        """(where it leaves, where it enters) as the path has it."""
        return cls._of(band.leave, False, band.leave_arc, band.path, band.wants[0]), cls._of(
            band.enter, True, band.enter_arc, band.path[::-1], band.wants[1]
        )

    @classmethod
    def _of(cls, edge: Edge, at_end: bool, arc: float, path: Array, wants: float) -> Self:
        lengths = np.hypot(*(path - path[0]).T)
        way = path[int(np.argmax(lengths >= min(_LOOK, lengths.max())))] - path[0]
        towards = edge.curve.tangent(arc) * (1.0 if at_end else -1.0)
        return cls(edge, at_end, arc, abs(turn(towards, way)), wants)

    @property
    def key(self) -> EndKey:
        """Which end of which edge the facing covers: no two bands cover one."""
        return self.edge.id, self.at_end

    @property
    def depth(self) -> float:
        """Length of the edge that the facing covers, mm."""
        return self.edge.curve.length - self.arc if self.at_end else self.arc

    def at_depth(self, depth: float, angle: float) -> Self:
        """The same end at another place."""
        return replace(self, arc=self.edge.curve.length - depth if self.at_end else depth, angle=angle)

    @property
    def point(self) -> Array:
        """The place, shape (2,)."""
        return self.edge.curve.point(self.arc)

    @property
    def inwards(self) -> Array:
        """Unit direction from the place along the inner edge into the piece."""
        tangent = self.edge.curve.tangent(self.arc) * (1.0 if self.at_end else -1.0)
        angle = self.angle if self.at_end else -self.angle
        cosine, sine = math.cos(angle), math.sin(angle)
        return np.array([cosine * tangent[0] - sine * tangent[1], sine * tangent[0] + cosine * tangent[1]])


def settled(pattern: Pattern, ends: Iterable[BandEnd]) -> Mapping[EndKey, BandEnd]:
    """The ends of facings: agreed with their neighbours, and square to a centre."""
    centres = centre_edges(pattern)
    squared = [replace(end, angle=SQUARE) if end.edge.id in centres else end for end in ends]
    return agreed(pattern, squared, _LEAST_ANGLE)


def centre_edges(pattern: Pattern) -> frozenset[str]:
    """Edges on a fold, and edges that are sewn to or closed on their own mirror image."""
    folds = {edge.id for piece in pattern.pieces for edge in piece.edges if edge.kind == "fold"}
    return frozenset(folds | {span.edge for seam in pattern.seams if seam.is_centre for span in seam.a})


def agreed(pattern: Pattern, ends: Iterable[BandEnd], least_angle: float = 0.0) -> Mapping[EndKey, BandEnd]:
    """The ends with both sides of every seam at the same sewn place and with angles that add to 180°.

    Where one side alone has an end (its neighbour is faced whole, or not at all) it stays where it is.

    Args:
        least_angle: at which an inner edge may meet a seam that two facings share, radians.
    """
    found = {end.key: end for end in ends}
    for seam in pattern.seams:
        if not seam.is_centre:
            for a, b, at_start in _pairs(seam, found):
                found[a.key], found[b.key] = _agreed(pattern, seam, (a, b), at_start, least_angle)
    return found


def _pairs(seam: Seam, found: Mapping[EndKey, BandEnd]) -> Iterator[tuple[BandEnd, BandEnd, bool]]:
    """The ends that meet at the start and at the end of a seam."""
    for at_start in (True, False):
        keys = [seam_end(chain, at_start) for chain in (seam.a, seam.b)]
        if all(key in found for key in keys):
            yield found[keys[0]], found[keys[1]], at_start


def seam_end(chain: Sequence[Span], at_start: bool) -> EndKey:
    """The edge that a side of a seam starts or ends on, and whether that is the edge's end; ("", False) inside it."""
    span = chain[0] if at_start else chain[-1]
    share = span.start if at_start else span.end
    return (span.edge, share == 1.0) if share in (0.0, 1.0) else ("", False)


def _agreed(
    pattern: Pattern, seam: Seam, ends: tuple[BandEnd, BandEnd], at_start: bool, least_angle: float
) -> tuple[BandEnd, BandEnd]:
    """Both ends at the deeper of their own places, so that neither facing gets narrower than it should be.

    The inner edge crosses the seam as it does on the side that need not give way; on both sides alike if neither does.
    """
    (a, b), walk = ends, SeamWalk.of(pattern, seam, ())
    lengths = walk.length, pattern.chain_length(seam.b)
    on_b = b.depth if at_start else lengths[1] - b.depth
    places = np.array([place for place, _ in walk.eased])
    partners = np.array([walk.partner(float(place)) for place in places])
    own = a.depth if at_start else lengths[0] - a.depth
    other = float(np.interp(on_b, partners, places))
    place = max(own, other) if at_start else min(own, other)
    shorter = min(a.edge.curve.length, b.edge.curve.length)
    most = max(shorter - _LEFT, shorter / 2)
    place = min(place, most) if at_start else max(place, lengths[0] - most)
    partner = walk.partner(place)
    depths = (place, partner) if at_start else (lengths[0] - place, lengths[1] - partner)
    gives = abs(own - place) + _EVEN, abs(other - place) + _EVEN
    angle = a.angle + (math.pi - a.angle - b.angle) * gives[0] / sum(gives)
    angle = min(max(angle, least_angle), math.pi - least_angle)
    return a.at_depth(depths[0], angle), b.at_depth(depths[1], math.pi - angle)
