"""A learner's drawn pattern held against the pattern that the brief asks for."""

from dataclasses import dataclass

from panelwright.errors import InputError
from panelwright.intake.drawn_pattern import DrawnPattern
from panelwright.intake.review_edges import EdgePair, edge_pairs
from panelwright.intake.review_match import Match, matches
from panelwright.intake.review_outline import edge_offs, outline_points
from panelwright.intake.review_point import ReviewPoint
from panelwright.intake.review_seams import SeamReview, seam_points, seam_reviews
from panelwright.intake.stitch_line import stitch_lines
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

_ORDER = ("missing", "unknown", "shape", "seam", "edge", "corner", "fold-angle")


@dataclass(frozen=True, eq=False)
class PieceReview:
    """A learner's piece as it lies on the model's; `pairs` is None where its corners cannot be told."""

    match: Match
    pairs: tuple[EdgePair, ...] | None


@dataclass(frozen=True, eq=False)
class Review:
    """What `review` found.

    Attributes:
        model: the pattern as the brief asks for it.
        scale: mm of the garment to one mm of the learner's paper.
        pieces: those that the learner drew, in the model's order.
        seams: those that could be measured.
        points: what matters most first: pieces, then seams, then lines and corners by how far they are off.
    """

    model: Pattern
    scale: float
    pieces: tuple[PieceReview, ...]
    seams: tuple[SeamReview, ...]
    points: tuple[ReviewPoint, ...]


def review(drawn: DrawnPattern, model: Pattern) -> Review:
    """Hold the learner's stitch lines against those of the model's outer pieces.

    Raises:
        InputError: if an allowance cannot be taken off, or none of the pieces is like one of the model's.
    """
    pieces = [piece for piece in model.pieces if piece.layer == "outer"]
    learner = stitch_lines(drawn).pieces
    found = matches(learner, pieces, drawn.scale)
    if not found:
        raise InputError(
            "none of these pieces is like one of the design's: name them as its pieces are named "
            f"({', '.join(piece.id for piece in pieces)}), and look whether the scale is right",
            "pieces",
        )
    drawn_pieces = tuple(PieceReview(match, edge_pairs(match, drawn.scale)) for match in found)
    pairs = [pair for piece in drawn_pieces for pair in piece.pairs or ()]
    seams = seam_reviews(model, {pair.model.id: pair.learner.length for pair in pairs})
    points = [
        *_whole_pieces(found, pieces, [piece.label or piece.id for piece in learner if _is_left(piece.id, found)]),
        *(point for piece in drawn_pieces for point in _of_piece(piece, drawn.scale)),
        *seam_points(model, seams),
    ]
    return Review(model, drawn.scale, drawn_pieces, tuple(seams), tuple(sorted(points, key=_weight)))


def _weight(point: ReviewPoint) -> tuple[int, float]:
    """Pieces, then seams, then all lines, corners and angles by how many times their limit they are off."""
    return min(_ORDER.index(point.kind), _ORDER.index("edge")), -point.excess


def _is_left(id: str, found: list[Match]) -> bool:
    return all(match.learner.id != id for match in found)


def _whole_pieces(found: list[Match], pieces: list[Piece], left: list[str]) -> list[ReviewPoint]:
    there = {match.model.id for match in found}
    missing = [ReviewPoint("missing", piece.label) for piece in pieces if piece.id not in there]
    return [*missing, *(ReviewPoint("unknown", label) for label in left)]


def _of_piece(piece: PieceReview, scale: float) -> list[ReviewPoint]:
    model = piece.match.model
    if piece.pairs is None:
        corners = float(len(piece.match.learner.edges))
        return [ReviewPoint("shape", model.label, value=corners, limit=float(len(model.edges)))]
    return outline_points(edge_offs(piece.pairs), model, scale)
