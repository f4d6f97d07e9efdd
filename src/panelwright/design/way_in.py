"""How the wearer gets into a garment, and how far it must open for that."""

from panelwright.pattern.closure import Closure
from panelwright.pattern.line import CENTRE_BACK
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.skirt_below import held_closures


def comes_apart(pattern: Pattern) -> bool:
    """Whether the garment comes apart from its upper edge to its hem; a lacing does not, its cord stays in."""
    told = {closure.place for closure in pattern.closures}
    edges = (edge for piece in pattern.pieces if piece.layer == "outer" for edge in piece.edges)
    untold = any(edge.kind == "opening" and edge.line not in told for edge in edges)
    return untold or any(closure.opens_flat for closure in held_closures(pattern))


def laced_way_in(pattern: Pattern) -> Closure | None:
    """The lacing that is let out for the wearer to get in: of two the one at the centre back.

    None where the garment comes apart elsewhere, or has no lacing.
    """
    lacings = [closure for closure in pattern.closures if closure.kind == "lacing"]
    if not lacings or comes_apart(pattern):
        return None
    return max(lacings, key=lambda closure: closure.place == CENTRE_BACK)


def spread_to_step_in(pattern: Pattern, block: Pattern, gap: float) -> float:
    """How far apart the edges of one centre must come for the wearer to step in, mm, at least `gap`.

    At every level that runs whole through the pattern the cloth and what the edges spread must let the widest part
    of the body pass that lies lower, as far as the block knows it. Over the head cannot be reckoned: shoulders have
    no girth among the measurements.

    Args:
        pattern: after every step; its other centres stay closed.
        block: the unmodified block.
        gap: between the edges as worn, whole, mm.
    """
    spreads = [gap]
    for level in pattern.levels:
        lower = [other.body_girth for other in block.levels if other.height <= level.height]
        lines = ((pattern.piece(step.piece).inside_line(step.inside), step.times) for step in level.path)
        drawn = sum(line.curve.length * times for line, times in lines if line)
        closed = drawn + level.gap - level.overlap
        spreads += [max(lower) - (closed - gap)] if lower and level.path else []
    return max(spreads)
