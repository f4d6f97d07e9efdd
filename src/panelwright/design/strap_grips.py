"""What can be taken hold of on straps that are strips: where they are sewn to the top edge, and their width."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from panelwright.design.grip import Grip, tracked
from panelwright.design.moved_height import OFFSET_DIGITS
from panelwright.design.step import Step
from panelwright.design.strap import Strap
from panelwright.design.strap_panel import SEAMS, Half
from panelwright.design.track import Track
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.pattern import line as lines
from panelwright.pattern.edge import Edge
from panelwright.pattern.mark import Point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

WIDEST: Final = 200.0
LONGEST: Final = 1500.0  # mm of track


def strap_grips(step: Strap, pattern: Pattern) -> Iterator[Grip]:
    """Where a strip is sewn on in front and behind, its length and its width.

    Args:
        step: a strap that is a strip, sewn on or led round the neck.
        pattern: after the steps of the design.
    """
    ends = pattern.pieces_on_line(f"{step.uid}/strap-front")
    if not ends:
        return
    yield from _feet(step, pattern)
    strip = ends[0][0]
    yield _length(step, pattern, strip)
    yield from _widths(step, strip)


def _feet(step: Strap, pattern: Pattern) -> Iterator[Grip]:
    front, back = _foot_track(step, pattern, "front"), _foot_track(step, pattern, "back")
    if front is not None:
        label = "where the strap is sewn on in front"
        yield tracked(step, "front", label, front, lambda at, _: replace(step, at_front=round(at, OFFSET_DIGITS)))
    if back is not None:
        label = "where the strap is sewn on behind"
        yield tracked(step, "back", label, back, lambda at, _: replace(step, at_back=round(at, OFFSET_DIGITS)))


def _foot_track(step: Strap, pattern: Pattern, half: Half) -> Track | None:
    """Along the top edge of the panel that holds the middle of the strap's end, by mm from the centre."""
    seam = SEAMS[half][1]
    tops = [_Top.beside(piece, edge) for piece, edge in pattern.pieces_on_line(seam) if piece.layer == "outer"]
    marks = {mark.id: (piece.id, mark.at) for piece in pattern.pieces for mark in piece.marks}
    ends = [marks.get(f"{step.uid}-{half}-{name}") for name in ("inner", "outer")]
    inner = next((top for top in tops if top and top.inner), None)
    outer = next((top for top in tops if top and not top.inner), None)
    if inner is None or outer is None:
        return None
    found = [_along(inner, outer, *end) for end in ends if end]
    if len(found) < 2:
        return None
    middle, seam_at = sum(found) / 2, outer.from_centre(half)
    top = inner if middle < 0 else outer

    def course(at: float) -> Array:
        return top.curve.point(abs(at - seam_at))

    least, most = (seam_at - top.curve.length, seam_at) if top.inner else (seam_at, seam_at + top.curve.length)
    return Track(top.piece, seam_at + middle, least, most, course)


@dataclass(frozen=True, eq=False)
class _Top:
    """The top edge of one of the two panels beside a princess seam.

    Attributes:
        piece: id.
        inner: whether it is the panel at the centre.
        edges: from the seam on.
        curve: the same as one, away from the seam.
    """

    piece: str
    inner: bool
    edges: tuple[Edge, ...]
    curve: Curve

    @classmethod
    def beside(cls, piece: Piece, seam: Edge) -> "_Top | None":
        """The finished edges above a piece from its seam's upper end on; None if there are none."""
        edges: list[Edge] = []
        edge = piece.after(seam) if seam.along_line else piece.before(seam)
        while edge.kind == "finished" and len(edges) < len(piece.edges):
            edges.append(edge)
            edge = piece.after(edge) if seam.along_line else piece.before(edge)
        if not edges:
            return None
        curves = [each.curve if seam.along_line else each.curve.reversed() for each in edges]
        curve = curves[0]
        for each in curves[1:]:
            curve = curve.joined(each)
        return cls(piece.id, edge.line in (lines.CENTRE_FRONT, lines.CENTRE_BACK), tuple(edges), curve)

    def from_centre(self, half: Half) -> float:
        """mm from the centre to the seam along the line, as the line was drawn; of the outer panel, whose edges no
        closure of a centre changes."""
        spans = [edge.interval for edge in self.edges]
        whole = self.curve.length / sum(high - low for low, high in spans)
        first = min(low for low, _ in spans) if half == "front" else 1.0 - max(high for _, high in spans)
        return first * whole


def _along(inner: _Top, outer: _Top, piece: str, at: Point) -> float:
    """mm outwards from the seam along the top edge."""
    return -inner.curve.nearest(at)[0] if piece == inner.piece else outer.curve.nearest(at)[0]


def _length(step: Strap, pattern: Pattern, strip: Piece) -> Grip:
    """The upper end. A strap that is tied and of reckoned length stays so, and its tail is changed."""
    length = next(each.length for each in pattern.workings if each.id == f"{step.uid}/length")

    def changed(to: float, _: bool) -> Step:
        if step.length is None and step.type == "halter" and step.nape == "tie":
            return replace(step, tail=round(step.tail + to - length, OFFSET_DIGITS))
        return replace(step, length=round(to, OFFSET_DIGITS))

    return tracked(step, "end", "length of the strap", _upwards(strip, length, 0.0), changed)


def _upwards(strip: Piece, length: float, beside: float) -> Track:
    return Track(strip.id, length, 1.0, LONGEST, lambda up: np.array([beside, up]))


def _widths(step: Strap, strip: Piece) -> Iterator[Grip]:
    """At the front end, where a strap without a width of its foot is as wide as above."""
    low = strip.on_line(f"{step.uid}/strap-front")[0].curve.length
    track = Track(strip.id, low, 1.0, WIDEST, lambda width: np.array([width / 2, 0.0]))
    if step.foot_width is None:
        label = "width of the strap"
        yield tracked(step, "width", label, track, lambda width, _: replace(step, width=round(width, OFFSET_DIGITS)))
    else:
        label = "width of the strap at its foot"
        yield tracked(
            step, "foot", label, track, lambda width, _: replace(step, foot_width=round(width, OFFSET_DIGITS))
        )
