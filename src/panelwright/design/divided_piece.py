"""A piece divided along a line, without the pattern round it: its two parts, and what became of what it was made of."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

import numpy as np

from panelwright.body.worded_length import length_words
from panelwright.design.chain import EdgePart
from panelwright.design.outline_cut import CutOutline, OutlinePlace, cut_outline
from panelwright.design.remnant import Remnant, remnant
from panelwright.errors import DesignError, GeometryError
from panelwright.geometry.curve import Curve
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.edge import Edge, EdgeSide
from panelwright.pattern.line import Line
from panelwright.pattern.piece import Piece
from panelwright.pattern.spoken_piece import spoken_piece

KEPT = 256


@dataclass(frozen=True)
class PartName:
    """What one part of a split piece is called; it may keep the piece's own id."""

    id: str
    label: str


@dataclass(frozen=True, eq=False)
class DividedPiece:
    """A piece cut in two.

    Attributes:
        pieces: what lies on the line's left and on its right.
        remnants: the same, with what became of the inside lines.
        cut: ids of the new edges of each, in outline order.
        edges: what became of every edge of the outline.
        doubled: inside lines that both parts have whole, because they lie along the cut.
    """

    pieces: tuple[Piece, Piece]
    remnants: tuple[Remnant, Remnant]
    cut: tuple[tuple[str, ...], tuple[str, ...]]
    edges: Mapping[str, tuple[EdgePart, ...]]
    doubled: frozenset[str]


@lru_cache(maxsize=KEPT)
def divided(piece: Piece, cut: tuple[Curve, ...], line: Line, names: tuple[PartName, PartName]) -> DividedPiece:
    """The two parts of a piece; remembered by content, because most edits of a design leave most pieces alone.

    Args:
        piece: any piece.
        cut: curves end to end, in the sense of the new line, from one edge of the outline to another.
        line: the new line.
        names: of what lies on its left and on its right.

    Raises:
        DesignError: if the cut does not run from edge to edge, or crosses itself or the outline.
    """
    places, curves = _on_outline(piece, cut)
    left, left_cut = _part(piece, curves, places, line, names[0], "left")
    right, right_cut = _part(piece, curves, places, line, names[1], "right")
    doubled = left.whole & right.whole
    first, second = (
        tuple(edge.id for edge in outline.edges if edge.line == line.id) for outline in (left_cut, right_cut)
    )
    return DividedPiece(
        (left.piece(), right.piece(doubled)),
        (left, right),
        (first, second),
        {
            edge: tuple(sorted(left_cut.parts[edge] + right_cut.parts[edge], key=lambda part: part.low))
            for edge in left_cut.parts
        },
        doubled,
    )


def _place_on_outline(piece: Piece, point: np.ndarray) -> OutlinePlace:
    """The place on a piece's outline where a point lies.

    Raises:
        DesignError: if it is more than 0.05 mm off the outline.
    """
    # Only what is nearest within the accuracy of a polyline is looked at exactly.
    rough = [float(np.abs(_foot(edge.curve.polyline(), point)).min()) for edge in piece.edges]
    near = [edge for edge, gap in zip(piece.edges, rough, strict=True) if gap < min(rough) + TOLERANCES.seam]
    found = [(edge, *edge.curve.nearest(point)) for edge in near]
    edge, arc, gap = min(found, key=lambda each: each[2])
    if gap > TOLERANCES.seam:
        raise DesignError(
            f"a line that splits {spoken_piece(piece)} ends {length_words(gap, 2)} from its outline; run it "
            "from edge to edge",
            piece.id,
        )
    return OutlinePlace(edge.id, arc)


def _foot(polyline: np.ndarray, point: np.ndarray) -> np.ndarray:
    """How far a point is from each chord of a polyline, mm."""
    start, run = polyline[:-1], np.diff(polyline, axis=0)
    share = np.clip(((point - start) * run).sum(axis=1) / np.maximum((run * run).sum(axis=1), 1e-12), 0.0, 1.0)
    gaps: np.ndarray = np.linalg.norm(start + share[:, None] * run - point, axis=1)
    return gaps


def _on_outline(piece: Piece, cut: Sequence[Curve]) -> tuple[tuple[OutlinePlace, OutlinePlace], tuple[Curve, ...]]:
    """Where the cut starts and ends on the outline, and its curves drawn exactly to those places."""
    places = _place_on_outline(piece, cut[0].start), _place_on_outline(piece, cut[-1].end)
    start, end = (piece.edge(place.edge).curve.point(place.arc) for place in places)
    curves = [curve.ending_at(start=before.end) for before, curve in pairwise(cut)]
    curves = [cut[0].ending_at(start=start), *curves]
    curves[-1] = curves[-1].ending_at(end=end)
    return places, tuple(curves)


def _part(
    piece: Piece,
    curves: tuple[Curve, ...],
    places: tuple[OutlinePlace, OutlinePlace],
    line: Line,
    name: PartName,
    side: EdgeSide,
) -> tuple[Remnant, CutOutline]:
    """What lies on one side of the cut: its outline leaves the old one where the new edges start."""
    new = _edges(curves, line, name, side)
    leave, enter = places if side == "left" else places[::-1]
    outline = cut_outline(piece, leave, enter, new, rename=name.id)
    folded = any(edge.kind == "fold" for edge in outline.edges)
    extent = "one_side" if piece.extent == "half_on_fold" and not folded else piece.extent
    try:
        left = remnant(piece, outline.edges, curves, keep_levels=True, id=name.id, label=name.label, extent=extent)
        left.piece()
    except GeometryError as error:
        raise DesignError(
            f"the line does not split {spoken_piece(piece)} in two; run it inside the piece from edge to edge "
            f"({error})",
            piece.id,
        ) from error
    return left, outline


def _edges(curves: tuple[Curve, ...], line: Line, name: PartName, side: EdgeSide) -> tuple[Edge, ...]:
    lengths = [curve.length for curve in curves]
    shares = [0.0, *np.minimum(np.cumsum(lengths) / sum(lengths), 1.0).tolist()]
    shares[-1] = 1.0
    edges = [
        Edge(
            f"{name.id}.{line.id}" + (f"-{k + 1}" if k else ""), line.id, side, "seam",
            curve if side == "left" else curve.reversed(), (shares[k], shares[k + 1]),
        )
        for k, curve in enumerate(curves)
    ]  # fmt: skip
    return tuple(edges if side == "left" else edges[::-1])
