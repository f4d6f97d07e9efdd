"""The upper edge at the back of a strapless bodice: below the underbust nothing holds it up there."""

from collections.abc import Iterator
from typing import Final

from panelwright.body.units import format_length
from panelwright.checks.corner import finished_corner
from panelwright.checks.design_words import drawing_step
from panelwright.checks.seam_height import Stretch, above
from panelwright.checks.wearer_support import is_strapless
from panelwright.checks.wearing import Wearing
from panelwright.file_words import in_file
from panelwright.finding import Finding
from panelwright.pattern.level import LEVELS, UNDERBUST
from panelwright.pattern.line import CENTRE_BACK
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

_BELOW: Final = LEVELS[LEVELS.index(UNDERBUST) + 1 :]


def check_back_edge(pattern: Pattern, block: Pattern | None, wearing: Wearing) -> tuple[Finding, ...]:
    """`low-back`, a warning: at the centre back a strapless bodice ends below the underbust.

    Args:
        block: the pattern before any step: it knows how far above the edge the underbust lies; without it the
            finding's value is 0.
    """
    if not is_strapless(pattern):
        return ()
    found = (finding for piece in pattern.pieces for finding in _check(pattern, piece, block, wearing))
    return tuple(found)[:1]


def _check(pattern: Pattern, piece: Piece, block: Pattern | None, wearing: Wearing) -> Iterator[Finding]:
    for back in _centre_back(piece) if piece.layer == "outer" else ():
        corner = finished_corner(piece, back.edge, back.edge.along_line)
        kept = next(((level, reach) for level in LEVELS if (reach := above([back], level)) is not None), None)
        if corner is None or kept is None or kept[0] not in _BELOW:
            continue
        depth = _depth(*kept, block)
        by = f"{format_length(depth, wearing.unit)} " if depth > 0 else ""
        message = (
            f"At the centre back the top edge lies {by}below the underbust: a strapless bodice hangs by the firm "
            "ring round the rib cage, and this one has none at the back."
        )
        step = drawing_step(pattern, corner.finished.line)
        how = f" (in {step} set the height at centre back higher)" if step else ""
        remedy = (
            f"Raise the top edge at the centre back to the underbust or higher{how}, or give it straps"
            f"{in_file('a step of kind strap')}."
        )
        yield Finding("low-back", "warning", back.edge.id, depth, 0, message, remedy, piece.id, back.top)


def _centre_back(piece: Piece) -> Iterator[Stretch]:
    return (Stretch(piece, edge, 0.0, edge.curve.length) for edge in piece.on_line(CENTRE_BACK))


def _depth(level: str, reach: float, block: Pattern | None) -> float:
    """How far below the underbust an edge ends that reaches so far above a lower level, by the block's lengths, mm."""
    for piece in block.pieces if block else ():
        for back in _centre_back(piece):
            whole, underbust = above([back], level), above([back], UNDERBUST)
            if whole is not None and underbust is not None:
                return max(0.0, whole - underbust - reach)
    return 0.0
