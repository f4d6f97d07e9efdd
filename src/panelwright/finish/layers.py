"""The layers that are derived from the shell: facing and interfacing, cut to the same shape."""

from dataclasses import replace

from panelwright.finish.options import Finish
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Layer, Piece
from panelwright.pattern.seam import Seam, Span


def shell(pattern: Pattern) -> Pattern:
    """The pattern without derived pieces and the seams between them: they are rebuilt, never edited."""
    if all(piece.derived_from is None for piece in pattern.pieces):
        return pattern
    pieces = tuple(piece for piece in pattern.pieces if piece.derived_from is None)
    kept = {piece.id for piece in pieces}
    seams = tuple(seam for seam in pattern.seams if all(span.piece in kept for span in seam.a + seam.b))
    return replace(pattern, pieces=pieces, seams=seams)


def derived_layers(options: Finish) -> tuple[Layer, ...]:
    """The layers that get pieces of their own."""
    facing: tuple[Layer, ...] = ("facing",) if options.facing == "full" and not options.combined else ()
    return (*facing, "interfacing") if options.interfacing else facing


def with_layers(pattern: Pattern, layers: tuple[Layer, ...]) -> Pattern:
    """The shell with every outer piece and its seams once more in each layer; levels stay on the outer pieces."""
    outer = [piece for piece in pattern.pieces if piece.layer == "outer"]
    ids = {piece.id for piece in outer}
    sewn = [seam for seam in pattern.seams if all(span.piece in ids for span in seam.a + seam.b)]
    pieces = tuple(derived_piece(piece, layer) for layer in layers for piece in outer)
    seams = tuple(_derived_seam(seam, layer) for layer in layers for seam in sewn)
    return replace(pattern, pieces=pattern.pieces + pieces, seams=pattern.seams + seams)


def derived_piece(piece: Piece, layer: Layer) -> Piece:
    """The piece once more: `CF` becomes `CF/facing`, its edge `CF.hem` becomes `CF/facing.hem`."""
    return replace(
        piece,
        id=f"{piece.id}/{layer}",
        label=f"{piece.label} {layer}",
        edges=tuple(replace(edge, id=derived_edge(piece.id, edge.id, layer)) for edge in piece.edges),
        layer=layer,
        derived_from=piece.id,
    )


def derived_edge(piece: str, edge: str, layer: Layer) -> str:
    """The id of an edge of `piece` in a derived layer."""
    return f"{piece}/{layer}.{edge.removeprefix(f'{piece}.')}"


def derived_seam(seam: str, layer: Layer) -> str:
    """The id of a seam in a derived layer; notches are named alike."""
    return f"{layer}/{seam}"


def _derived_seam(seam: Seam, layer: Layer) -> Seam:
    a, b = (tuple(_derived_span(span, layer) for span in chain) for chain in (seam.a, seam.b))
    return replace(seam, id=derived_seam(seam.id, layer), a=a, b=b)


def _derived_span(span: Span, layer: Layer) -> Span:
    return replace(span, piece=f"{span.piece}/{layer}", edge=derived_edge(span.piece, span.edge, layer))
