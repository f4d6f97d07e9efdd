"""What of a step can be taken hold of on the flat pieces, and what becomes of the step when it is moved."""

from collections.abc import Callable
from dataclasses import dataclass

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
        at: where it is, mm on that piece. Where a closure has taken a strip off the piece it may lie beside it.
        way: the straight, or nearly straight, stretch along which it moves; its track bends away beyond it.
        anywhere: it may be moved off that stretch too, to any place of its panel.
    """

    step: str
    name: str
    label: str
    piece: str
    at: Point
    way: tuple[Point, Point]
    anywhere: bool = False


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
    handle = Handle(step.uid, name, label, track.piece, as_point(track.at), track.way())
    return Grip(handle, lambda to, snap: changed(track.nearest(to), snap))
