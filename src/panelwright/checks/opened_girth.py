"""How wide a garment is at a level once its closures are opened."""

import math
from typing import Final

from panelwright.pattern.closure import Closure
from panelwright.pattern.level import Level
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.skirt_below import held_closures

_ROUNDING: Final = 1e-6  # mm between two ways of measuring one place


def widening(pattern: Pattern, level: Level) -> float:
    """What open closures add to a level's girth, mm: 0 where none crosses it, infinite where the garment parts.

    A slit that is joined at its end lets its two edges come apart by twice the distance from that end, and no more
    (the two straight ways from it): that is what it adds there. A lacing let out adds what it spreads beyond its gap.
    """
    return sum(_added(pattern, closure, level) for closure in held_closures(pattern))


def closed_centres(pattern: Pattern) -> set[str]:
    """The centre lines that a closure tells of; another one that is open is closed by nothing yet."""
    return {closure.place for closure in pattern.closures if closure.hand == "centre"}


def _added(pattern: Pattern, closure: Closure, level: Level) -> float:
    if closure.opens_flat:
        return math.inf
    place = _place(pattern, closure, level)
    if place is None:
        return 0.0
    return slit(closure, place)


def slit(closure: Closure, place: float) -> float:
    """What a closure adds at a place of its line, mm upwards from the edge's lower end as `low` and `high` are."""
    if not closure.low - _ROUNDING <= place <= closure.high + _ROUNDING:
        return 0.0
    below = math.inf if closure.to_hem else 2 * (place - closure.low)
    above = math.inf if closure.to_top else 2 * (closure.high - place)
    return min(below, above, max(closure.spreads - closure.gap, 0.0))


def _place(pattern: Pattern, closure: Closure, level: Level) -> float | None:
    """Where a level meets the line that a closure opens, mm upwards from the edge's lower end."""
    seams = [seam for seam in pattern.seams if seam.id == closure.seam]
    for span in (span for seam in seams for span in seam.a + seam.b):
        place = pattern.level_place(pattern.edge(span), pattern.piece(span.piece), level.id)
        if place is not None:
            return place
    return None
