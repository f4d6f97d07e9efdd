"""A strap that is a strip of its own, sewn to the top edge before and behind, or led round the neck."""

from dataclasses import dataclass, replace
from typing import Final, Literal

import numpy as np

from panelwright.body.worded_length import length_words
from panelwright.design.strap_length import MIRROR, WornBlock
from panelwright.design.strap_panel import Half, StrapHalf, StrapPanel, turned
from panelwright.errors import DesignError
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.pattern.edge import Edge, EdgeKind
from panelwright.pattern.mark import Grain, Mark, as_point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Extent, Piece
from panelwright.pattern.seam import Seam, Span, SpanHand
from panelwright.pattern.working import Part

CLEAR: Final = 3.0  # mm of top edge between a strap's end and the centre or the next seam
SHIFTS: Final = (0.0, 5.0, -5.0, 10.0, -10.0, 15.0, -15.0, 22.0, -22.0, 30.0, -30.0, 40.0, -40.0)
GRAIN: Final = (0.15, 0.85)  # of the strip's length
Upper = Literal["back", "nape", "free", "other-front"]


@dataclass(frozen=True, eq=False)
class SewnPlace:
    """Where one end of a strap is sewn to the top edge of a half.

    Attributes:
        half: front or back.
        low, high: the stretch, mm from the princess seam along the top edge, outwards above 0.
    """

    half: StrapHalf
    low: float
    high: float

    def spans(self, hand: SpanHand) -> tuple[Span, ...]:
        """The stretch as spans of the top edges, from the centre outwards."""
        found: list[Span] = []
        for panel, edge, low, high in self._stretches():
            length = edge.curve.length
            ends = low / length, high / length
            if self.half.half == "back":  # the back lies turned over here
                ends = 1 - ends[0], 1 - ends[1]
            found.append(Span(panel.piece.id, edge.id, *ends, hand))
        return tuple(found)

    def middle_in_space(self, worn: WornBlock) -> Array:
        """Where the middle of the stretch lies on the wearer, shape (3,), mm."""
        return self._in_space((self.low + self.high) / 2, worn)

    def ends_in_space(self, worn: WornBlock) -> tuple[Array, Array]:
        """Where the end nearer to the centre and the other lie on the wearer, shape (3,) each, mm."""
        return self._in_space(self.low, worn), self._in_space(self.high, worn)

    def _in_space(self, along: float, worn: WornBlock) -> Array:
        panel, arc = self.half.place(along)
        point = panel.top.point(arc)
        flat = point if self.half.half == "front" else point * MIRROR[:2]
        return worn.place(panel.piece.id, flat)

    def marked(self, pattern: Pattern, uid: str) -> Pattern:
        """The pattern with a mark at both ends of the stretch."""
        for name, along in (("inner", self.low), ("outer", self.high)):
            panel, arc = self.half.place(along)
            piece = turned(pattern.piece(panel.piece.id), self.half.half)
            mark = Mark(f"{uid}-{self.half.half}-{name}", "point", as_point(panel.top.point(arc)))
            pattern = pattern.with_pieces(turned(replace(piece, marks=(*piece.marks, mark)), self.half.half))
        return pattern

    def _stretches(self) -> list[tuple[StrapPanel, Edge, float, float]]:
        """(panel, top edge, from, to) in mm from the edge's start, outwards."""
        found = []
        for panel, base in ((self.half.inner, -self.half.inner.top.length), (self.half.outer, 0.0)):
            for edge in panel.tops:
                low, high = max(self.low - base, 0.0), min(self.high - base, edge.curve.length)
                if high - low > 1e-6:
                    found.append((panel, edge, low, high))
                base += edge.curve.length
        return found


def sewn_place(half: StrapHalf, width: float, middle: float | None) -> SewnPlace:
    """Where a strap of that width is sewn on.

    Args:
        half: the panels.
        width: mm.
        middle: from the centre along the top edge, mm; None: on the princess seam, or as near as no corner of the top
            edge lies under the strap.

    Raises:
        DesignError: if it has no room there.
    """
    room = -half.inner.top.length + CLEAR, half.outer.top.length - CLEAR
    corners = [corner - half.inner.top.length for corner in half.inner.corners] + list(half.outer.corners)
    tries = SHIFTS if middle is None else (middle - half.inner.top.length,)
    for at in tries:
        low, high = at - width / 2, at + width / 2
        if room[0] <= low and high <= room[1] and not any(low < corner < high for corner in corners):
            return SewnPlace(half, low, high)
    raise DesignError(
        f"a strap {length_words(width)} wide has no room there on the {half.half} top edge, which runs "
        f"{length_words(room[1] - room[0])} from the centre over two panels; move it clear of centre, seams and "
        "corners, or make it narrower"
    )


def over_shoulder(
    front: SewnPlace, back: SewnPlace, shoulder: float, worn: WornBlock, crossed: bool
) -> tuple[Part, ...]:
    """What a strap reaches over, by a taut tape on the wearer."""
    top, behind = worn.shoulder(shoulder), back.middle_in_space(worn)
    way = (
        "across the back, from the shoulder to the other side's top edge"
        if crossed
        else ("behind, from the shoulder down to the back top edge")
    )
    return (
        Part("in front, from the front top edge up to the shoulder", worn.over(front.middle_in_space(worn), top)),
        Part(way, worn.over(behind * MIRROR if crossed else behind, top)),
    )


def round_neck(front: SewnPlace, worn: WornBlock, sides: int) -> tuple[Part, ...]:
    """What a halter reaches over, on one side of the wearer or on both."""
    up = worn.over(front.middle_in_space(worn), worn.shoulder(0.0))
    return (
        Part("in front, from the top edge up to the side of the neck", sides * up),
        Part("round the back of the neck", sides * worn.neck_behind()),
    )


@dataclass(frozen=True)
class Strip:
    """The strip itself, its lower end at the front.

    Attributes:
        id, label: of the piece.
        uid: of the step.
        length: mm.
        low, high: its width at the lower and the upper end, mm.
        upper: what becomes of the upper end: sewn to the `back`, to the other strip at the `nape`, left `free` to be
            tied, or sewn to the `other-front`.
    """

    id: str
    label: str
    uid: str
    length: float
    low: float
    high: float
    upper: Upper

    def piece(self) -> Piece:
        """The strip: its ends are square, and its sides leave them at right angles also where it tapers."""
        length, a, b = self.length, self.low / 2, self.high / 2
        corners = np.array([[-a, 0.0], [a, 0.0], [b, length], [-b, length]])
        up = np.array([0.0, length / 3])
        sides = [_side(corners[1], corners[2], up), _side(corners[3], corners[0], -up)]
        free: EdgeKind = "finished" if self.upper == "free" else "seam"
        edges = (
            self._edge("strap-front", "right", "seam", Curve.straight(corners[0], corners[1])),
            self._edge("strap-edge", "left", "finished", sides[0]),
            self._edge(self.upper_line, "left", free, Curve.straight(corners[2], corners[3])),
            replace(self._edge("strap-edge", "right", "finished", sides[1]), id=f"{self.id}.{self.uid}/strap-edge-2"),
        )
        extent: Extent = "whole" if self.upper == "other-front" else "one_side"
        grain = Grain(*((0.0, share * length) for share in GRAIN))
        return Piece.closed(edges, id=self.id, label=self.label, extent=extent, hand="both", grain=grain)

    @property
    def upper_line(self) -> str:
        """Slot of the upper end's line."""
        return {"back": "strap-back", "nape": "strap-nape", "free": "strap-end", "other-front": "strap-front-2"}[
            self.upper
        ]

    def _edge(self, slot: str, side: Literal["left", "right"], kind: EdgeKind, curve: Curve) -> Edge:
        return Edge(f"{self.id}.{self.uid}/{slot}", f"{self.uid}/{slot}", side, kind, curve)

    def seams(self, front: SewnPlace, back: SewnPlace | None, crossed: bool) -> tuple[Seam, ...]:
        """How its ends are sewn. The wearer's centre lies on the right of the strip, as it is drawn."""
        lower, upper = f"{self.id}.{self.uid}/strap-front", f"{self.id}.{self.uid}/{self.upper_line}"
        seams = [self._sewn("front", front.spans("same"), Span(self.id, lower, 1.0, 0.0), "front")]
        if self.upper == "back" and back is not None:
            # A strap that crosses comes down on the other side with its neck edge outwards.
            spans = back.spans("mirror" if crossed else "same")
            ends = (1.0, 0.0) if crossed else (0.0, 1.0)
            seams.append(self._sewn("back", spans, Span(self.id, upper, *ends), "back"))
        if self.upper == "other-front":
            # The other end of one strip: its centre edge is the same side of the strip.
            seams.append(self._sewn("front-left", front.spans("mirror"), Span(self.id, upper, 0.0, 1.0), "front"))
        if self.upper == "nape":
            one = Span(self.id, upper, 1.0, 0.0)
            seams.append(Seam(f"{self.id}.back", "join", (one,), (replace(one, hand="mirror"),), "back"))
        return tuple(seams)

    def _sewn(self, name: str, spans: tuple[Span, ...], end: Span, region: Half) -> Seam:
        return Seam(f"{self.id}.{name}", "attach", spans, (end,), region, blend=False)


def _side(start: Array, end: Array, up: Array) -> Curve:
    return Curve(np.array([[start, start + up, end - up, end]]))
