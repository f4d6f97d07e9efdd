"""A seam as paper is walked along paper: one side lies still, the other is turned along it, partner on partner."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import shapely
from shapely import Polygon

from panelwright.app.board_piece import DECIMALS, Document
from panelwright.app.clearest_joint import clearest_joint
from panelwright.errors import InputError
from panelwright.finish.seam_walk import SeamWalk
from panelwright.geometry.arrays import Array
from panelwright.geometry.placement import Placement
from panelwright.pattern.level import LEVELS
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Seam, Span

SHARES: Final = 101
_TURN: Final = 2 * math.pi


@dataclass(frozen=True)
class Laid:
    """A piece of one side of the seam.

    Attributes:
        piece: id.
        placement: from the piece's own coordinates; mirrored where the seam takes the piece of the other hand.
    """

    piece: str
    placement: Placement

    def document(self) -> Document:
        """Ready for JSON: `Placement` with its names, radians and mm."""
        at = self.placement
        return {"piece": self.piece, "angle": at.angle, "x": at.x, "y": at.y, "mirrored": at.mirrored}


@dataclass(frozen=True)
class End:
    """What runs on across the seam at one of its ends.

    Attributes:
        lines: ids of the lines that run on, of side a and of side b; () where a side ends within an edge.
        kink: radians by which the two miss one straight run when both sides touch there: above 0 the line dips in at
            the seam, below 0 it has a peak. None where no line runs on.
    """

    lines: tuple[str, ...]
    kink: float | None


@dataclass(frozen=True)
class Joint:
    """Side b as it lies at one share of the seam.

    Attributes:
        share: of the length of side a, 0 … 1.
        motion: what is done to all pieces of side b as they were laid.
        gap: largest distance between partner places over the stretch already walked, from the start to here, mm.
        kink: between the lines that run on at the nearer end of the seam, as the pieces lie now; radians or None.
    """

    share: float
    motion: Placement
    gap: float
    kink: float | None

    def document(self) -> Document:
        """Ready for JSON."""
        return {
            "share": round(self.share, 4),
            "angle": self.motion.angle,
            "x": self.motion.x,
            "y": self.motion.y,
            "gap_mm": round(self.gap, DECIMALS),
            "degrees": None if self.kink is None else round(math.degrees(self.kink), 2),
        }


@dataclass(frozen=True)
class JoinedSeam:
    """Both sides of a seam and how side b is walked along side a.

    Attributes:
        seam: id.
        still: the pieces of side a; several are joined so that the seam line runs on smoothly from one to the next.
        moved: those of side b before any motion.
        ends: at the seam's start and at its end.
        joints: at `SHARES` even shares, from the start.
        clearest: number of the joint at which both sides lie across each other and gape least.
    """

    seam: str
    still: tuple[Laid, ...]
    moved: tuple[Laid, ...]
    ends: tuple[End, End]
    joints: tuple[Joint, ...]
    clearest: int

    def document(self) -> Document:
        """The *Joined* answer of docs/board.md."""
        return {
            "seam": self.seam,
            "a": [laid.piece for laid in self.still],
            "b": [laid.piece for laid in self.moved],
            "still": [laid.document() for laid in self.still],
            "moved": [laid.document() for laid in self.moved],
            "ends": [
                {
                    "lines": list(end.lines),
                    "degrees": None if end.kink is None else round(math.degrees(end.kink), 2),
                }
                for end in self.ends
            ],
            "opens_at": round(self.joints[self.clearest].share, 4),
            "steps": [joint.document() for joint in self.joints],
        }


def joined(pattern: Pattern, seam_id: str) -> JoinedSeam:
    """A seam of a pattern, walked.

    Partner places are those that notches mark: ease is taken up as the levels say. The sides of a closure, which may
    differ in length, are stretched onto each other.

    Raises:
        InputError: if the pattern has no such seam.
    """
    seam = next((each for each in pattern.seams if each.id == seam_id), None)
    if seam is None:
        raise InputError("there is no such seam in this pattern: choose one of its seams", "seam")
    a, b = _Side(pattern, seam.a), _Side(pattern, seam.b)
    shares = np.linspace(0.0, 1.0, SHARES)
    on_a, along_a = a.places(shares * a.length)
    on_b, along_b = b.places(_partners(pattern, seam, shares * a.length) * b.length)
    motions = [Placement.carrying(p, q, to, way) for p, q, to, way in zip(on_b, along_b, on_a, along_a, strict=True)]
    ends = (_end(a, b, at_start=True), _end(a, b, at_start=False))
    joints = tuple(
        Joint(float(share), motion, _gap(on_a[: k + 1], on_b[: k + 1], motion), _kink_now(k, motions, ends, a.left))
        for k, (share, motion) in enumerate(zip(shares, motions, strict=True))
    )
    clearest = clearest_joint(a.outlines, b.outlines, motions, on_a, on_b)
    return JoinedSeam(seam.id, a.laid, b.laid, ends, joints, clearest)


def _partners(pattern: Pattern, seam: Seam, places: Array) -> Array:
    """Shares of side b that are sewn to places on side a."""
    walk = SeamWalk.of(pattern, seam, LEVELS)
    partners = np.array([walk.partner(float(place)) for place in places])
    return np.clip(partners / walk.partner(walk.length), 0.0, 1.0)


def _gap(on_a: Array, on_b: Array, motion: Placement) -> float:
    return float(np.linalg.norm(motion.points(on_b) - on_a, axis=1).max())


def _kink_now(k: int, motions: Sequence[Placement], ends: tuple[End, End], left: bool) -> float | None:
    """The kink at the nearer end when side b lies as at joint k."""
    near = 0 if 2 * k < len(motions) else 1
    kink = ends[near].kink
    if kink is None:
        return None
    turned = motions[k].angle - motions[-near].angle
    return _wrapped(kink + (turned if left == (near == 1) else -turned))


class _Side:
    """One chain of a seam with its pieces laid on: the chain is one run of curves, in its own direction."""

    def __init__(self, pattern: Pattern, chain: tuple[Span, ...]) -> None:
        self.chain = chain
        self._pattern = pattern
        self._curves = [pattern.span_curve(span) for span in chain]
        self._placements = self._laid_out()
        self._starts = np.concatenate([[0.0], np.cumsum([curve.length for curve in self._curves])])

    @property
    def length(self) -> float:
        return float(self._starts[-1])

    @property
    def laid(self) -> tuple[Laid, ...]:
        """Each piece once; both hands of a piece are two."""
        entries = zip(self.chain, self._placements, strict=True)
        found = {(span.piece, span.hand): Laid(span.piece, placement) for span, placement in entries}
        return tuple(found.values())

    @property
    def outlines(self) -> list[Polygon]:
        """The finished outlines of its pieces as they are laid, mm."""
        return [shapely.transform(self._pattern.piece(each.piece).outline, each.placement.points) for each in self.laid]

    @property
    def left(self) -> bool:
        """Whether its first piece lies to the left of the seam, seen along it."""
        first = self.chain[0]
        return (first.end > first.start) == (first.hand == "same")

    def _laid_out(self) -> list[Placement]:
        known: dict[tuple[str, str], Placement] = {}
        placements: list[Placement] = []
        for span, curve in zip(self.chain, self._curves, strict=True):
            key = span.piece, span.hand
            if key not in known:
                own = Placement(mirrored=span.hand == "mirror")
                if placements:
                    before, last = self._curves[len(placements) - 1], placements[-1]
                    start, way = own.points(curve.start), own.vectors(curve.start_tangent)
                    end, on = last.points(before.end), last.vectors(before.end_tangent)
                    own = Placement.carrying(start, way, end, on).after(own)
                known[key] = own
            placements.append(known[key])
        return placements

    def places(self, arcs: Array) -> tuple[Array, Array]:
        """Points and directions of travel at places along the chain, shape (n, 2) each."""
        which = np.clip(np.searchsorted(self._starts, arcs, side="right") - 1, 0, len(self._curves) - 1)
        points, ways = [], []
        for k, arc in zip(which.tolist(), arcs.tolist(), strict=True):
            point, way = self._curves[k].frame(arc - float(self._starts[k]))
            points.append(self._placements[k].points(point))
            ways.append(self._placements[k].vectors(way))
        return np.array(points), np.array(ways)

    def corner(self, at_start: bool) -> tuple[str, float] | None:
        """(line that runs on at an end of the chain, inner angle to it in radians), or None within an edge."""
        span = self.chain[0] if at_start else self.chain[-1]
        piece, edge = self._pattern.piece(span.piece), self._pattern.edge(span)
        place = span.start if at_start else span.end
        if place == 1.0:
            return piece.after(edge).line, piece.inner_angle(edge)
        if place == 0.0:
            before = piece.before(edge)
            return before.line, piece.inner_angle(before)
        return None


def _end(a: _Side, b: _Side, at_start: bool) -> End:
    on_a, on_b = a.corner(at_start), b.corner(at_start)
    if on_a is None or on_b is None:
        return End((), None)
    return End((on_a[0], on_b[0]), on_a[1] + on_b[1] - math.pi)


def _wrapped(angle: float) -> float:
    """The same angle within half a turn to either side."""
    return (angle + math.pi) % _TURN - math.pi
