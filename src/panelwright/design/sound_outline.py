"""Whether pieces that were changed still have an outline that can be cut."""

from collections.abc import Iterable

import shapely

from panelwright.errors import DesignError
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.spoken_piece import spoken_piece


def refuse_crossed(pattern: Pattern, ids: Iterable[str], remedy: str) -> Pattern:
    """The same pattern, if the outline of every one of these pieces is simple within 0.02 mm.

    Args:
        remedy: what to do, the second half of the sentence.

    Raises:
        DesignError: if one crosses or touches itself.
    """
    for id in ids:
        piece = pattern.piece(id)
        if not piece.outline.is_valid or shapely.buffer(piece.outline, 0.0).geom_type != "Polygon":
            raise DesignError(f"the outline of {spoken_piece(piece)} would cross itself; {remedy}", id)
    return pattern
