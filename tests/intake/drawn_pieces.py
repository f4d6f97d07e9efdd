"""Pieces read off paper for tests: random ones, and a pattern drawn at quarter scale with an unsure hand."""

from dataclasses import replace

import numpy as np
from hypothesis import strategies as st

from panelwright.geometry.curve import Curve
from panelwright.geometry.placement import Placement
from panelwright.intake.drawn_edge import DrawnEdge
from panelwright.intake.drawn_pattern import DrawnPattern
from panelwright.intake.drawn_piece import DrawnNotch, DrawnPiece
from panelwright.intake.drawn_seam import DrawnSeam
from panelwright.intake.edge_ref import EdgeRef
from panelwright.intake.points_curve import curve_through
from panelwright.pattern.mark import Grain, InsideLine, Mark
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

NUMBER = st.floats(-900, 900, allow_nan=False)
NAME = st.text("abcdefgh-", min_size=1, max_size=8)
KINDS = st.sampled_from([None, "seam", "finished", "fold", "opening"])


@st.composite
def drawn_piece(draw: st.DrawFn, id: str) -> DrawnPiece:
    """A star-shaped outline of bent edges, with lines, notches and marks anywhere."""
    count = draw(st.integers(2, 6))
    radii = draw(st.lists(st.floats(20, 300), min_size=count, max_size=count))
    turns = np.arange(count) * 2 * np.pi / count
    corners = np.column_stack([np.cos(turns), np.sin(turns)]) * np.array(radii)[:, None]
    edges = []
    for a, b in zip(corners, np.roll(corners, -1, axis=0), strict=True):
        bend = draw(st.floats(2.0, 15.0))
        middle = (a + b) / 2 + bend * np.array([b[1] - a[1], a[0] - b[0]]) / np.hypot(*(b - a))
        curve = curve_through([a, middle, b]).ending_at(a, b)
        edges.append(DrawnEdge(curve, draw(KINDS), draw(st.one_of(st.just(""), NAME)), draw(st.booleans())))
    levels = [InsideLine(f"level-{k}", "level", _line(draw)) for k in range(draw(st.integers(0, 3)))]
    guides = [InsideLine(f"line-{k}", "guide", _line(draw)) for k in range(draw(st.integers(0, 2)))]
    grain = Grain((0.0, 0.0), (draw(NUMBER), 5.0)) if draw(st.booleans()) else None
    notches = tuple(DrawnNotch((draw(NUMBER), draw(NUMBER)), draw(st.integers(1, 3))) for _ in range(2))
    marks = (Mark("bust-point", "point", (draw(NUMBER), draw(NUMBER))),)
    extent = draw(st.sampled_from([None, "whole", "one_side", "half_on_fold"]))
    return DrawnPiece(id, draw(NAME), tuple(edges), grain, (*levels, *guides), notches, marks, extent)


def _line(draw: st.DrawFn) -> Curve:
    return Curve.straight((draw(NUMBER), 0.0), (draw(NUMBER), 7.0))


@st.composite
def drawn_patterns(draw: st.DrawFn) -> DrawnPattern:
    """Any pattern that a file can hold."""
    pieces = tuple(draw(drawn_piece(f"P{k}")) for k in range(draw(st.integers(1, 3))))
    seams = tuple(
        DrawnSeam(EdgeRef(piece.id, 0), EdgeRef(piece.id, len(piece.edges) - 1), draw(NAME)) for piece in pieces
    )
    allowance = draw(st.one_of(st.none(), st.floats(0, 60)))
    centimetre = draw(st.sampled_from(["garment", "paper"]))
    return DrawnPattern(pieces, draw(st.sampled_from([1.0, 4.0])), allowance, seams, centimetre, "own-1", draw(NAME))


def on_paper(
    pattern: Pattern, scale: float = 4.0, noise: float = 0.0, seed: int = 1, spacing: float = 8.0, named: bool = True
) -> DrawnPattern:
    """A pattern's outer pieces as a hand would draw and a ruler read them.

    Args:
        noise: each point is off by at most this in x and in y, mm of the paper.
        spacing: about, between the points of an edge, mm of the paper.
        named: whether lines, kinds and seams are told; folds and openings always are.
    """
    hand = np.random.default_rng(seed)
    pieces = tuple(
        _on_paper(piece, scale, noise, hand, spacing, named) for piece in pattern.pieces if piece.layer == "outer"
    )
    seams = []
    for seam in pattern.seams:
        if named and seam.kind == "join" and not seam.is_centre and len(seam.a) == len(seam.b):
            for pair in zip(seam.a, seam.b, strict=True):
                a, b = (EdgeRef(span.piece, pattern.piece(span.piece).index(span.edge)) for span in pair)
                seams.append(DrawnSeam(a, b, seam.id))
    return DrawnPattern(pieces, scale, 0.0, tuple(seams))


def _on_paper(
    piece: Piece, scale: float, noise: float, hand: np.random.Generator, spacing: float, named: bool
) -> DrawnPiece:
    corners = piece.vertices / scale + _off(hand, noise, (len(piece.edges), 2))
    edges = []
    for k, edge in enumerate(piece.edges):
        count = max(2, round(edge.curve.length / scale / spacing) + 1)
        points = np.array([edge.curve.point(s * edge.curve.length) for s in np.linspace(0, 1, count)]) / scale
        points += _off(hand, noise, points.shape)
        points[0], points[-1] = corners[k], corners[(k + 1) % len(corners)]
        told = named or edge.kind in ("fold", "opening") or edge.line in ("centre-front", "centre-back")
        edges.append(DrawnEdge(curve_through(points), edge.kind if told else None, edge.line if told else ""))
    inside = tuple(
        InsideLine(line.id, "level", _moved(line.curve.scaled(1 / scale), noise, hand))
        for line in piece.inside
        if line.kind == "level"
    )
    grain = Grain(*(tuple(np.array(end) / scale) for end in (piece.grain.start, piece.grain.end)))
    return DrawnPiece(piece.id, piece.label, tuple(edges), grain, inside)


def _off(hand: np.random.Generator, noise: float, shape: tuple[int, ...]) -> np.ndarray:
    """What a hand is off: two times in three by less than half of `noise`, never by more than it."""
    return np.clip(hand.normal(0.0, noise / 2, shape), -noise, noise)


def _moved(curve: Curve, noise: float, hand: np.random.Generator) -> Curve:
    """A level line read at five points."""
    points = np.array([curve.point(s * curve.length) for s in np.linspace(0.0, 1.0, 5)])
    return curve_through(points + _off(hand, noise, points.shape))


def shuffled(drawn: DrawnPattern, seed: int, named: bool, levels: bool) -> tuple[DrawnPattern, dict[EdgeRef, EdgeRef]]:
    """The pieces in another order, each lying anyhow on the paper and its outline begun at another corner.

    Returns:
        (the pattern without its seams, where each edge has gone).
    """
    hand = np.random.default_rng(seed)
    moved, pieces = {}, []
    for number, k in enumerate(hand.permutation(len(drawn.pieces))):
        piece = drawn.pieces[k]
        at = Placement(float(hand.uniform(-np.pi, np.pi)), *(float(x) for x in hand.uniform(-200, 200, 2)))
        first = int(hand.integers(len(piece.edges)))
        edges = tuple(replace(edge, curve=edge.curve.placed(at)) for edge in piece.edges)
        id = piece.id if named else f"piece-{number + 1}"
        for old in range(len(edges)):
            moved[EdgeRef(piece.id, old)] = EdgeRef(id, (old - first) % len(edges))
        inside = tuple(line.placed(at) for line in piece.inside) if levels else ()
        grain = piece.grain.placed(at) if piece.grain else None
        pieces.append(DrawnPiece(id, "", (*edges[first:], *edges[:first]), grain, inside))
    return replace(drawn, pieces=tuple(pieces), seams=()), moved
