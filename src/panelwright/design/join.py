"""Joining two pieces along a seam into one."""

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any, Literal

import numpy as np

from panelwright.body.worded_length import given_words, length_words
from panelwright.design.chain import EdgePart, Parts, rechained
from panelwright.design.position import spoken
from panelwright.design.remnant import bounded
from panelwright.errors import DesignError, GeometryError
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.geometry.placement import Placement
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.edge import Edge
from panelwright.pattern.level import LevelSpan
from panelwright.pattern.mark import InsideLine
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam, Span
from panelwright.pattern.spoken_piece import spoken_piece

Anchor = Literal["middle", "start", "end"]
MOST_MISFIT = 10.0  # mm between the ends of the two edges when they are laid on each other


@dataclass(frozen=True)
class _Side:
    """One side of the seam: its piece, its edges in outline order, and its two ends from the seam's start."""

    piece: Piece
    edges: tuple[Edge, ...]
    start: Array
    end: Array
    along: bool

    def at(self, anchor: Anchor) -> Array:
        """The place of the seam that is laid on the other side's."""
        ends = {"start": self.start, "end": self.end}
        return ends[anchor] if anchor in ends else (self.start + self.end) / 2

    @property
    def others(self) -> tuple[Edge, ...]:
        """The rest of the outline, from where the seam's edges end."""
        count = len(self.piece.edges)
        first = self.piece.index(self.edges[-1].id) + 1
        return tuple(self.piece.edges[(first + k) % count] for k in range(count - len(self.edges)))


def join_pieces(
    pattern: Pattern, seam: str, first: str, label: str, anchor: Anchor = "middle", guides: bool = True
) -> Pattern:
    """The pattern with the two pieces of a seam made one; it keeps the first one's id, place and grain.

    The second piece is laid with its end of the seam on the first one's: middle on middle, chord along chord. The
    edges need not fit each other in between: the old seam stays as a guide line where the first piece has it. Where
    the edges differ in length, the second piece's neighbouring edges are drawn to the first one's corners, and seams
    that they belong to state the difference as ease.

    Args:
        pattern: any pattern.
        seam: id of the seam.
        first: id of the piece that stays where it is.
        label: of the joined piece.
        anchor: what of the seam is laid on itself exactly: its middle, its start or its end.
        guides: whether the old seam stays as a guide line.

    Raises:
        DesignError: if the seam does not join just two pieces along whole edges, their ends lie more than 10 mm apart,
            or the second piece is cut on a fold.
    """
    joined = pattern.seam(seam)
    sides = [_side(pattern, joined, chain) for chain in (joined.a, joined.b)]
    if first not in (side.piece.id for side in sides) or sides[0].piece.id == sides[1].piece.id:
        raise DesignError(f"the {seam} seam does not join {first} to another piece", seam)
    keeper, other = sides if sides[0].piece.id == first else sides[::-1]
    if any(edge.kind == "fold" for edge in other.piece.edges):
        raise DesignError(
            f"{spoken_piece(other.piece)} is cut on the fold, which sets its grain; join "
            f"{spoken_piece(keeper.piece)} to it instead",
            other.piece.id,
        )
    placement = _laid_on(keeper, other, anchor)
    piece, renamed = _one_piece(keeper, other, placement, label, guides)
    parts: Parts = {edge.id: (EdgePart(first, edge.id),) for edge in other.piece.edges}
    pieces = tuple(piece if p.id == first else p for p in pattern.pieces if p.id != other.piece.id)
    bare = replace(pattern, pieces=pieces, seams=(), levels=())
    moved = {other.others[0].id, other.others[-1].id}
    seams = tuple(_resewn(bare, each, parts, moved) for each in pattern.seams if each.id != seam)
    levels = tuple(
        replace(level, path=tuple(_renamed(step, other.piece.id, first, renamed) for step in level.path))
        for level in pattern.levels
    )
    return replace(bare, seams=seams, levels=levels)


def _side(pattern: Pattern, seam: Seam, chain: tuple[Span, ...]) -> _Side:
    pieces = {span.piece for span in chain}
    whole = all(span.share == 1.0 and span.hand == "same" for span in chain)
    if seam.kind != "join" or len(pieces) != 1 or not whole:
        raise DesignError(f"the {seam.id} seam does not join two pieces along whole edges", seam.id)
    piece = pattern.piece(chain[0].piece)
    along = chain[0].end > chain[0].start
    edges = tuple(piece.edge(span.edge) for span in (chain if along else chain[::-1]))
    if any(piece.after(edge).id != following.id for edge, following in pairwise(edges)):
        raise DesignError(
            f"the {spoken(seam.id)} seam does not run along neighbouring edges of {spoken_piece(piece)}", seam.id
        )
    low, high = edges[0].curve.start, edges[-1].curve.end
    return _Side(piece, edges, low if along else high, high if along else low, along)


def _laid_on(keeper: _Side, other: _Side, anchor: Anchor) -> Placement:
    """The placement that lays the second side on the first, chord along chord."""
    if keeper.along == other.along:
        raise DesignError(
            f"the outlines of {spoken_piece(keeper.piece)} and {spoken_piece(other.piece)} do not face each other",
            other.piece.id,
        )
    placement = Placement.carrying(
        other.at(anchor), other.end - other.start, keeper.at(anchor), keeper.end - keeper.start
    )
    misfit = max(
        float(np.linalg.norm(placement.points(theirs) - ours))
        for theirs, ours in ((other.start, keeper.start), (other.end, keeper.end))
    )
    if misfit > MOST_MISFIT:
        raise DesignError(
            f"the edges of {spoken_piece(keeper.piece)} and {spoken_piece(other.piece)} end {length_words(misfit)} "
            "apart when "
            f"laid together; true them to within {given_words(MOST_MISFIT)} first",
            other.piece.id,
        )
    return placement


def _one_piece(
    keeper: _Side, other: _Side, placement: Placement, label: str, guided: bool
) -> tuple[Piece, dict[str, str]]:
    """The joined piece, and the second piece's inside lines that had to be renamed: old id -> new."""
    moved, own = other.piece.placed(placement), keeper.others
    added = [edge.placed(placement) for edge in other.others]
    added[0] = replace(added[0], curve=drawn_to(added[0].curve, start=own[-1].curve.end))
    added[-1] = replace(added[-1], curve=drawn_to(added[-1].curve, end=own[0].curve.start))
    guides = [InsideLine(edge.line, "guide", edge.line_curve) for edge in keeper.edges] if guided else []
    inside, renamed = _inside(keeper.piece.inside, moved.inside, guides)
    marks = {mark.id for mark in keeper.piece.marks}
    extra = tuple(replace(m, id=f"{m.id}-2") if m.id in marks else m for m in moved.marks)
    try:
        piece = replace(
            keeper.piece,
            label=label,
            **_extent(keeper.piece, other.piece),
            edges=(*own, *added),
            inside=inside,
            marks=keeper.piece.marks + extra,
            material=bounded(keeper.piece) + bounded(moved),
        )
    except GeometryError as error:
        raise DesignError(
            f"{spoken_piece(keeper.piece)} and {spoken_piece(other.piece)} make no single piece ({error})"
        ) from error
    return piece, renamed


def _inside(
    own: tuple[InsideLine, ...], added: tuple[InsideLine, ...], guides: list[InsideLine]
) -> tuple[tuple[InsideLine, ...], dict[str, str]]:
    lines, renamed = list(own), {}
    for line in (*added, *guides):
        taken = {each.id for each in lines}
        id = next(name for name in (line.id, *(f"{line.id}-{k}" for k in range(2, 99))) if name not in taken)
        if id != line.id and line in added:
            renamed[line.id] = id
        lines.append(replace(line, id=id))
    return tuple(lines), renamed


def _extent(keeper: Piece, other: Piece) -> dict[str, Any]:
    """A right and a left piece make a whole one; else the piece stays what the first one was."""
    return {"extent": "whole", "hand": "both"} if {keeper.hand, other.hand} == {"right", "left"} else {}


def drawn_to(curve: Curve, start: Array | None = None, end: Array | None = None) -> Curve:
    """The curve with an end moved to a point; the control point beside it moves along, so its direction stays."""
    cubics = curve.cubics.copy()
    if start is not None:
        cubics[0, :2] += start - cubics[0, 0]
        cubics[0, 0] = start
    if end is not None:
        cubics[-1, 2:] += end - cubics[-1, 3]
        cubics[-1, 3] = end
    return Curve(cubics)


def _resewn(bare: Pattern, seam: Seam, parts: Parts, moved: set[str]) -> Seam:
    """The seam on the joined piece; where an edge of it was drawn to another corner, the difference is its ease."""
    a, b = rechained(seam.a, parts), rechained(seam.b, parts)
    ease = seam.ease
    if seam.kind != "closure" and any(span.edge in moved for span in seam.a + seam.b):
        difference = bare.chain_length(b) - bare.chain_length(a) * seam.ratio
        ease = difference if abs(difference - ease) > TOLERANCES.same_point else ease
    return replace(seam, a=a, b=b, ease=ease)


def _renamed(step: LevelSpan, old: str, new: str, lines: dict[str, str]) -> LevelSpan:
    return replace(step, piece=new, inside=lines.get(step.inside, step.inside)) if step.piece == old else step
