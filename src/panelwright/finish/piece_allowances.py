"""Which allowance each edge of a piece takes, and how its corners are finished."""

from typing import Final, Literal

from panelwright.body.quotation import quoted
from panelwright.errors import InputError
from panelwright.finish.cut_piece import Corner
from panelwright.finish.options import CornerKind, Finish
from panelwright.geometry.offset import Allowance
from panelwright.pattern.edge import Edge
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

_USUAL: Final[dict[CornerKind, Corner]] = {"turned_edge": "fold_back", "seam_end": "mitre", "other": "mitre"}


def piece_allowances(piece: Piece, options: Finish) -> tuple[Allowance, ...]:
    """The allowance of each edge, in outline order; interfacing takes none."""
    widths = [0.0 if piece.layer == "interfacing" else edge_width(edge, options) for edge in piece.edges]
    after = zip(piece.edges[1:] + piece.edges[:1], widths[1:] + widths[:1], strict=True)
    return tuple(
        Allowance(edge.curve, width, edge.kind == "fold", *_corner((edge, there), (width, wide), options))
        for edge, width, (there, wide) in zip(piece.edges, widths, after, strict=True)
    )


def edge_width(edge: Edge, options: Finish) -> float:
    """mm: none at a fold, then that of the line, of the kind of edge, of all."""
    if edge.kind == "fold":
        return 0.0
    slot = edge.line.rpartition("/")[2]
    named = options.lines.get(edge.line, options.lines.get(slot))
    return options.kinds.get(edge.kind, options.allowance) if named is None else named


def check_lines(pattern: Pattern, options: Finish) -> None:
    """Raise InputError if an allowance is given to a line that the pattern does not have."""
    known = {edge.line for piece in pattern.pieces for edge in piece.edges}
    names = known | {line.rpartition("/")[2] for line in known}
    for line in options.lines:
        if line not in names:
            raise InputError(
                f"an allowance is given for {quoted(line)}, which is no line of this pattern; "
                f"its lines are {', '.join(sorted(known))}",
                f"lines.{line}",
            )


def _corner(
    edges: tuple[Edge, Edge], widths: tuple[float, float], options: Finish
) -> tuple[Corner, Literal["this", "next"]]:
    """How the corner between two edges is finished, and whose allowance it is that is squared or folded back."""
    kinds = [edge.kind for edge in edges]
    if "fold" in kinds or not any(widths):
        return "square", "this"
    if kinds.count("finished") != 1:
        return _style("other", options), "this" if widths[0] >= widths[1] else "next"
    finished_first = kinds[0] == "finished"
    if options.facing == "none":
        return _style("turned_edge", options), "this" if finished_first else "next"
    return _style("seam_end", options), "next" if finished_first else "this"


def _style(kind: CornerKind, options: Finish) -> Corner:
    return options.corners.get(kind, _USUAL[kind])
