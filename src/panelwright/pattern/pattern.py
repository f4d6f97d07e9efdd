"""A pattern: pieces, the seams between them, and the named lines and levels that run through them."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Final, Self, TypeVar

import numpy as np

from panelwright.errors import GeometryError
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.arm import Arm
from panelwright.pattern.closure import Closure
from panelwright.pattern.edge import Edge
from panelwright.pattern.level import Level
from panelwright.pattern.line import Line
from panelwright.pattern.notion import Notion
from panelwright.pattern.panel_on_body import PanelOnBody
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam, Span
from panelwright.pattern.working import Working

Named = TypeVar("Named", Seam, Level, Line)
# Stands for the wearer of a pattern that is for no one person.
NOBODY: Final = "nobody"


@dataclass(frozen=True)
class StepRecord:
    """An opaque trace of a step that made the pattern what it is."""

    uid: str
    kind: str
    label: str


@dataclass(frozen=True, repr=False)
class Pattern:
    """Pieces and how they are sewn; a value, never changed in place.

    Attributes:
        wearer: neutral reference of the wearer, never a name; `NOBODY` where it is for no one person.
        estimated: measurements that were not taken.
        steps: what was done to the block, in order.
        title: what the maker calls the garment, at the head of its sheets; empty: not known.
        closures: where it opens, as steps made it. A block's own centre-back opening is none until a step says how
            it is shut.
        notions: what steps ask for beside the cloth.
        workings: lengths that steps reckoned for this wearer.
        to_shoulder: of a block only: the same block up to neck, shoulder and armhole. Its panels have the ids and
            lie in the coordinates of this one's; a line that runs on upwards has there an interval that ends above
            1, in units of its length here.
        fitting: the wearer's fitting notes that the block was changed by, in order.
        strap_change: by how much they make straps longer than reckoned, mm (shorter: negative).
        arm: of a block only: the wearer's, for sleeves; None where the block knows of no wearer.
        body: of a block only: where each panel lies on the wearer, for straps and pictures.

    Raises:
        GeometryError: if ids repeat or something names what is not there.
    """

    pieces: tuple[Piece, ...]
    seams: tuple[Seam, ...]
    lines: tuple[Line, ...]
    levels: tuple[Level, ...]
    wearer: str = "stand"
    estimated: tuple[str, ...] = ()
    design: str = "block"
    steps: tuple[StepRecord, ...] = ()
    title: str = ""
    closures: tuple[Closure, ...] = ()
    notions: tuple[Notion, ...] = ()
    workings: tuple[Working, ...] = ()
    to_shoulder: Self | None = None
    fitting: tuple[StepRecord, ...] = ()
    strap_change: float = 0.0
    arm: Arm | None = None
    body: tuple[PanelOnBody, ...] = field(default=(), compare=False)

    def __post_init__(self) -> None:
        _unique("pieces", [piece.id for piece in self.pieces])
        _unique("seams", [seam.id for seam in self.seams])
        _unique("lines", [line.id for line in self.lines])
        _unique("levels", [level.id for level in self.levels])
        _unique("workings", [working.id for working in self.workings])
        _unique("edges", [edge.id for piece in self.pieces for edge in piece.edges])
        lines = {line.id for line in self.lines}
        for piece in self.pieces:
            for edge in piece.edges:
                if edge.line not in lines:
                    raise GeometryError(f"edge {edge.id} lies on {edge.line}, which is not a line of the pattern")
        for seam in self.seams:
            for span in seam.a + seam.b:
                if span.piece not in self._pieces or span.edge not in self._pieces[span.piece]._edges:
                    raise GeometryError(f"seam {seam.id} names {span.edge} of {span.piece}, which is not there")
        for level in self.levels:
            for step in level.path:
                if step.piece not in self._pieces or self._pieces[step.piece].inside_line(step.inside) is None:
                    raise GeometryError(f"level {level.id} names {step.inside} of {step.piece}, which is not there")

    @property
    def worn_by(self) -> str:
        """The wearer's reference, empty where it is for nobody."""
        return "" if self.wearer == NOBODY else self.wearer

    def __repr__(self) -> str:
        return f"Pattern({self.design!r} for {self.wearer!r}, {len(self.pieces)} pieces)"

    def __hash__(self) -> int:
        return self._hash

    @cached_property
    def _hash(self) -> int:
        made_by = self.design, self.steps, self.title
        beside = self.closures, self.notions, self.workings, self.to_shoulder, self.fitting, self.strap_change, self.arm
        return hash((self.pieces, self.seams, self.levels, self.wearer, self.estimated, *made_by, *beside))

    @cached_property
    def _pieces(self) -> dict[str, Piece]:
        return {piece.id: piece for piece in self.pieces}

    def piece(self, id: str) -> Piece:
        """The piece with this id; KeyError if there is none."""
        return self._pieces[id]

    def has_piece(self, id: str) -> bool:
        """Whether a piece has this id."""
        return id in self._pieces

    def seam(self, id: str) -> Seam:
        """The seam with this id; KeyError if there is none."""
        return _named(self.seams, id)

    def level(self, id: str) -> Level:
        """The level with this id; KeyError if there is none (or a neckline cut it open)."""
        return _named(self.levels, id)

    def has_level(self, id: str) -> bool:
        """Whether a level still runs whole through the pattern."""
        return any(level.id == id for level in self.levels)

    def line(self, id: str) -> Line:
        """The line with this id; KeyError if there is none."""
        return _named(self.lines, id)

    def edge(self, span: Span) -> Edge:
        """The edge that a span lies on."""
        return self._pieces[span.piece].edge(span.edge)

    def span_curve(self, span: Span) -> Curve:
        """The stretch of the edge that a span names, run in the span's direction."""
        edge = self.edge(span)
        length = edge.curve.length
        return edge.curve.between(span.start * length, span.end * length)

    def chain_length(self, chain: Iterable[Span]) -> float:
        """Length of one side of a seam, mm."""
        return float(sum(self.edge(span).curve.length * span.share for span in chain))

    def along_chain(self, chain: tuple[Span, ...], arc: float) -> tuple[Span, Array, Array]:
        """(span, point, outward normal) at an arc position along a chain, from the seam's start.

        The point and the unit normal (shape (2,), away from the piece) are in the span's piece.
        """
        for span in chain:
            edge = self.edge(span)
            reach = edge.curve.length * span.share
            if arc <= reach + TOLERANCES.same_point or span is chain[-1]:
                way = 1.0 if span.end > span.start else -1.0
                place = span.start * edge.curve.length + way * min(arc, reach)
                point, tangent = edge.curve.frame(place)
                return span, point, np.array([tangent[1], -tangent[0]])
            arc -= reach
        raise GeometryError("a seam chain has no spans")

    def pieces_on_line(self, line: str) -> tuple[tuple[Piece, Edge], ...]:
        """Every (piece, edge) that lies on a line."""
        return tuple((piece, edge) for piece in self.pieces for edge in piece.on_line(line))

    def level_place(self, edge: Edge, piece: Piece, level: str) -> float | None:
        """Where a level meets an edge of its piece: arc position in the *line's* direction, mm, or None.

        A level line ends on the edges that it meets, so the nearest of its ends is looked at, of each of its parts.
        """
        path = next((known.path for known in self.levels if known.id == level), ())
        names = [span.inside for span in path if span.piece == piece.id] or [level]
        ends = [
            end for name in names if (line := piece.inside_line(name)) for end in (line.curve.start, line.curve.end)
        ]
        if not ends:
            return None
        curve = edge.line_curve
        arc, gap = min((curve.nearest(end) for end in ends), key=lambda hit: hit[1])
        return arc if gap < TOLERANCES.seam else None

    def with_pieces(self, *pieces: Piece) -> Self:
        """The pattern with these pieces put in place of those with the same ids."""
        new = {piece.id: piece for piece in pieces}
        return replace(self, pieces=tuple(new.get(piece.id, piece) for piece in self.pieces))


def _named(things: tuple[Named, ...], id: str) -> Named:
    for thing in things:
        if thing.id == id:
            return thing
    raise KeyError(id)


def _unique(kind: str, ids: list[str]) -> None:
    if len(set(ids)) < len(ids):
        twice = next(id for id, times in Counter(ids).items() if times > 1)
        raise GeometryError(f"two {kind} share the id {twice}")
