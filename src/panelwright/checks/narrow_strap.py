"""Straps that are narrower than what is turned inside them."""

from collections import defaultdict
from collections.abc import Iterator
from typing import Final

from panelwright.body.units import format_length
from panelwright.checks.wearing import Wearing
from panelwright.file_words import in_file
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.finish.narrow_strip import GROWN, TRIMMED, TURN, narrow_strips
from panelwright.geometry.tolerances import TOLERANCES

_SEPARATE: Final = "strap-edge"


def check_narrow_straps(cutting: CuttingPattern, wearing: Wearing) -> tuple[Finding, ...]:
    """`narrow-strap`, advice: two allowances lie one on the other inside a strap and make it thick and uneven.

    Without widths of the maker's own for its lines a strap is trimmed until they lie side by side; each strap that is
    not is named once.
    """
    widths = narrow_strips(cutting.pattern)
    return tuple(
        finding
        for strap, edges in _straps(cutting).items()
        for finding in _narrow(edges, widths.get(f"{strap}/{next(iter(edges))}"), wearing)
    )


def _straps(cutting: CuttingPattern) -> dict[str, dict[str, tuple[float, str]]]:
    """Uid of the step -> slot of each line of its long edges -> (widest allowance on it, mm, id of a piece there)."""
    found: dict[str, dict[str, tuple[float, str]]] = defaultdict(dict)
    for piece, cut in cutting.pieces:
        for edge in piece.edges if piece.layer == "outer" else ():
            strap, _, slot = edge.line.rpartition("/")
            if strap and slot in (*GROWN, _SEPARATE):
                known = found[strap].get(slot, (-1.0, ""))
                found[strap][slot] = max(known, (cut.allowances[edge.id], piece.id), key=lambda each: each[0])
    return found


def _narrow(edges: dict[str, tuple[float, str]], width: float | None, wearing: Wearing) -> Iterator[Finding]:
    allowances = [allowance for allowance, _ in edges.values()]
    both = 2 * max(allowances) if len(allowances) == 1 else sum(allowances)
    if width is None or both <= width - TURN + TOLERANCES.seam:
        return
    turned, wide, usual = (format_length(length, wearing.unit) for length in (both, width, TRIMMED))
    piece = next(iter(edges.values()))[1]
    left_out = in_file(f"leave {' and '.join(edges)} out of finish.allowance_by_line_cm")
    yield Finding(
        "narrow-strap", "advice", piece, both, width - TURN,
        f"The strap is {wide} wide: the allowances of its two edges, {turned} together, do not lie side by side in it.",
        f"Give its edges no allowance of their own{left_out}, and they are trimmed to what fits; "
        f"or give them about {usual} there, or trim them after sewing.",
        piece,
    )  # fmt: skip
