"""How far a garment must open for its wearer to get into it."""

from panelwright.pattern.closure import ClosurePlace
from panelwright.pattern.pattern import Pattern


def opens_elsewhere(pattern: Pattern, place: ClosurePlace) -> bool:
    """Whether the garment comes apart from its upper edge to its hem at another place than this one."""
    flat = any(closure.opens_flat and closure.place != place for closure in pattern.closures)
    edges = (edge for piece in pattern.pieces if piece.layer == "outer" for edge in piece.edges)
    return flat or any(edge.kind == "opening" and edge.line != place for edge in edges)


def spread_to_step_in(pattern: Pattern, block: Pattern, gap: float) -> float:
    """How far apart the edges of one centre must come for the wearer to step in, mm, at least `gap`.

    At every level that runs whole through the pattern the cloth and what the edges spread must let the widest part
    of the body pass that lies lower, as far as the block knows it. Over the head cannot be reckoned: shoulders have
    no girth among the measurements.

    Args:
        pattern: before the gap is taken off.
        block: the unmodified block.
        gap: between the edges as worn, whole, mm.
    """
    spreads = [gap]
    for level in pattern.levels:
        lower = [other.body_girth for other in block.levels if other.height <= level.height]
        lines = ((pattern.piece(step.piece).inside_line(step.inside), step.times) for step in level.path)
        cloth = sum(line.curve.length * times for line, times in lines if line) - gap
        spreads += [max(lower) - cloth] if lower else []
    return max(spreads)
