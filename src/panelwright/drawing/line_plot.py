"""A plot of lines over two axes: each runs level from a point to the next and is named at its end."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import floor, log10
from typing import Final

import numpy as np

from panelwright.drawing.drawing import Drawing, Fill, Lettering, Sign, Stroke
from panelwright.drawing.page_flow import Strip
from panelwright.drawing.path import Path
from panelwright.drawing.pen import HAIRLINE, RULE, Pen
from panelwright.drawing.typeface import typeface
from panelwright.geometry.arrays import Array

WORDS: Final = 2.6
DOT: Final = 0.9
_LINE: Final = 0.45
_TICKS: Final = 7
_LEADING: Final = 1.25


@dataclass(frozen=True, eq=False)
class Series:
    """One line.

    Attributes:
        name: stands at its right end.
        points: shape (n, 2), in the units of the axes, from left to right.
        dash: of its pen.
        hollow: its points are rings, not dots.
    """

    name: str
    points: Array
    dash: tuple[float, ...] = ()
    hollow: bool = False


def line_plot(lines: Sequence[Series], across: str, up: str, width: float, height: float) -> Strip:
    """The plot as a strip `width` mm wide and `height` mm high; the upright axis begins at 0.

    Args:
        lines: at least one point among them.
        across: what the axis below tells, with its unit.
        up: what the upright axis tells.
        width, height: mm.
    """
    points = np.concatenate([line.points for line in lines])
    high = _above(float(points[:, 1].max()))
    left = 2.0 + typeface().width(f"{high:g}", WORDS)
    right = width - 3.0 - max(typeface().width(line.name, WORDS) for line in lines)
    frame = _Frame(left, -height + 9.0, right, -6.0, float(points[:, 0].min()), float(points[:, 0].max()), high)
    signs = [*_axes(frame, across, up), *(sign for line in lines for sign in _line(frame, line)), *_names(frame, lines)]
    return Strip(Drawing(tuple(signs)), height)


@dataclass(frozen=True)
class _Frame:
    """Where the axes lie, mm, and what they tell."""

    left: float
    bottom: float
    right: float
    top: float
    least: float
    most: float
    high: float

    def at(self, points: Array) -> Array:
        """Places of values, shape (..., 2)."""
        span = max(self.most - self.least, 1e-9)
        scale = np.array([(self.right - self.left) / span, (self.top - self.bottom) / self.high])
        placed: Array = np.array([self.left, self.bottom]) + (points - np.array([self.least, 0.0])) * scale
        return placed


def _step(span: float) -> float:
    """1, 2 or 5 times a power of ten: about `_TICKS` of it make the span."""
    rough = max(span, 1e-9) / _TICKS
    power: float = 10.0 ** floor(log10(rough))
    return next(power * k for k in (1.0, 2.0, 5.0, 10.0) if power * k >= rough * 0.999)


def _above(most: float) -> float:
    """The first tick at or above a value."""
    step = _step(most)
    return float(np.ceil(most / step - 1e-9)) * step or step


def _axes(frame: _Frame, across: str, up: str) -> list[Sign]:
    signs: list[Sign] = [Lettering(up, (0.0, frame.top + 2.6), WORDS, "sheet")]
    for value in np.arange(0.0, frame.high * 1.0001, _step(frame.high)):
        y = float(frame.at(np.array([frame.least, value]))[1])
        signs.append(Stroke(Path.polyline([(frame.left, y), (frame.right, y)]), HAIRLINE if value else RULE, "sheet"))
        signs.append(Lettering(f"{value:g}", (frame.left - 1.2, y - 0.33 * WORDS), WORDS, "sheet", anchor="right"))
    step = _step(frame.most - frame.least)
    for value in np.arange(np.ceil(frame.least / step - 1e-9) * step, frame.most + 1e-6, step):
        x = float(frame.at(np.array([value, 0.0]))[0])
        signs.append(Stroke(Path.polyline([(x, frame.bottom), (x, frame.bottom - 1.2)]), HAIRLINE, "sheet"))
        signs.append(Lettering(f"{value:g}", (x, frame.bottom - 1.6 - WORDS), WORDS, "sheet", anchor="middle"))
    middle = (frame.left + frame.right) / 2
    return [*signs, Lettering(across, (middle, frame.bottom - 2.4 - 2 * WORDS), WORDS, "sheet", anchor="middle")]


def _line(frame: _Frame, line: Series) -> list[Sign]:
    places = frame.at(line.points)
    signs: list[Sign] = []
    if len(places) > 1:
        corners = np.stack([places[1:, 0], places[:-1, 1]], axis=1)
        steps = np.concatenate([places[:1], np.stack([corners, places[1:]], axis=1).reshape(-1, 2)])
        signs.append(Stroke(Path.polyline(steps), Pen(_LINE, line.dash), "sheet"))
    for place in places:
        dot = Path.circle(place, DOT)
        signs.append(Fill(dot, 1.0 if line.hollow else 0.0, "sheet"))
        signs.append(Stroke(dot, Pen(0.3), "sheet"))
    return signs


def _names(frame: _Frame, lines: Sequence[Series]) -> list[Sign]:
    """The names at the lines' ends, kept clear of one another."""
    drawn = [line for line in lines if len(line.points)]
    ends = {id(line): frame.at(line.points[-1]) for line in drawn}
    signs: list[Sign] = []
    free = -np.inf
    for line in sorted(drawn, key=lambda line: float(ends[id(line)][1])):
        x, y = ends[id(line)]
        y = max(float(y) - 0.33 * WORDS, free)
        signs.append(Lettering(line.name, (float(x) + 2.0, y), WORDS, "sheet"))
        free = y + _LEADING * WORDS
    return signs
