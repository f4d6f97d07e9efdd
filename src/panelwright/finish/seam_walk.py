"""Walking a seam: where levels cross it, and which places of its two sides are sewn to each other."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Self

import numpy as np

from panelwright.geometry.curve import Curve
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.mark import Point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam, Span

BUST_POINT = "bust-point"


@dataclass(frozen=True)
class SeamWalk:
    """A seam measured from its start.

    Attributes:
        length: of side a, mm.
        levels: level id -> its place on side a, for the levels looked for that cross the seam on side a.
        bust_point: place on side a of a bust point that lies on the seam, or None.
        joints: places on side a where a span of either side ends and the next begins.
        eased: (place on side a, ease taken up to there), from the start to the end of the seam, shape (n, 2).
    """

    seam: Seam
    length: float
    levels: dict[str, float]
    bust_point: float | None
    joints: tuple[float, ...]
    eased: tuple[tuple[float, float], ...]

    @classmethod
    def of(cls, pattern: Pattern, seam: Seam, levels: Iterable[str]) -> Self:
        """Walk a seam. Ease is taken up as the levels say that meet both sides, evenly between them."""
        length = pattern.chain_length(seam.a)
        on_a = {level: place for level in levels if (place := _level(pattern, seam.a, level)) is not None}
        eased = [(0.0, 0.0)]
        if seam.ease:
            for level, place in sorted(on_a.items(), key=lambda entry: entry[1]):
                on_b = _level(pattern, seam.b, level)
                if on_b is not None:
                    low, high = sorted((eased[-1][1], seam.ease))
                    eased.append((place, min(max(on_b - place * seam.ratio, low), high)))
        eased.append((length, seam.ease))
        return cls(seam, length, on_a, _bust_point(pattern, seam), _joints(pattern, seam, tuple(eased)), tuple(eased))

    def partner(self, place: float) -> float:
        """The place on side b that is sewn to a place on side a, mm."""
        places, shares = zip(*self.eased, strict=True)
        return place * self.seam.ratio + float(np.interp(place, places, shares))


def _level(pattern: Pattern, chain: tuple[Span, ...], level: str) -> float | None:
    """Where a level's line meets a chain, mm from its start, or None."""
    done = 0.0
    for span in chain:
        edge = pattern.edge(span)
        line = pattern.piece(span.piece).inside_line(level)
        if line is not None:
            for end in (line.curve.start, line.curve.end):
                place = _along_span(span, edge.curve, end)
                if place is not None:
                    return done + place
        done += edge.curve.length * span.share
    return None


def _along_span(span: Span, curve: Curve, point: np.ndarray | Point) -> float | None:
    """How far along a span a point on it lies, mm, or None if it is not on it."""
    arc = _arc_at(curve, np.asarray(point))
    if arc is None:
        return None
    way = 1.0 if span.end > span.start else -1.0
    place = (arc - span.start * curve.length) * way
    inside = -TOLERANCES.seam <= place <= curve.length * span.share + TOLERANCES.seam
    return place if inside else None


def _arc_at(curve: Curve, point: np.ndarray) -> float | None:
    """Arc position of a point on a curve, or None; mostly a level meets an edge where two of its cubics join."""
    joints = np.concatenate([curve.cubics[:, 0], curve.cubics[-1:, 3]])
    gaps = np.linalg.norm(joints - point, axis=1)
    nearest = int(gaps.argmin())
    if gaps[nearest] < TOLERANCES.same_point:
        return float(curve.joints[nearest])
    if ((point < curve.cubics.min(axis=(0, 1)) - 1.0) | (point > curve.cubics.max(axis=(0, 1)) + 1.0)).any():
        return None
    arc, gap = curve.nearest(point)
    return arc if gap < TOLERANCES.seam else None


def _bust_point(pattern: Pattern, seam: Seam) -> float | None:
    done = 0.0
    for span in seam.a:
        curve = pattern.edge(span).curve
        for at in _bust_points(pattern.piece(span.piece)):
            place = _along_span(span, curve, at)
            if place is not None:
                return done + place
        done += curve.length * span.share
    return None


def _bust_points(piece: Piece) -> Iterable[Point]:
    return (mark.at for mark in piece.marks if mark.id == BUST_POINT)


def _joints(pattern: Pattern, seam: Seam, eased: tuple[tuple[float, float], ...]) -> tuple[float, ...]:
    on_a = np.cumsum([pattern.edge(span).curve.length * span.share for span in seam.a])[:-1]
    on_b = np.cumsum([pattern.edge(span).curve.length * span.share for span in seam.b])[:-1]
    places, shares = np.array(eased).T
    back = np.interp(on_b, places * seam.ratio + shares, places) if len(on_b) else on_b
    return tuple(float(place) for place in np.sort(np.concatenate([on_a, back])))
