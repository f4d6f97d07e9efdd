"""What of a step can be taken hold of on the flat pieces, and what becomes of the step when it is moved."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

from panelwright.design.step import Step
from panelwright.design.track import Track
from panelwright.geometry.arrays import Array
from panelwright.pattern.mark import Point, as_point


@dataclass(frozen=True)
class Handle:
    """A place on a piece by which a step can be moved.

    Attributes:
        step: its uid.
        name: of the handle among those of its step: `centre`, `side`, `point 2`.
        label: in plain words: `height at centre front`.
        piece: id.
        track: what it runs on, `at` being its place now. Where a closure has taken a strip off the piece it may lie
            beside it.
        anywhere: it may be moved off its track too, to any place of its panel.
    """

    step: str
    name: str
    label: str
    piece: str
    track: Track
    anywhere: bool = False

    @cached_property
    def at(self) -> Point:
        """Where it is, mm on its piece."""
        return as_point(self.track.at)

    @cached_property
    def way(self) -> tuple[Point, Point]:
        """The straight, or nearly straight, stretch along which it moves; its track bends away beyond it."""
        return self.track.way()


@dataclass(frozen=True, eq=False)
class Grip:
    """A handle and the step after it was moved.

    Attributes:
        handle: the handle.
        moved: (place on its piece, whether to snap to levels) -> the step.
    """

    handle: Handle
    moved: Callable[[Array, bool], Step]


def tracked(step: Step, name: str, label: str, track: Track, changed: Callable[[float, bool], Step]) -> Grip:
    """A grip that keeps to its track; `changed` is the step for a number of the track and whether to snap."""
    handle = Handle(step.uid, name, label, track.piece, track)
    return Grip(handle, lambda to, snap: changed(track.nearest(to), snap))
