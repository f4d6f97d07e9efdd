"""What can be taken hold of on ties: their end, their height and their width."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from panelwright.design.body_chart import half_chart
from panelwright.design.edge_grips import upright_track
from panelwright.design.edge_place import UprightEdge
from panelwright.design.grip import Grip, tracked
from panelwright.design.moved_height import OFFSET_DIGITS, moved_on_line
from panelwright.design.position import Height
from panelwright.design.step import Step
from panelwright.design.tie import Tie
from panelwright.design.tie_shape import POINT
from panelwright.design.track import Track
from panelwright.geometry.arrays import Array, cross
from panelwright.pattern import level as levels
from panelwright.pattern.edge import Edge
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

AT_WAIST: Final = Height(levels.WAIST)
SHORTEST: Final = 20.0
LONGEST: Final = 3500.0  # mm of track
WIDEST: Final = 500.0  # mm
_ROUNDS: Final = 60


@dataclass(frozen=True, eq=False)
class _Strip:
    """The end of a tie as it lies on its piece: the tip in the middle, and the way along the tie."""

    piece: Piece
    tip: Array
    way: Array
    length: float

    def end_track(self) -> Track:
        """Along the middle of the tie, by its length."""
        return Track(
            self.piece.id, self.length, SHORTEST, LONGEST, lambda length: self.tip + (length - self.length) * self.way
        )


def tie_grips(step: Tie, pattern: Pattern, block: Pattern) -> Iterator[Grip]:
    """The end; the height where one tie has a height; the widths of an added tie.

    Args:
        step: the step.
        pattern: after the steps of the design.
        block: the unmodified block.
    """
    strip = _strip(step, pattern)
    if strip is None:
        return
    yield tracked(step, "end", "end of the tie", strip.end_track(), lambda length, _: _as_long(step, strip, length))
    if step.start == "side":
        yield from _height_behind(step, strip, pattern, block)
        return
    if step.count == 1:
        yield from _height_on_edge(step, pattern, block)
    yield from _widths(step, strip)


def _strip(step: Tie, pattern: Pattern) -> _Strip | None:
    """The first of the step's ties."""
    ends = pattern.pieces_on_line(f"{step.uid}/end")
    length = next((each.length for each in pattern.workings if each.id == f"{step.uid}/length"), None)
    if not ends or length is None:
        return None
    piece, first = ends[0]
    own: list[Edge] = [edge for each, edge in ends if each.id == piece.id]
    corners = np.array([first.curve.start, *(edge.curve.end for edge in own)])
    chord = corners[-1] - corners[0]
    way = np.array([chord[1], -chord[0]]) / np.linalg.norm(chord)  # the inside lies on the left of an outline
    return _Strip(piece, corners.mean(axis=0) if len(corners) == 2 else corners[1], way, length)


def _as_long(step: Tie, strip: _Strip, length: float) -> Step:
    """A given length is changed; a reckoned one stays reckoned, and the tail is."""
    if step.length is not None:
        return replace(step, length=round(length, OFFSET_DIGITS))
    return replace(step, tail=round(step.tail + length - strip.length, OFFSET_DIGITS))


def _height_behind(step: Tie, strip: _Strip, pattern: Pattern, block: Pattern) -> Iterator[Grip]:
    """Where the middle of a back that is a tie passes the centre back."""
    chart = half_chart(block)
    number = len(chart.panels)
    track = upright_track(chart, number, 0.0, pattern)
    if track is None or track.piece != strip.piece.id:
        return
    here = _crossing(track, strip)
    if here is None:
        return
    like = step.height or AT_WAIST
    yield tracked(
        step,
        "height",
        "height of the tie at centre back",
        replace(track, here=here),
        lambda arc, snap: replace(step, height=moved_on_line(chart, number, arc, like, snap)),
    )


def _crossing(track: Track, strip: _Strip) -> float | None:
    """The number on an upward track where it crosses the middle of the tie."""

    def beside(number: float) -> float:
        return float(cross(strip.way, track.point(number) - strip.tip))

    low, high = track.least, track.most
    sign = np.sign(beside(low))
    if sign == np.sign(beside(high)):
        return None
    for _ in range(_ROUNDS):
        middle = (low + high) / 2
        low, high = (middle, high) if np.sign(beside(middle)) == sign else (low, middle)
    return (low + high) / 2


def _height_on_edge(step: Tie, pattern: Pattern, block: Pattern) -> Iterator[Grip]:
    """The middle of an added tie on the edge that it is sewn to."""
    chart = half_chart(block)
    sewn = [seam.a[0] for seam in pattern.seams if any(span.edge.endswith(f".{step.uid}/seam") for span in seam.b)]
    if not sewn:
        return
    span, edge = sewn[0], pattern.edge(sewn[0])
    middle = (span.start + span.end) / 2 * edge.curve.length
    on_edge = UprightEdge(chart, pattern.piece(span.piece), edge)
    like = step.height or AT_WAIST

    def changed(arc: float, snap: bool) -> Step:
        return replace(step, height=moved_on_line(chart, on_edge.upright, on_edge.on_line(arc), like, snap))

    track = on_edge.track(middle if edge.along_line else edge.curve.length - middle)
    yield tracked(step, "height", "height of the tie on its edge", track, changed)


def _widths(step: Tie, strip: _Strip) -> Iterator[Grip]:
    """Of an added tie: where it is knotted, taken hold of at its sewn end, and at its other end where that differs."""
    across = np.array([strip.way[1], -strip.way[0]])
    start = strip.tip - strip.length * strip.way
    (sewn,) = strip.piece.on_line(f"{step.uid}/seam")
    track = Track(strip.piece.id, sewn.curve.length, 1.0, WIDEST, lambda width: start + width / 2 * across)
    yield tracked(
        step, "width", "width of the tie", track, lambda width, _: replace(step, width=round(width, OFFSET_DIGITS))
    )
    if step.end_width is None:
        return
    depth = POINT if step.end == "pointed" else 0.0
    at_end = Track(
        strip.piece.id,
        step.end_width,
        1.0,
        WIDEST,
        lambda width: strip.tip + width * (across / 2 - depth * strip.way),
    )
    yield tracked(
        step,
        "end width",
        "width of the tie at its end",
        at_end,
        lambda width, _: replace(step, end_width=round(width, OFFSET_DIGITS)),
    )
