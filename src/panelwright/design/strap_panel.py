"""A panel beside the same panel of the block to the shoulder: where a strap may grow, and where one is sewn on.

Front and back are looked at alike, the centre on the right and the side on the left: a back panel is turned over.
"""

import math
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise
from typing import Final, Literal

import numpy as np

from panelwright.design.panel_walk import MIRROR
from panelwright.design.position import spoken
from panelwright.design.shoulder_needed import block_to_shoulder
from panelwright.errors import DesignError
from panelwright.geometry.arrays import Array, turn
from panelwright.geometry.curve import Curve
from panelwright.geometry.placement import Placement
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern import line as lines
from panelwright.pattern.edge import Edge
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.spoken_piece import spoken_piece

Half = Literal["front", "back"]
SEAMS: Final[dict[Half, tuple[str, str]]] = {
    "front": (lines.CENTRE_FRONT, lines.FRONT_PRINCESS),
    "back": (lines.CENTRE_BACK, lines.BACK_PRINCESS),
}
CORNER: Final = math.radians(4.0)  # an edge that turns by less runs on


@dataclass(frozen=True, eq=False)
class StrapPanel:
    """One of the two panels of a half that meet in its princess seam.

    Attributes:
        piece: the pattern's piece.
        tops: its top edges, from the inside outwards.
        upright: the princess edge of the block to the shoulder, upwards.
        cut: arc position on `upright` where the top edge ends.
        shoulder: the block's shoulder edge, from the neck outwards; None where the panel does not reach it.
    """

    piece: Piece
    tops: tuple[Edge, ...]
    upright: Curve
    cut: float
    shoulder: Curve | None

    @cached_property
    def top(self) -> Curve:
        """The top edges as one curve, outwards."""
        curve = self.tops[0].curve
        for edge in self.tops[1:]:
            curve = curve.joined(edge.curve)
        return curve

    @property
    def rest(self) -> tuple[Edge, ...]:
        """The other edges of the outline, from where the top edges end."""
        k, count = self.piece.index(self.tops[-1].id) + 1, len(self.piece.edges)
        return tuple(self.piece.edges[(k + n) % count] for n in range(count - len(self.tops)))

    @cached_property
    def corners(self) -> tuple[float, ...]:
        """Arc positions on `top` where it turns sharply."""
        ends = np.cumsum([edge.curve.length for edge in self.tops])[:-1]
        return tuple(
            float(end)
            for end, (before, after) in zip(ends, pairwise(self.tops), strict=True)
            if abs(turn(before.curve.end_tangent, after.curve.start_tangent)) > CORNER
        )

    def raised_upright(self, arc: float) -> Curve:
        """The stretch of the princess line from the top edge up to an arc, run on straight beyond its end."""
        length = self.upright.length
        curve = self.upright.between(self.cut, min(arc, length))
        if arc > length + TOLERANCES.same_point:
            curve = curve.joined(Curve.straight(curve.end, curve.end + (arc - length) * curve.end_tangent))
        return curve

    def on_upright(self, arc: float) -> tuple[Array, Array]:
        """(place, upward direction) on the princess line, run on straight beyond its end."""
        point, way = self.upright.frame(arc)
        return point + max(0.0, arc - self.upright.length) * way, way


@dataclass(frozen=True, eq=False)
class StrapHalf:
    """The centre panel of the front or back and the panel beside it, both as the wearer's right front is drawn.

    Attributes:
        half: which.
        inner, outer: the panel at the centre and the one across the princess seam.
    """

    half: Half
    inner: StrapPanel
    outer: StrapPanel

    @property
    def seam(self) -> str:
        """The line between them."""
        return SEAMS[self.half][1]

    @property
    def middle(self) -> float:
        """Length of shoulder on the centre panel, mm from the neck."""
        return self.inner.shoulder.length if self.inner.shoulder else 0.0

    @property
    def shoulder(self) -> float:
        """Length of the whole shoulder, mm."""
        return self.middle + (self.outer.shoulder.length if self.outer.shoulder else 0.0)

    @property
    def reaches_shoulder(self) -> bool:
        """Whether the princess seam ends in the shoulder."""
        return self.outer.shoulder is not None

    def joined_at(self, arc: float) -> Placement:
        """Lays the outer panel beside the inner one so that they touch where the seam has this arc."""
        there, onto = self.outer.on_upright(arc), self.inner.on_upright(arc)
        return Placement.carrying(*there, *onto)

    def place(self, along: float) -> tuple[StrapPanel, float]:
        """(panel, arc on its top edge) at a distance outwards from the princess seam along the top edge."""
        return (self.inner, self.inner.top.length + along) if along < 0 else (self.outer, along)


def strap_half(pattern: Pattern, block: Pattern, half: Half, shoulder: bool = True) -> StrapHalf:
    """The two panels.

    Args:
        pattern: before the step.
        block: the unmodified block.
        half: which of them.
        shoulder: whether the strap has to know where the shoulder is; else a paper block without one will do.

    Raises:
        DesignError: if the block ends at the upper bust, or the pattern has no top edge yet, has a shoulder already,
            or no longer has these panels.
    """
    full = block_to_shoulder(block) if block.body or shoulder else block
    centre, seam = SEAMS[half]
    found = [full.pieces_on_line(centre)[0][0].id]
    found += [piece.id for piece, _ in full.pieces_on_line(seam) if piece.id != found[0]]
    inner, outer = (_panel(pattern, block, full, id, half, k) for k, id in enumerate(found))
    if abs(inner.cut - outer.cut) > TOLERANCES.seam:
        raise DesignError(f"the top edge does not run on across the {spoken(seam)} seam; draw it in one step", seam)
    return StrapHalf(half, inner, outer)


def turned(piece: Piece, half: Half) -> Piece:
    """The piece as the other half is drawn: a back piece turned over, and back again."""
    return piece if half == "front" else piece.placed(MIRROR)


def _panel(pattern: Pattern, block: Pattern, full: Pattern, id: str, half: Half, number: int) -> StrapPanel:
    seam = SEAMS[half][1]
    if not pattern.has_piece(id) or len(pattern.piece(id).on_line(seam)) != 1:
        raise DesignError(
            f"{spoken_piece(full.piece(id))} with its {spoken(seam)} edge is no longer there; put the strap before "
            "the step "
            "that joins or divides it; a back that is a tie takes a halter",
            id,
        )
    piece, whole = turned(pattern.piece(id), half), turned(full.piece(id), half)
    edge = piece.on_line(seam)[0]
    upright, low = whole.on_line(seam)[0].line_curve, block.piece(id).on_line(seam)[0].curve.length
    tops = _tops(pattern, piece, edge, number == 0)
    cut = min(edge.interval[1] * low, upright.length)
    if np.linalg.norm(upright.point(cut) - edge.line_curve.end) > TOLERANCES.seam:
        raise DesignError(
            f"the {spoken(seam)} edge of {spoken_piece(piece)} has moved; put the strap before the step that moved it",
            id,
        )
    shoulder = whole.on_line(lines.SHOULDER)
    return StrapPanel(piece, tops, upright, cut, shoulder[0].curve if shoulder else None)


def _tops(pattern: Pattern, piece: Piece, edge: Edge, before: bool) -> tuple[Edge, ...]:
    """The finished edges above the piece, from the inside outwards, beside its princess edge."""
    tops: list[Edge] = []
    neighbour = piece.before(edge) if before else piece.after(edge)
    while neighbour.kind == "finished" and len(tops) < len(piece.edges):
        tops = [neighbour, *tops] if before else [*tops, neighbour]
        neighbour = piece.before(neighbour) if before else piece.after(neighbour)
    if any("shoulder" in each.line for each in (neighbour, *piece.edges)):
        raise DesignError(
            f"{spoken_piece(piece)} reaches the shoulder already; leave one of the two steps out", piece.id
        )
    if not tops or any(pattern.line(each.line).origin == lines.BLOCK for each in tops):
        raise DesignError(f"{spoken_piece(piece)} has no top edge yet; put a top edge before the strap", piece.id)
    return tuple(tops)


def with_curve(edge: Edge, curve: Curve, top: float) -> Edge:
    """An upright edge that ends higher: `curve` upwards, `top` in units of the block's line."""
    return replace(edge, curve=curve if edge.along_line else curve.reversed(), interval=(edge.interval[0], top))
