"""Blocks of the demo drawn at quarter scale, photographed and read: which seams are suggested, and which there are."""

from collections.abc import Sequence

import numpy as np
import shapely
from design.demo_garments import demo_garment
from intake.drawn_pieces import on_paper
from intake.photo_compare import compared, outline_of
from intake.photo_truth import PaperPiece, laid_out
from intake.rendered_photo import Scene, jpeg, render

from panelwright.geometry.arrays import Array
from panelwright.intake.drawn_pattern import DrawnPattern
from panelwright.intake.drawn_piece import DrawnPiece
from panelwright.intake.edge_ref import EdgeRef
from panelwright.intake.photo import read_photo
from panelwright.intake.seam_partners import suggested_seams
from panelwright.pattern.pattern import Pattern

Pairs = set[frozenset[tuple[str, int]]]


def on_table(piece: DrawnPiece) -> PaperPiece:
    """A drawn piece as paper with its grain, levels and fold on it."""
    corners = np.array([edge.curve.start for edge in piece.edges])
    levels = tuple(line.curve.polyline() for line in piece.inside if line.kind == "level")
    grain = () if piece.grain is None else (np.array([piece.grain.start, piece.grain.end]),)
    folds = [np.array([e.curve.start, e.curve.end]) for e in piece.edges if e.kind == "fold"]
    return PaperPiece(outline_of(piece), corners, (*grain, *levels), (), levels, folds[0] if folds else None)


def partners(ref: str, seed: int, table: str) -> tuple[Pairs, Pairs]:
    """(true pairs of edges, suggested ones) of a demo's block read from one photo; edges by true piece and number."""
    pattern = demo_garment(ref).block
    drawn = on_paper(pattern, spacing=5.0)
    rng = np.random.default_rng(seed)
    laid = laid_out([on_table(piece) for piece in drawn.pieces], rng, 12.0, 130.0)
    pixels, _ = render(Scene(tuple(laid), table=table, tilt=rng.uniform(0, 20), seed=seed))
    found = read_photo(jpeg(pixels, 90))
    fits = compared(found.pieces, [on_table(piece) for piece in drawn.pieces])
    names = {}
    for piece, fit in zip(found.pieces, fits, strict=True):
        true = drawn.pieces[fit.truth]
        for number, edge in enumerate(piece.edges):
            place = fit.moved(edge.curve.point(edge.curve.length / 2)[None])[0]
            names[EdgeRef(piece.id, number)] = (true.id, nearest_edge(true.edges, place))
    read = DrawnPattern(found.pieces, 4.0)
    pairs = {frozenset((names[each.seam.a], names[each.seam.b])) for each in suggested_seams(read)}
    return true_pairs(pattern), pairs


def nearest_edge(edges: Sequence[object], place: Array) -> int:
    away = [shapely.LineString(edge.curve.polyline(0.01)).distance(shapely.Point(place)) for edge in edges]  # type: ignore[attr-defined]
    return int(np.argmin(away))


def true_pairs(pattern: Pattern) -> Pairs:
    """Whole edges that are joined."""
    found = set()
    for seam in pattern.seams:
        whole = all(span.share > 0.999 for span in seam.a + seam.b)
        if whole and seam.kind == "join" and not seam.is_centre and len(seam.a) == len(seam.b):
            for pair in zip(seam.a, seam.b, strict=True):
                found.add(frozenset((s.piece, pattern.piece(s.piece).index(s.edge)) for s in pair))
    return found
