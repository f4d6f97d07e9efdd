"""What a layer repeats of the shell: a fault that both have is told once, of the shell."""

from dataclasses import replace

from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam, Span


def repeats(pattern: Pattern) -> dict[str, Piece]:
    """Id of each derived piece that has the very outline and grain of the piece it comes from -> that piece."""
    found = {}
    for piece in pattern.pieces:
        if piece.derived_from is not None and pattern.has_piece(piece.derived_from):
            source = pattern.piece(piece.derived_from)
            if _same_shape(piece, source):
                found[piece.id] = source
    return found


def own_pieces(pattern: Pattern) -> tuple[Piece, ...]:
    """The pieces that are no repeats."""
    repeated = repeats(pattern)
    return tuple(piece for piece in pattern.pieces if piece.id not in repeated)


def own_seams(pattern: Pattern) -> tuple[Seam, ...]:
    """The seams that do not say of a layer what another seam says of the shell."""
    repeated = repeats(pattern)
    shell = {replace(seam, id="") for seam in pattern.seams if not _pieces(seam) & repeated.keys()}
    return tuple(
        seam
        for seam in pattern.seams
        if not _pieces(seam) & repeated.keys() or _on_shell(seam, pattern, repeated) not in shell
    )


def _pieces(seam: Seam) -> set[str]:
    return {span.piece for span in seam.a + seam.b}


def _on_shell(seam: Seam, pattern: Pattern, repeated: dict[str, Piece]) -> Seam:
    """The seam as it would be between the pieces that its own repeat, without its id."""

    def moved(span: Span) -> Span:
        source = repeated.get(span.piece)
        if source is None:
            return span
        edge = source.edges[pattern.piece(span.piece).index(span.edge)]
        return replace(span, piece=source.id, edge=edge.id)

    return replace(seam, id="", a=tuple(map(moved, seam.a)), b=tuple(map(moved, seam.b)))


def _same_shape(piece: Piece, source: Piece) -> bool:
    if (piece.extent, piece.hand, len(piece.edges)) != (source.extent, source.hand, len(source.edges)):
        return False
    pairs = zip(piece.edges, source.edges, strict=True)
    return piece.grain == source.grain and all(
        (a.line, a.kind, a.pointed_end) == (b.line, b.kind, b.pointed_end) and a.curve == b.curve for a, b in pairs
    )
