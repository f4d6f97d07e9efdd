"""One piece as far as it is drawn by hand: its cross, its letters and its lines, all in mm on paper."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Final, Self

import numpy as np
import shapely

from panelwright.drawing.hand_letters import letters
from panelwright.drawing.hand_told import AtLevel, FromCross, OnLine, Place
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.geometry.placement import Placement
from panelwright.pattern.mark import Point, as_point

# A pencil does not show a smaller difference, mm on paper.
SAME: Final = 0.2
# Measured from a letter a place must be so much nearer than from a level to be the better choice, mm on paper.
LEVELS_FIRST: Final = 3.0
SHORTEST: Final = 0.01  # of a stretch, mm on paper
_RISES: Final = 0.7  # of a stretch's length that goes up, where it is called up


@dataclass(frozen=True, eq=False)
class HandLine:
    """A line that is drawn, from letter to letter; letters may come to lie on it later."""

    name: str
    start: str
    end: str
    curve: Curve

    def holds(self, point: Array) -> bool:
        """Whether a point lies on it."""
        key = point.tobytes()
        if key not in self._held:
            self._held[key] = float(shapely.distance(self.run, shapely.Point(point))) < SAME
        return self._held[key]

    def arc(self, point: Array) -> float:
        """Where along it the place nearest to a point lies, mm."""
        key = point.tobytes()
        if key not in self._arcs:
            self._arcs[key] = self.curve.nearest(point)[0]
        return self._arcs[key]

    # The same few letters are asked for at every step.
    @cached_property
    def _held(self) -> dict[bytes, bool]:
        return {}

    @cached_property
    def _arcs(self) -> dict[bytes, float]:
        return {}

    @cached_property
    def run(self) -> shapely.LineString:
        """The line as a polyline."""
        run = shapely.LineString(self.curve.polyline())
        shapely.prepare(run)
        return run


@dataclass(frozen=True, eq=False)
class LevelMark:
    """Where a level meets the outline."""

    level: str
    at: Array


@dataclass(frozen=True, eq=False)
class HandPiece:
    """What is on the paper.

    Attributes:
        id: of the piece.
        origin: of the cross.
        upright: unit vector up the cross.
        letters: letter -> point.
        lines: in the order of drawing; a line that was cut off or replaced stays.
        levels: the marks of the levels.
        kinds: line of an edge -> what becomes of it, as far as it is known.
        marked: marks without letters, by id.
        outline: (letter, letter, name of the line between them) of each stretch, as it was told last.
    """

    id: str
    origin: Array
    upright: Array
    letters: dict[str, Array]
    lines: tuple[HandLine, ...] = ()
    levels: tuple[LevelMark, ...] = ()
    kinds: tuple[tuple[str, str], ...] = ()
    marked: tuple[tuple[str, Point], ...] = ()
    outline: tuple[tuple[str, str, str], ...] = ()

    def moved(self, placement: Placement, id: str) -> Self:
        """The same after its piece was placed elsewhere, or traced for another piece; `placement` in mm on paper."""
        still = placement == Placement()
        return replace(
            self,
            id=id,
            origin=placement.points(self.origin),
            upright=placement.vectors(self.upright),
            letters={name: placement.points(at) for name, at in self.letters.items()},
            lines=self.lines
            if still
            else tuple(replace(line, curve=line.curve.placed(placement)) for line in self.lines),
            levels=tuple(replace(mark, at=placement.points(mark.at)) for mark in self.levels),
            marked=tuple((name, as_point(placement.points(np.array(at)))) for name, at in self.marked),
        )

    def outline_curves(self) -> Iterator[Curve]:
        """The stretches of the outline."""
        for start, end, name in self.outline:
            line = next(line for line in self.lines[::-1] if self.spoken(line) == name)
            low, high = (line.arc(self.letters[letter]) for letter in (start, end))
            if abs(high - low) > SHORTEST:
                yield line.curve.between(low, high)

    def letter_at(self, point: Array) -> str | None:
        """The letter that stands at a point, or None."""
        near = min(self.letters.items(), key=lambda item: float(np.hypot(*(item[1] - point))), default=None)
        return near[0] if near is not None and np.hypot(*(near[1] - point)) < SAME else None

    def with_letter(self, point: Array) -> tuple[Self, str]:
        """The piece with the next letter at a point, and that letter."""
        name = next(name for name in letters() if name not in self.letters)
        return replace(self, letters={**self.letters, name: point}), name

    def spoken(self, line: HandLine) -> str:
        """A line's name, with its ends where another has the same name."""
        others = [other for other in self.lines if other.name == line.name and other is not line]
        return f"{line.name} {line.start}–{line.end}" if others else line.name

    def place(self, point: Array) -> Place:
        """How a point is found: along a line where it lies on one, else from the cross."""
        found = [choice for line in self.lines if line.holds(point) for choice in self._along(line, point)]
        if found:
            return min(found, key=lambda choice: choice[0])[1]
        up, right = self.from_cross(point)
        return FromCross(up, right)

    def from_cross(self, point: Array) -> tuple[float, float]:
        """(how far up the cross, how far right of it) a point is."""
        way = point - self.origin
        return float(way @ self.upright), float(way @ np.array([self.upright[1], -self.upright[0]]))

    def _along(self, line: HandLine, point: Array) -> Iterator[tuple[float, Place]]:
        """The ways to find a point on a line, each with how far one has to measure."""
        arc = line.arc(point)
        name = self.spoken(line)
        for mark in self.levels if self._upright(line) else ():
            if line.holds(mark.at):
                start = line.arc(mark.at)
                way = self._way(line, start, arc)
                if abs(start - arc) < SAME / 2:
                    yield 0.0, AtLevel(name, mark.level)
                elif way in ("up", "down"):
                    yield abs(start - arc), OnLine(name, mark.level, abs(start - arc), way)
        for letter, at in self.letters.items():
            if line.holds(at):
                start = line.arc(at)
                way = self._way(line, start, arc)
                if abs(start - arc) > SAME / 2 and way != letter:
                    yield abs(start - arc) + LEVELS_FIRST, OnLine(name, letter, abs(start - arc), way)

    def _upright(self, line: HandLine) -> bool:
        """Whether a line meets each level once."""
        return abs(float(line.curve.chord @ self.upright)) > _RISES * line.curve.length

    def _way(self, line: HandLine, start: float, arc: float) -> str:
        rise = self.from_cross(line.curve.point(arc))[0] - self.from_cross(line.curve.point(start))[0]
        if abs(rise) > _RISES * abs(arc - start):
            return "up" if rise > 0 else "down"
        return line.end if arc > start else line.start
