"""Truing a pattern read off paper: seams evened, folds straight, necklines and hems smooth across the seams."""

from collections.abc import Mapping, Set
from dataclasses import dataclass
from typing import Final

import numpy as np

from panelwright.errors import GeometryError, InputError
from panelwright.geometry.curve import Curve
from panelwright.intake.evened_seam import Master, evened, unevenness
from panelwright.intake.seam_station import walkable
from panelwright.intake.smoothed_edges import smoothed
from panelwright.intake.worked_pattern import settled, straightened, with_edge
from panelwright.pattern.line import is_centre_front
from panelwright.pattern.mark import Point, as_point
from panelwright.pattern.pattern import Pattern

# A seam whose sides differ by more, mm, is no matter of truing: its partners may be wrong, or fullness is meant.
MOST_EVENED: Final = 25.0
# A change is told from here on, mm.
LEAST_TOLD: Final = 0.05
_ROUNDS: Final = 60
_ENOUGH: Final = 1e-7
_PROBES: Final = 240


@dataclass(frozen=True)
class TruingChange:
    """An edge that truing drew anew.

    Attributes:
        piece, edge: ids.
        most: how far the new line lies from the old one, or an end from where it was, at most, mm.
        at: where that is, on the new line.
        old, new: the two lines.
    """

    piece: str
    edge: str
    most: float
    at: Point
    old: Curve
    new: Curve


@dataclass(frozen=True)
class LeftSeam:
    """A seam that is not trued: by how much its sides differ, mm."""

    seam: str
    off: float


@dataclass(frozen=True)
class Trued:
    """What `trued` returns.

    Attributes:
        pattern: the trued pattern.
        changes: every edge that moved by 0.05 mm or more, the largest change first.
        left: seams that were left as they are, because their sides differ too much.
    """

    pattern: Pattern
    changes: tuple[TruingChange, ...]
    left: tuple[LeftSeam, ...]


def trued(pattern: Pattern, masters: Mapping[str, Master] | None = None, kept: Set[str] = frozenset()) -> Trued:
    """The pattern with its seams evened and its finished edges smooth; a pure function, on request only.

    Folds and a centre front are made straight. Along every seam the stretches between its ends, levels and paired
    notches get one length on both sides: each side gives half of a difference, or follows the master. An edge keeps
    its shape: the places slide along it, and at its ends it is cut short or run on straight. Then finished edges are
    turned, within 6 cm of the corner, to run on across each seam and to meet folds and closed centres square.

    Args:
        pattern: as `pattern_of` gives it.
        masters: seam -> the side that is kept, `a`, `b` or `both` (meet in the middle); the seam's own by default.
        kept: ids of edges that stay as they are, their corners too: what is sewn to them comes to them.

    Raises:
        InputError: if a piece's outline would cross itself.
    """
    given = masters or {}
    try:
        new = _straight_centres(pattern, kept)
        seams = [seam for seam in new.seams if walkable(seam)]
        uneven = {seam.id: off for seam in seams if (off := unevenness(new, seam)) > MOST_EVENED}
        for _ in range(_ROUNDS):
            before = new
            for seam in seams:
                if seam.id not in uneven:
                    new = evened(new, seam, given.get(seam.id, seam.master), kept)
            if _moved(before, new) < _ENOUGH:
                break
        new = smoothed(new, kept)
    except GeometryError as error:
        raise InputError(f"the pattern cannot be trued: {error}; redraw that piece") from error
    new = settled(new)
    return Trued(new, _changes(pattern, new), tuple(LeftSeam(*each) for each in uneven.items()))


def turned_down(pattern: Pattern, kept: Set[str]) -> tuple[TruingChange, ...]:
    """What truing would change of edges that are kept, if it kept none; one that it would not move is among them.

    Raises:
        InputError: if a piece's outline would cross itself.
    """
    return tuple(each for each in _differences(pattern, trued(pattern).pattern) if each.edge in kept) if kept else ()


def _straight_centres(pattern: Pattern, kept: Set[str]) -> Pattern:
    for piece in pattern.pieces:
        for edge in piece.edges:
            front = is_centre_front(edge.line)
            straight = edge.kind == "fold" or (front and edge.kind in ("opening", "seam") and piece.extent != "whole")
            if straight and edge.id not in kept:
                line = straightened(pattern.piece(piece.id), edge.id, front)
                pattern = with_edge(pattern, piece.id, edge.id, line)
    return pattern


def _moved(before: Pattern, after: Pattern) -> float:
    pairs = zip(before.pieces, after.pieces, strict=True)
    return max(float(np.abs(a.vertices - b.vertices).max()) for a, b in pairs)


def _changes(old: Pattern, new: Pattern) -> tuple[TruingChange, ...]:
    return tuple(change for change in _differences(old, new) if change.most >= LEAST_TOLD)


def _differences(old: Pattern, new: Pattern) -> list[TruingChange]:
    """Every edge and how far it moved, the largest change first."""
    found = []
    for piece, other in zip(old.pieces, new.pieces, strict=True):
        for edge, after in zip(piece.edges, other.edges, strict=True):
            most, at = _most(edge.curve, after.curve)
            found.append(TruingChange(piece.id, edge.id, most, at, edge.curve, after.curve))
    return sorted(found, key=lambda change: -change.most)


def _most(old: Curve, new: Curve) -> tuple[float, Point]:
    """(how far, where) the new line is farthest from the old one; its ends count from where they were."""
    places = [new.point(share * new.length) for share in np.linspace(0.0, 1.0, _PROBES)]
    off = [old.nearest(place)[1] for place in places]
    off[0], off[-1] = (float(np.linalg.norm(a - b)) for a, b in ((old.start, new.start), (old.end, new.end)))
    k = int(np.argmax(off))
    return off[k], as_point(places[k])
