"""Makes a pattern ready to cut: derived layers, allowances and corners, notches, grain, counts, text."""

from collections.abc import Callable, Container, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType

from panelwright.finish.cut_count import cuts
from panelwright.finish.cut_layers import CutLayers, cut_layers
from panelwright.finish.cut_piece import CutPiece, CutSpan, CuttingPattern, NotchMark
from panelwright.finish.grain_line import fitted_grain
from panelwright.finish.layers import derived_edge, derived_layers, derived_seam, shell, with_layers
from panelwright.finish.notch_marks import NotchSide, notch_marks, notch_sides
from panelwright.finish.notches import cut_notches, derived_notches, place_notches
from panelwright.finish.options import Finish
from panelwright.finish.piece_allowances import Widths, piece_allowances
from panelwright.finish.piece_words import piece_words, text_place
from panelwright.geometry.arrays import Array
from panelwright.geometry.offset import cut_line
from panelwright.pattern.mark import Point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

NotchSides = Mapping[str, Sequence[NotchSide]]


def finish(pattern: Pattern, options: Finish | None = None, layers: bool = True) -> CuttingPattern:
    """The pattern ready to cut. Finishing it again changes nothing: derived layers are rebuilt from the shell.

    Args:
        pattern: a shell; derived pieces in it are left out and made anew.
        options: 10 mm all round, hem and upper edge turned up, no facing, unless told otherwise.
        layers: False leaves facing, lining and interfacing out, as while a line is dragged; the outer pieces are the
            same either way, but what is written on them is put in the middle of the grain line, wherever that is.

    A grain line that a style line has cut off is drawn anew in its own direction (see `fitted_grain`).
    Interfacing has no allowance and no notches: it is laid inside the stitch lines of the piece it came from, whose
    notches show where it lies, and a snip without an allowance would reach into the garment.

    Raises:
        InputError: if an allowance is given for a line that the pattern does not have, or a piece is too narrow for the
            turn of cloth.
    """
    options = options or Finish()
    base = shell(pattern)
    widths = Widths.of(base, options)
    base = _with_fitted_grain(base)
    copied = derived_layers(options) if layers else ()
    own = cut_layers(base, options) if layers else CutLayers()
    whole = _with_facing_interfacing(own.on(with_layers(base, copied, options=options)), options)
    widths = widths.on(whole)
    notches = place_notches(base, options)
    sides = notch_sides(base, notches)
    others = cut_notches(notches, own.seams)
    other_sides = notch_sides(whole, others)
    shaped = {piece.id for piece in own.pieces}
    place = _roomiest if layers else _on_grain
    cut = {
        piece.id: _cut_piece(piece, _sides(piece, sides, other_sides, shaped), whole, widths, piece.id in shaped, place)
        for piece in whole.pieces
    }
    marked = [layer for layer in copied if layer != "interfacing"]
    sewn = {seam.id for seam in whole.seams}
    repeated = (notch for layer in marked for notch in derived_notches(notches, layer) if notch.seam in sewn)
    every = (*notches, *repeated, *others)
    return CuttingPattern(whole, MappingProxyType(cut), every)


def _sides(piece: Piece, shell_sides: NotchSides, own_sides: NotchSides, shaped: Container[str]) -> Sequence[NotchSide]:
    """A piece of the shell's shape is notched as the shell is, any other as its own seams are."""
    return own_sides.get(piece.id, ()) if piece.id in shaped else shell_sides.get(piece.derived_from or piece.id, ())


def _with_facing_interfacing(pattern: Pattern, options: Finish) -> Pattern:
    if options.interfacing != "facing" or options.combined:
        return pattern
    return with_layers(pattern, ("interfacing",), of="facing")


def _with_fitted_grain(pattern: Pattern) -> Pattern:
    fitted = [(piece, fitted_grain(piece)) for piece in pattern.pieces]
    changed = [replace(piece, grain=grain) for piece, grain in fitted if grain != piece.grain]
    return pattern.with_pieces(*changed) if changed else pattern


def _roomiest(piece: Piece) -> Point:
    return text_place(tuple(edge.curve for edge in piece.edges), piece.grain)


def _on_grain(piece: Piece) -> Point:
    (ax, ay), (bx, by) = piece.grain.start, piece.grain.end
    return (ax + bx) / 2, (ay + by) / 2


def _cut_piece(
    piece: Piece,
    sides: Sequence[NotchSide],
    pattern: Pattern,
    widths: Widths,
    shaped: bool,
    place: Callable[[Piece], Point],
) -> CutPiece:
    allowances = piece_allowances(piece, widths)
    line = cut_line(allowances)
    own = {edge.id: allowance.width for edge, allowance in zip(piece.edges, allowances, strict=True)}
    counts = cuts(piece, widths.options)
    return CutPiece(
        piece=piece.id,
        allowances=own,
        corners={edge.id: allowance.corner for edge, allowance in zip(piece.edges, allowances, strict=True)},
        cut_line=line.points,
        spans=tuple(CutSpan(piece.edges[k].id, first, last) for k, first, last in line.runs),
        cuts=counts,
        notches=_marks(piece, sides, own, line.points, shaped),
        text=piece_words(piece, counts, pattern, widths),
        text_at=place(piece),
    )


def _marks(
    piece: Piece, sides: Sequence[NotchSide], widths: dict[str, float], line: Array, shaped: bool
) -> tuple[NotchMark, ...]:
    if piece.layer == "interfacing":
        return ()
    if piece.derived_from is None or shaped:
        return notch_marks(sides, {side.edge: side.edge for side in sides}, widths, line)
    names = {side.edge: derived_edge(piece.derived_from, side.edge, piece.layer) for side in sides}
    return notch_marks(sides, names, widths, line, prefix=derived_seam("", piece.layer))
