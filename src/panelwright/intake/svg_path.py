"""The data of an SVG path as runs: the open or closed lines that it draws."""

import math
import re
from typing import Final

import numpy as np

from panelwright.errors import InputError
from panelwright.geometry.arrays import Array
from panelwright.intake.drawing_limits import MOST_POINTS
from panelwright.intake.drawing_stroke import arc_cubics
from panelwright.intake.svg_number import NUMBER, number
from panelwright.quotation import quoted

_SPACE: Final = r"[\s,]*"
_COMMAND: Final = re.compile(r"[\s,]*([MmZzLlHhVvCcSsQqTtAa])")
_NUMBER: Final = re.compile(_SPACE + f"({NUMBER})")
_FLAG: Final = re.compile(_SPACE + "([01])")
_TAKES: Final = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}
Place = tuple[float, float]


def path_lines(data: str) -> list[tuple[Array, ...]]:
    """The runs of every line in the data of a path, in its own coordinates; a `Z` closes a line with a straight run.

    Raises:
        InputError: if the data cannot be read to its end, or has no end.
    """
    drawn = _Drawn()
    place, letter = 0, ""
    end = len(data.rstrip(" \t\r\n\f,"))
    while place < end:
        match = _COMMAND.match(data, place)
        if match:
            letter, place = match[1], match.end()
        elif not letter or letter in "Zz":
            raise _unreadable(data, place)
        place, given = _given(data, place, letter)
        drawn.draw(letter, given)
        letter = {"M": "L", "m": "l"}.get(letter, letter)
    drawn.lift()
    return drawn.lines


def _given(data: str, place: int, letter: str) -> tuple[int, list[float]]:
    """What a command takes, and where the data goes on."""
    found = []
    for k in range(_TAKES[letter.upper()]):
        match = (_FLAG if letter in "Aa" and k in (3, 4) else _NUMBER).match(data, place)
        if match is None:
            raise _unreadable(data, place)
        found.append(number(match[1]))
        place = match.end()
    return place, found


def _unreadable(data: str, place: int) -> InputError:
    told = quoted(data[place : place + 20].strip()) if data[place:].strip() else "its end"
    return InputError(f"a path cannot be read at {told}: save the drawing again")


class _Drawn:
    """A pen that follows the commands."""

    def __init__(self) -> None:
        self.lines: list[tuple[Array, ...]] = []
        self._runs: list[Array] = []
        self._straight: list[Place] = []
        self._cubics: list[tuple[Place, Place, Place, Place]] = []
        self._at: Place = (0.0, 0.0)
        self._begin: Place = (0.0, 0.0)
        self._handle: tuple[str, Place] = ("", (0.0, 0.0))
        self._count = 0

    def draw(self, letter: str, given: list[float]) -> None:
        """Carry out one command."""
        self._count += 1
        if self._count > MOST_POINTS:
            raise InputError(f"the drawing has more than {MOST_POINTS:,} points: save the pattern's pieces alone")
        kind, (x0, y0) = letter.upper(), self._at if letter.islower() else (0.0, 0.0)
        handle, self._handle = self._handle, ("", (0.0, 0.0))
        if kind == "M":
            self.lift()
            self._at = self._begin = (x0 + given[0], y0 + given[1])
        elif kind == "Z":
            if self._at != self._begin:
                self._line(self._begin)
            self.lift()
            self._at = self._begin
        elif kind == "H":
            self._line((x0 + given[0], self._at[1]))
        elif kind == "V":
            self._line((self._at[0], y0 + given[0]))
        elif kind == "L":
            self._line((x0 + given[0], y0 + given[1]))
        elif kind == "A":
            self._arc(given, (x0 + given[5], y0 + given[6]))
        else:
            places = [(x0 + x, y0 + y) for x, y in zip(given[::2], given[1::2], strict=True)]
            self._bend(kind, places, handle)

    def lift(self) -> None:
        """End the line."""
        self._end_straight()
        self._end_cubics()
        if self._runs:
            self.lines.append(tuple(self._runs))
        self._runs = []

    def _line(self, to: Place) -> None:
        self._end_cubics()
        if not self._straight:
            self._straight = [self._at]
        self._straight.append(to)
        self._at = to

    def _cubic(self, b: Place, c: Place, to: Place) -> None:
        self._end_straight()
        self._cubics.append((self._at, b, c, to))
        self._at = to

    def _bend(self, kind: str, places: list[Place], handle: tuple[str, Place]) -> None:
        """C, S, Q and T: cubics, with a first handle that may mirror the last one."""
        a = self._at
        to = places[-1]
        if kind in "CS":
            b = places[0] if kind == "C" else _mirrored(a, handle, "C")
            self._handle = ("C", places[-2])
            self._cubic(b, places[-2], to)
            return
        q = places[0] if kind == "Q" else _mirrored(a, handle, "Q")
        self._handle = ("Q", q)
        self._cubic(_between(a, q), _between(to, q), to)

    def _arc(self, given: list[float], to: Place) -> None:
        rx, ry, tilt, large, swept = given[:5]
        if self._at == to:
            return
        if abs(rx) < 1e-12 or abs(ry) < 1e-12:
            self._line(to)
            return
        cubics = elliptic_arc(
            self._at, to, (abs(rx), abs(ry)), math.radians(math.fmod(tilt, 360.0)), large > 0, swept > 0
        )
        for _, b, c, d in cubics.tolist():
            self._cubic((b[0], b[1]), (c[0], c[1]), (d[0], d[1]))

    def _end_straight(self) -> None:
        if self._straight:
            self._runs.append(np.array(self._straight))
            self._straight = []

    def _end_cubics(self) -> None:
        if self._cubics:
            self._runs.append(np.array(self._cubics))
            self._cubics = []


def _mirrored(at: Place, handle: tuple[str, Place], kind: str) -> Place:
    if handle[0] != kind:
        return at
    return 2 * at[0] - handle[1][0], 2 * at[1] - handle[1][1]


def _between(end: Place, handle: Place) -> Place:
    """Two thirds of the way from an end to the handle of a curve of second degree."""
    return end[0] + 2 / 3 * (handle[0] - end[0]), end[1] + 2 / 3 * (handle[1] - end[1])


def elliptic_arc(a: Place, b: Place, radii: Place, tilt: float, large: bool, swept: bool) -> Array:
    """Cubics along the arc of an ellipse between two places, shape (n, 4, 2), as SVG defines it (appendix B.2.4)."""
    (rx, ry), c, s = radii, math.cos(tilt), math.sin(tilt)
    half = (a[0] - b[0]) / 2, (a[1] - b[1]) / 2
    x, y = c * half[0] + s * half[1], -s * half[0] + c * half[1]
    reach = math.hypot(x / rx, y / ry)
    if reach > 1:
        rx, ry = rx * reach, ry * reach
    u, v = x / rx, y / ry
    size = u * u + v * v
    share = math.sqrt(max(0.0, 1 / max(size, 1e-300) - 1)) * (1 if large != swept else -1)
    cu, cv = share * v, -share * u
    start, end = math.atan2(v - cv, u - cu), math.atan2(-v - cv, -u - cu)
    if swept and end <= start:
        end += 2 * math.pi
    if not swept and end >= start:
        end -= 2 * math.pi
    across, up = rx * np.array([c, s]), ry * np.array([-s, c])
    middle = np.array([(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]) + cu * across + cv * up
    cubics = arc_cubics(middle, across, up, start, end)
    cubics[0, 0], cubics[-1, 3] = a, b
    return cubics
