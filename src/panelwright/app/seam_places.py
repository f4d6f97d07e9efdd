"""Where the seams of a block cross its levels now, as a design would say it."""

from collections.abc import Iterator

from panelwright.blocks.block import Block
from panelwright.blocks.options import PLANS
from panelwright.pattern.piece import Piece

Place = tuple[str, str, float]


def seam_places(block: Block, panels: int) -> Iterator[Place]:
    """(line, level, mm along the level on the finished half) of every seam at every level of all its panels.

    As of a `SeamPlace`: seams with `back` in their names are measured from centre back, every other from centre front.

    Args:
        panels: of a half.
    """
    if block.options.is_skirt:  # its seams lie where its shape puts them
        return
    plan = PLANS[panels]
    pieces = [block.pattern.piece(id) for id, _ in plan.panels]
    for level in block.pattern.levels:
        widths = [_width(piece, level.id) for piece in pieces]
        if None in widths:
            continue
        across = [width or 0.0 for width in widths]
        for number, (line, _) in enumerate(plan.lines, 1):
            yield line, level.id, sum(across[number:] if "back" in line else across[:number])


def _width(piece: Piece, level: str) -> float | None:
    """How wide a panel is along a level, mm."""
    drawn = [line.curve.length for line in piece.inside if line.kind == "level" and line.id == level]
    return drawn[0] if len(drawn) == 1 else None
