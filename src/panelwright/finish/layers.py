"""The layers that are derived from the shell and cut to its own shapes: facing, lining and interfacing."""

from collections.abc import Iterable
from dataclasses import replace

from panelwright.finish.facing_edge import FACING_EDGE
from panelwright.finish.layer_seams import freed
from panelwright.finish.options import Finish
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Layer, Piece
from panelwright.pattern.seam import Seam, Span


def shell(pattern: Pattern) -> Pattern:
    """The pattern without derived pieces and the seams and lines of them: they are rebuilt, never edited."""
    if all(piece.derived_from is None for piece in pattern.pieces):
        return pattern
    pieces = tuple(piece for piece in pattern.pieces if piece.derived_from is None)
    kept = {piece.id for piece in pieces}
    seams = tuple(seam for seam in pattern.seams if all(span.piece in kept for span in seam.a + seam.b))
    lines = tuple(line for line in pattern.lines if line.id != FACING_EDGE.id)
    return replace(pattern, pieces=pieces, seams=seams, lines=lines)


def derived_layers(options: Finish) -> tuple[Layer, ...]:
    """The layers that get pieces of the shell's own shapes; for other shapes see `cut_layers`."""
    same = not options.turn_of_cloth
    facing: tuple[Layer, ...] = ("facing",) if options.facing == "full" and same and not options.combined else ()
    lining: tuple[Layer, ...] = ("lining",) if options.lining == "full" and same else ()
    interfacing: tuple[Layer, ...] = ("interfacing",) if _is_interfaced_whole(options) else ()
    return (*facing, *lining, *interfacing)


def _is_interfaced_whole(options: Finish) -> bool:
    """A full facing that is cut with the outer pieces has their shapes, and so has its interfacing."""
    return options.interfacing == "full" or (options.interfacing == "facing" and options.combined)


def lined(outer: Iterable[Piece], options: Finish) -> list[Piece]:
    """The outer pieces that a full lining repeats: a sewn-on strip is backed once, by the facing where there is one."""
    return [piece for piece in outer if options.facing == "none" or piece.material]


def with_layers(
    pattern: Pattern, layers: tuple[Layer, ...], of: Layer = "outer", options: Finish | None = None
) -> Pattern:
    """The pattern with every piece of a layer and its seams once more in each of `layers`.

    Levels stay on the outer pieces. What is sewn to another layer alone is a finished edge in the copy.
    """
    whole = [piece for piece in pattern.pieces if piece.layer == of]
    for layer in layers:
        source = lined(whole, options) if options and layer == "lining" else whole
        ids = {piece.id for piece in source}
        sewn = [seam for seam in pattern.seams if all(span.piece in ids for span in seam.a + seam.b)]
        pieces = tuple(derived_piece(piece, layer) for piece in source)
        seams = tuple(_derived_seam(seam, layer) for seam in sewn)
        if of != "outer" or len(source) < len(whole):
            pieces, seams = freed(pieces, seams)
        pattern = replace(pattern, pieces=pattern.pieces + pieces, seams=pattern.seams + seams)
    return pattern


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
