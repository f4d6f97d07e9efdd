"""The same pieces twice in one cloth: a lay of one set, laid a second time behind it."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import chain

from panelwright.lay.first_lay import first_lay
from panelwright.lay.lay import LaidPiece
from panelwright.lay.piece_to_cut import PieceToCut


def two_sets(
    pieces: Sequence[PieceToCut], width: float, folded: bool, one_way: bool = False, spacing: float = 0.0
) -> tuple[LaidPiece, ...]:
    """Places for all pieces, half of them and the same again; nothing where they are not two sets.

    Arguments as in `first_lay`. A combined lay that is longer than this would be a poor one.
    """
    if any(piece.face_up % 2 or piece.face_down % 2 for piece in pieces):
        return ()
    whole = dict(enumerate(pieces))
    halves = [replace(piece, face_up=piece.face_up // 2, face_down=piece.face_down // 2) for piece in pieces]
    places = {id(half): whole[k] for k, half in enumerate(halves)}
    laid = first_lay(halves, width, folded, one_way, spacing)
    behind = max((float(each.outline[:, 0].max()) for each in laid), default=0.0) + spacing
    copies = {id(half): sum(each.piece is half for each in laid) for half in halves}
    again = [replace(each.moved(behind, 0.0), copy=each.copy + copies[id(each.piece)]) for each in laid]
    order = {id(piece): k for k, piece in whole.items()}
    both = (replace(each, piece=places[id(each.piece)]) for each in chain(laid, again))
    return tuple(sorted(both, key=lambda each: (order[id(each.piece)], each.copy)))
