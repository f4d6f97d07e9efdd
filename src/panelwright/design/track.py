"""The track that something taken hold of runs on: a curve on one piece, by one number."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np

from panelwright.geometry.arrays import Array
from panelwright.pattern.mark import Point, as_point

STRAIGHT_WITHIN: Final = 0.1  # mm by which a track may leave the straight stretch that is shown for it
LONGEST_WAY: Final = 250.0  # mm of that stretch to either side
STEP: Final = 2.0  # mm to the first place where that is looked at; further ones lie farther and farther apart
LONGER: Final = 1.5
LONGEST_STEP: Final = 12.0
SAMPLES: Final = 15.0  # of the number, between places where the nearest one is looked for
FOUND: Final = 1e-7
_NUDGE: Final = 0.01  # of the number, for directions
_ROUNDS: Final = 30


@dataclass(frozen=True, eq=False)
class Track:
    """A place on a piece for every number from `least` to `most`; beyond both ends it runs on straight.

    Attributes:
        piece: id.
        here: the number now.
        least, most: where the track ends. The number goes along it about as mm do.
        course: number -> place, shape (2,), for numbers from `least` to `most`.
    """

    piece: str
    here: float
    least: float
    most: float
    course: Callable[[float], Array]

    @property
    def at(self) -> Array:
        """The place now."""
        return self.point(self.here)

    def point(self, number: float) -> Array:
        """The place for a number, shape (2,)."""
        held = min(max(number, self.least), self.most)
        place = self.course(held)
        return place if held == number else place + (number - held) * self._rate(held)

    def nearest(self, to: Array) -> float:
        """The number whose place is nearest to another place; it may lie beyond the ends."""
        numbers, places = self._samples
        number = float(numbers[int(np.argmin(((places - to) ** 2).sum(axis=1)))])
        for _ in range(_ROUNDS):
            rate = self._rate(min(max(number, self.least), self.most))
            change = float((to - self.point(number)) @ rate / max(float(rate @ rate), FOUND))
            number += change
            if abs(change) < FOUND:
                break
        return number

    @cached_property
    def _samples(self) -> tuple[Array, Array]:
        """Numbers all along the track, shape (n,), and their places, shape (n, 2)."""
        numbers = np.linspace(self.least, self.most, max(2, int((self.most - self.least) / SAMPLES) + 2))
        return numbers, np.array([self.course(float(number)) for number in numbers])

    def way(self) -> tuple[Point, Point]:
        """The straight stretch through the place now from which the track hardly differs."""
        rate = self._rate(min(max(self.here, self.least), self.most))
        at, direction = self.at, rate / np.linalg.norm(rate)
        low, high = self._straight(at, direction, -1.0), self._straight(at, direction, 1.0)
        return as_point(at + low * direction), as_point(at + high * direction)

    def _straight(self, at: Array, direction: Array, sign: float) -> float:
        reached, number, step = 0.0, self.here, STEP
        while abs(reached) < LONGEST_WAY:
            number += sign * step
            step = min(LONGER * step, LONGEST_STEP)
            if not self.least <= number <= self.most:
                break
            way = self.course(number) - at
            if abs(float(way[0] * direction[1] - way[1] * direction[0])) > STRAIGHT_WITHIN:
                break
            reached = float(way @ direction)
        return reached

    def _rate(self, number: float) -> Array:
        """Change of place with the number."""
        a, b = max(number - _NUDGE, self.least), min(number + _NUDGE, self.most)
        return (self.course(b) - self.course(a)) / (b - a)
