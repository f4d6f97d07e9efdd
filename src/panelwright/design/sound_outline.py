"""Whether pieces that were changed still have an outline that can be cut."""

from collections.abc import Iterable
from functools import lru_cache

import shapely

from panelwright.errors import DesignError
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.spoken_piece import spoken_piece

KEPT = 256


def refuse_crossed(pattern: Pattern, ids: Iterable[str], remedy: str) -> Pattern:
    """The same pattern, if the outline of every one of these pieces is simple within 0.02 mm.

    Args:
        remedy: what to do, the second half of the sentence.

    Raises:
        DesignError: if one crosses or touches itself.
    """
    for id in ids:
        piece = pattern.piece(id)
        if not _is_simple(piece):
            raise DesignError(f"the outline of {spoken_piece(piece)} would cross itself; {remedy}", id)
    return pattern


@lru_cache(maxsize=KEPT)
def _is_simple(piece: Piece) -> bool:
    """Remembered by content, as `divided` is."""
    return bool(piece.outline.is_valid and shapely.buffer(piece.outline, 0.0).geom_type == "Polygon")
