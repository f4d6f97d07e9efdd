"""Rule 10: how a piece is cut agrees with how it is drawn."""

from collections.abc import Iterator

from panelwright.finding import Finding
from panelwright.finish.cut_piece import Cut, CutMode, CuttingPattern
from panelwright.pattern.piece import Piece

WORDS: dict[CutMode, str] = {"fold": "on the fold", "pair": "as a pair", "single": "single"}


def check_cut_counts(cutting: CuttingPattern) -> tuple[Finding, ...]:
    """`not-cut`, `fold-edge`, `cut-mode` and `cut-count` errors."""
    found: list[Finding] = []
    for piece, cut in cutting.pieces:
        found += _piece(piece, cut.cuts)
        for entry in cut.cuts:
            found += _cut(piece, entry)
    return tuple(found)


def modes(piece: Piece) -> tuple[CutMode, ...]:
    """The ways in which a piece can be cut, by how it is drawn."""
    if piece.extent == "half_on_fold":
        return ("fold",)
    if piece.extent == "whole":
        return ("single", "pair")
    return ("pair",) if piece.hand == "both" else ("single",)


def _piece(piece: Piece, cuts: tuple[Cut, ...]) -> Iterator[Finding]:
    if not cuts:
        message = f"{piece.label}: nothing says how often it is cut, and in which cloth."
        yield Finding(
            "not-cut", "error", piece.id, 0, 1, message, "Give it a cloth and a count.", piece.id, unit="cuts"
        )
    folds = sum(edge.kind == "fold" for edge in piece.edges)
    half = piece.extent == "half_on_fold"
    if half != bool(folds):
        message = (
            f"{piece.label}: it is half of a piece, but no edge lies on the fold."
            if half
            else f"{piece.label}: an edge lies on the fold, but it is not half of a piece."
        )
        remedy = (
            "Name the edge that lies on the fold." if half else "Make the fold a seam, or the piece half on the fold."
        )
        yield Finding("fold-edge", "error", piece.id, folds, int(half), message, remedy, piece.id, unit="edges")


def _cut(piece: Piece, cut: Cut) -> Iterator[Finding]:
    allowed = modes(piece)
    if cut.mode not in allowed:
        wanted = " or ".join(WORDS[mode] for mode in allowed)
        message = (
            f"{piece.label}: in {cut.cloth} cloth it is cut {WORDS[cut.mode]}, but it is drawn to be cut {wanted}."
        )
        yield Finding("cut-mode", "error", piece.id, 1, 0, message, f"Cut it {wanted}.", piece.id, unit="times")
    pair = cut.mode == "pair"
    if cut.count < 1 or (pair and cut.count % 2):
        wanted = "an even number, 2 or more" if pair else "1 or more"
        message = (
            f"{piece.label}: in {cut.cloth} cloth it is cut {cut.count} times {WORDS[cut.mode]}; it takes {wanted}."
        )
        remedy = f"Set the count to {wanted}."
        yield Finding(
            "cut-count", "error", piece.id, cut.count, 2 if pair else 1, message, remedy, piece.id, unit="pieces"
        )
