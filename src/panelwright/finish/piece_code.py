"""The code of a piece, as it stands on the piece, on the lay and in every list: `SF`, `SF/hem-facing`, `TIE-2`."""

from collections.abc import Mapping

from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.piece import Piece


def same_shape(piece: Piece, origin: Piece | None) -> bool:
    """Whether a piece repeats the outline of the piece that it is derived from."""
    return origin is not None and origin.outline.equals_exact(piece.outline, TOLERANCES.polyline)


def shape_of(piece: Piece, pieces: Mapping[str, Piece]) -> Piece:
    """The first piece of the same shape: an interfacing's is its facing, and that of a whole facing the outer piece.

    Args:
        pieces: id -> piece, of the whole pattern.
    """
    origin = pieces.get(piece.derived_from or "")
    return shape_of(origin, pieces) if origin is not None and same_shape(piece, origin) else piece


def code_words(id: str) -> str:
    """An id as people read it: a name in small letters loses its hyphens, `back modesty panel`, a code keeps them."""
    first, *layers = id.split("/")
    return "/".join([first.replace("-", " ") if first == first.lower() else first, *layers])
