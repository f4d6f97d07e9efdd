"""Level lines that become one where two parts of a piece now lie beside each other."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.pattern.level import Level, LevelSpan
from panelwright.pattern.mark import InsideLine
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

TOUCHING = 0.02  # mm; ends nearer than this are one place
FARTHEST = 400.0  # mm between two ends that one line may bridge
KEPT = 256


@dataclass(frozen=True)
class Bridge:
    """Two lines of a level in one piece that become one: the end of `left` runs on to the start of `right`."""

    left: str
    right: str


def bridged(pattern: Pattern, id: str, bridges: Sequence[Bridge]) -> Pattern:
    """The pattern with these level lines drawn through; the cloth that a line gains or loses is ease of its level.

    A gap is bridged smoothly; where the lines lap, both end half-way. A joined line keeps the name of its left part.

    Args:
        pattern: any pattern.
        id: of the piece.
        bridges: in order from left to right where a line takes several.
    """
    drawn = _drawn_through(pattern.piece(id), tuple(bridges))
    levels = pattern.levels
    for joint in drawn.joints:
        spans = LevelSpan(id, joint.left), LevelSpan(id, joint.right)
        levels = tuple(_measured(level, spans, joint.name, joint.gained) for level in levels)
    return replace(replace(pattern, levels=()).with_pieces(drawn.piece), levels=levels) if drawn.joints else pattern


@dataclass(frozen=True)
class _Joint:
    """Two lines, `left` and `right`, that became one called `name`, longer than both by `gained` mm."""

    left: str
    right: str
    name: str
    gained: float


@dataclass(frozen=True, eq=False)
class _DrawnThrough:
    """A piece with its level lines drawn through, and which lines became one, in order."""

    piece: Piece
    joints: tuple[_Joint, ...]


@lru_cache(maxsize=KEPT)
def _drawn_through(piece: Piece, bridges: tuple[Bridge, ...]) -> _DrawnThrough:
    """Remembered by content, as `divided` is."""
    now: dict[str, str] = {}  # what became of a line that is part of another by now
    inside, joints = piece.inside, []
    for bridge in bridges:
        names = _today(bridge.left, now), _today(bridge.right, now)
        left, right = (next((line for line in inside if line.id == name), None) for name in names)
        if names[0] == names[1]:
            continue
        kept = _shorter(*names)
        now[names[1] if kept == names[0] else names[0]] = kept
        if left is None or right is None:
            continue
        curve = through(left.curve, right.curve)
        joints.append(_Joint(*names, kept, curve.length - left.curve.length - right.curve.length))
        inside = tuple(
            InsideLine(kept, left.kind, curve) if line.id == left.id else line for line in inside if line.id != right.id
        )
    return _DrawnThrough(replace(piece, inside=inside) if joints else piece, tuple(joints))


def _today(name: str, now: Mapping[str, str]) -> str:
    while name in now:
        name = now[name]
    return name


def _shorter(one: str, other: str) -> str:
    """The name that two lines of one level keep: `waist` before `waist-2`."""
    return min(one, other, key=lambda name: (len(name), name))


def _measured(level: Level, spans: tuple[LevelSpan, LevelSpan], name: str, gained: float) -> Level:
    """The level along the joined line, with what it gains as ease."""
    places = {(span.piece, span.inside): span.times for span in level.path}
    ours = [(span.piece, span.inside) for span in spans]
    if not all(place in places for place in ours):
        return level
    times = places[ours[0]]
    path = tuple(
        replace(span, inside=name) if (span.piece, span.inside) == ours[0] else span
        for span in level.path
        if (span.piece, span.inside) != ours[1]
    )
    return replace(level, path=path, ease=level.ease + gained * times)


def through(left: Curve, right: Curve) -> Curve:
    """One curve along both: with a smooth bridge over a gap, or both cut off half-way where they lap."""
    gap = right.start - left.end
    apart = float(np.linalg.norm(gap))
    if apart <= TOUCHING:
        return left.joined(right.ending_at(start=left.end))
    if gap @ left.end_tangent < 0 and apart < min(left.length, right.length) / 2:
        left, right = left.between(0.0, left.length - apart / 2), right.between(apart / 2, right.length)
        return left.joined(drawn_on(right, left.end))
    third = apart / 3
    bridge = Curve(
        np.array(
            [[left.end, left.end + third * left.end_tangent, right.start - third * right.start_tangent, right.start]]
        )
    )
    return left.joined(bridge).joined(right)


def drawn_on(curve: Curve, start: Array) -> Curve:
    """The curve with its start moved to a point; its first control point moves along."""
    cubics = curve.cubics.copy()
    cubics[0, :2] += start - cubics[0, 0]
    cubics[0, 0] = start
    return Curve(cubics)


def facing(piece: Piece, ours: Sequence[str], theirs: Sequence[str]) -> tuple[Bridge, ...]:
    """Which level lines of two parts of a piece face each other: of one level, with ends nearest to each other."""
    found = []
    for one in ours:
        for other in theirs:
            if level_of(one) == level_of(other):
                line, beside = piece.inside_line(one), piece.inside_line(other)
                if line is None or beside is None or line.kind != "level" or beside.kind != "level":
                    continue
                after = float(np.linalg.norm(beside.curve.start - line.curve.end))
                before = float(np.linalg.norm(line.curve.start - beside.curve.end))
                if min(after, before) < FARTHEST:
                    found.append(Bridge(one, other) if after <= before else Bridge(other, one))
    return tuple(found)


def level_of(id: str) -> str:
    """The level of a line: `waist` of `waist-2`."""
    name, _, number = id.rpartition("-")
    return name if number.isdigit() else id


@lru_cache(maxsize=KEPT)
def ending_on(piece: Piece, curve: Curve) -> tuple[tuple[str, bool], ...]:
    """(id, whether it is its right end) of the level lines of a piece that end on a curve; remembered by content."""
    found = []
    for line in piece.inside:
        if line.kind == "level":
            for at_end, point in ((False, line.curve.start), (True, line.curve.end)):
                if curve.nearest(point)[1] < TOUCHING:
                    found.append((line.id, at_end))
    return tuple(found)


def across(ours: Sequence[tuple[str, bool]], theirs: Sequence[tuple[str, bool]]) -> list[Bridge]:
    """Bridges between lines of one level whose ends, as `ending_on` tells them, come to face each other."""
    found = []
    for one, one_ends in ours:
        for other, other_ends in theirs:
            if level_of(one) == level_of(other) and one_ends != other_ends and one != other:
                found.append(Bridge(one, other) if one_ends else Bridge(other, one))
    return found
