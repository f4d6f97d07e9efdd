"""What a drawing file holds, whatever its form: strokes, texts and points, with the names that the file gives them."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Final, Self

import numpy as np

from panelwright.errors import InputError
from panelwright.geometry.arrays import Array
from panelwright.intake.drawing_affine import Affine
from panelwright.intake.drawing_limits import usable

# Parts of an arc or a circle, each by one cubic: 45° are true to four millionths of the radius.
_PART: Final = np.pi / 4
_PREVIEW: Final = np.linspace(0.0, 1.0, 9)[1:]


@dataclass(frozen=True, eq=False)
class Stroke:
    """A line from one end to the other.

    Attributes:
        runs: one after another, each starting where the one before it ends: points that are joined straight, shape
            (m, 2), m ≥ 2, or cubics, shape (n, 4, 2).
        names: what the file calls it: its layer, its classes, nearest first.
        group: in which block or group it lies; empty: in none.
        own: its own name, `waist`; may be empty.
    """

    runs: tuple[Array, ...]
    names: tuple[str, ...] = ()
    group: str = ""
    own: str = ""

    @property
    def start(self) -> Array:
        """Where it starts, shape (2,)."""
        first = self.runs[0]
        place: Array = first[0] if first.ndim == 2 else first[0, 0]
        return place

    @property
    def end(self) -> Array:
        """Where it ends, shape (2,)."""
        last = self.runs[-1]
        place: Array = last[-1] if last.ndim == 2 else last[-1, 3]
        return place

    @cached_property
    def preview(self) -> Array:
        """Points along it for areas and boxes, eight to a cubic, shape (n, 2)."""
        return np.concatenate([self.start[None], *(_previewed(run) for run in self.runs)])

    @cached_property
    def length(self) -> float:
        """About its length."""
        return float(np.hypot(*np.diff(self.preview, axis=0).T).sum())

    @cached_property
    def middle(self) -> Array:
        """The place half-way along it, shape (2,)."""
        if len(self.preview) == 2:
            half: Array = (self.preview[0] + self.preview[1]) / 2
            return half
        arcs = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(self.preview, axis=0).T))])
        return np.array([np.interp(arcs[-1] / 2, arcs, self.preview[:, k]) for k in (0, 1)])

    @cached_property
    def is_straight(self) -> bool:
        """Whether it is one straight line, to a five-hundredth of its length."""
        along = self.end - self.start
        length = float(np.hypot(*along))
        if length < 1e-9 or self.length > 1.001 * length:
            return False
        if len(self.preview) == 2:
            return True
        across = (self.preview - self.start) @ np.array([-along[1], along[0]]) / length
        return bool(np.abs(across).max() < 0.002 * length)

    def gap(self) -> float:
        """Distance from its end to its start."""
        return float(np.hypot(*(self.end - self.start)))

    def reversed(self) -> Self:
        """The same line, run the other way."""
        turned = (run[::-1] if run.ndim == 2 else run[::-1, ::-1] for run in reversed(self.runs))
        return replace(self, runs=tuple(turned))

    def mapped(self, affine: Affine) -> Self:
        """The line after a map of the plane.

        Raises:
            InputError: if it ends up beyond use.
        """
        return replace(self, runs=tuple(usable(affine.points(run)) for run in self.runs))


def _previewed(run: Array) -> Array:
    if run.ndim == 2:
        return run[1:]
    t = _PREVIEW[None, :, None]
    s = 1 - t
    a, b, c, d = (run[:, None, k, :] for k in range(4))
    points: Array = (s**3 * a + 3 * s * s * t * b + 3 * s * t * t * c + t**3 * d).reshape(-1, 2)
    return points


@dataclass(frozen=True)
class Written:
    """A line of text and where it stands."""

    text: str
    at: tuple[float, float]
    names: tuple[str, ...] = ()
    group: str = ""


@dataclass(frozen=True)
class Dot:
    """A point that is drawn for itself; `own` is its name, which may be empty."""

    at: tuple[float, float]
    names: tuple[str, ...] = ()
    group: str = ""
    own: str = ""


@dataclass(frozen=True)
class GroupName:
    """What a file calls a group: a short name, and in words what it is; both may be empty."""

    short: str = ""
    words: str = ""


@dataclass(frozen=True, eq=False)
class LinesRead:
    """All that a drawing file holds and that can be part of a pattern, in the file's own unit, y up.

    Attributes:
        form: `DXF` or `SVG`.
        strokes, texts, dots: what is drawn.
        groups: key -> name of each block or group.
        unit: mm to one unit, as the file says; None: it does not say.
        unit_why: where the file says so, or why it may be so.
        metric: whether the file says that it counts in metric or in inches; None: it does not say.
        left_out: kind of thing -> how many of it cannot be part of a pattern.
    """

    form: str
    strokes: tuple[Stroke, ...]
    texts: tuple[Written, ...] = ()
    dots: tuple[Dot, ...] = ()
    groups: Mapping[str, GroupName] = field(default_factory=dict)
    unit: float | None = None
    unit_why: str = ""
    metric: bool | None = None
    left_out: Mapping[str, int] = field(default_factory=dict)

    def scaled(self, factor: float) -> Self:
        """Everything multiplied.

        Raises:
            InputError: if something ends up beyond use.
        """
        grown = Affine.scaling(factor, factor)

        def place(at: tuple[float, float]) -> tuple[float, float]:
            return at[0] * factor, at[1] * factor

        return replace(
            self,
            strokes=tuple(stroke.mapped(grown) for stroke in self.strokes),
            texts=tuple(replace(text, at=place(text.at)) for text in self.texts),
            dots=tuple(replace(dot, at=place(dot.at)) for dot in self.dots),
        )


def arc_cubics(centre: Array, across: Array, up: Array, start: float, end: float) -> Array:
    """Cubics along centre + cos(t) · across + sin(t) · up from t = start to end, shape (n, 4, 2), in eighths or less.

    Raises:
        InputError: if the turn is none or more than a few times round.
    """
    sweep = end - start
    if not 1e-12 < abs(sweep) < 4 * np.pi:
        raise InputError("an arc turns by nothing, or more than once round: save the drawing again")
    count = max(1, int(np.ceil(abs(sweep) / _PART - 1e-9)))
    t = start + sweep * np.arange(count + 1) / count
    handle = 4 / 3 * np.tan(sweep / count / 4)
    cos, sin = np.cos(t)[:, None], np.sin(t)[:, None]
    places = centre + cos * across + sin * up
    speeds = handle * (cos * up - sin * across)
    return np.stack([places[:-1], places[:-1] + speeds[:-1], places[1:] - speeds[1:], places[1:]], axis=1)


def without_length(runs: tuple[Array, ...]) -> bool:
    """Whether all of a line lies in one place."""
    points = np.concatenate([run.reshape(-1, 2) for run in runs])
    return bool(np.ptp(points, axis=0).max() < 1e-9)
