"""Sewing one piece to a row of edges: a waistband to the lower edges of all panels."""

from dataclasses import dataclass, replace

from panelwright.body.worded_length import given_words, length_words, range_words
from panelwright.errors import DesignError
from panelwright.geometry.curve import Curve
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern import line as lines
from panelwright.pattern.edge import Edge, EdgeKind
from panelwright.pattern.line import Line
from panelwright.pattern.mark import Grain
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Extent, Piece
from panelwright.pattern.seam import Seam, SeamKind, SeamRegion, Span
from panelwright.pattern.spoken_piece import spoken_piece

LEAST_WIDTH, MOST_WIDTH = 10.0, 500.0  # mm


@dataclass(frozen=True)
class EdgeRow:
    """Neighbouring edges of one line, from seam to seam, each in the sense of its own outline.

    Attributes:
        spans: whole edges in that order.
        ends: the upright edges before the first and after the last.
        length: mm.
    """

    spans: tuple[Span, ...]
    ends: tuple[Edge, Edge]
    length: float


def row_on(pattern: Pattern, line: str) -> EdgeRow:
    """The edges on a line in the order in which their pieces are sewn together.

    Raises:
        DesignError: if there are none, they are not one row, or they go all round without an end.
    """
    found = {edge.id: (piece, edge) for piece, edge in pattern.pieces_on_line(line) if piece.layer == "outer"}
    following = {id: next_on(pattern, *place, line) for id, place in found.items()}
    firsts = [id for id in found if id not in following.values()]
    if len(firsts) != 1:
        raise DesignError(
            f"the edges on {line} are not one row with two ends; open the garment somewhere before sewing to them", line
        )
    order = [firsts[0]]
    while (after := following[order[-1]]) is not None:
        order.append(after)
    if len(order) < len(found):
        raise DesignError(f"the edges on {line} are not one row; some are not sewn to their neighbours", line)
    spans = tuple(Span(found[id][0].id, id) for id in order)
    before, after_last = found[order[0]], found[order[-1]]
    ends = before[0].before(before[1]), after_last[0].after(after_last[1])
    return EdgeRow(spans, ends, sum(found[id][1].curve.length for id in order))


def next_on(pattern: Pattern, piece: Piece, edge: Edge, line: str) -> str | None:
    """The next edge of the row: the following one of the piece, or that of the piece sewn on beside it."""
    upright = piece.after(edge)
    if upright.line == line:
        return upright.id
    for seam in pattern.seams:
        if seam.kind not in ("join", "dart") or seam.is_centre:
            continue
        for chain, other in ((seam.a, seam.b), (seam.b, seam.a)):
            for end in (0, -1):
                if chain[end].edge == upright.id:
                    beside = pattern.piece(other[end].piece)
                    after = beside.after(beside.edge(other[end].edge))
                    if after.line == line:
                        return after.id
    return None


def attach(pattern: Pattern, piece: Piece, edge: str, line: str, seam: str) -> Pattern:
    """The pattern with a new piece sewn by one of its edges to all edges on a line: many spans against one.

    Args:
        pattern: any pattern.
        piece: the new piece; its lines must be in the pattern.
        edge: id of its edge that is sewn.
        line: the line that it is sewn to; its edges become seam edges.
        seam: id of the new seam, of kind `attach`.

    Raises:
        DesignError: if the lengths differ by more than 0.05 mm, or as `row_on` says.
    """
    row = row_on(pattern, line)
    off = piece.edge(edge).curve.length - row.length
    if abs(off) > TOLERANCES.seam:
        raise DesignError(
            f"the edge of {spoken_piece(piece)} is {length_words(abs(off), 2)} {'longer' if off > 0 else 'shorter'} "
            "than the "
            f"{length_words(row.length)} that it is sewn to; make it equal",
            piece.id,
        )
    ids = {span.edge for span in row.spans}
    pieces = tuple(
        replace(p, edges=tuple(replace(e, kind="seam") if e.id in ids else e for e in p.edges))
        if any(e.id in ids for e in p.edges)
        else p
        for p in pattern.pieces
    )
    sewn = Seam(seam, "attach", row.spans, (Span(piece.id, edge, 1.0, 0.0),), "front")
    return replace(pattern, pieces=(*pieces, piece), seams=(*pattern.seams, sewn))


def attach_waistband(pattern: Pattern, line: str, width: float, uid: str, label: str = "Waistband") -> Pattern:
    """The pattern with a straight band sewn to the lower edges on a line.

    The band is as long as the edges together. It is cut on the fold where the panels are, and closes where they do.
    Its attached edge lies on the same line as the panels' edges, its lower edge on the new line `<uid>/edge`.

    Args:
        pattern: any pattern.
        line: the panels' lower edges.
        width: finished width of the band, mm.
        uid: of the step; the piece and the seam have its name.
        label: of the piece.

    Raises:
        DesignError: if the width is not 1 to 50 cm, or as `row_on` says.
    """
    if not LEAST_WIDTH <= width <= MOST_WIDTH:
        raise DesignError(
            f"a waistband of {given_words(width)} is not {range_words(LEAST_WIDTH, MOST_WIDTH)} wide", uid
        )
    row = row_on(pattern, line)
    left, right = row.ends
    lower = Line(f"{uid}/edge", f"{label}, lower edge", uid)
    piece = _band(row, line, width, uid, label)
    sewn = attach(replace(pattern, lines=(*pattern.lines, lower)), piece, f"{uid}.{line}", line, uid)
    closing = _closing(piece, left, right)
    return replace(sewn, seams=(*sewn.seams, *closing))


def _band(row: EdgeRow, line: str, width: float, uid: str, label: str) -> Piece:
    """A rectangle with its sewn edge on top, from x = -length to 0."""
    left, right = row.ends
    corners = [(-row.length, -width), (0.0, -width), (0.0, 0.0), (-row.length, 0.0)]
    sides = [Curve.straight(corners[k], corners[(k + 1) % 4]) for k in range(4)]
    ids = f"{uid}.{right.line}", f"{uid}.{left.line}"
    if ids[0] == ids[1]:
        ids = f"{ids[0]}-right", f"{ids[1]}-left"
    extent: Extent = "half_on_fold" if right.kind == "fold" else "whole" if right.line == left.line else "one_side"
    edges = (
        Edge(f"{uid}.{uid}/edge", f"{uid}/edge", "right", "finished", sides[0]),
        Edge(ids[0], right.line, "left", _end_kind(right.kind), sides[1]),
        Edge(f"{uid}.{line}", line, "left", "seam", sides[2]),
        Edge(ids[1], left.line, "right", _end_kind(left.kind), sides[3]),
    )
    middle = -row.length / 2
    grain = Grain((middle, -0.85 * width), (middle, -0.15 * width))
    return Piece(uid, label, edges, extent, "both", grain)


def _end_kind(panel: EdgeKind) -> EdgeKind:
    return "opening" if panel == "finished" else panel


def _closing(piece: Piece, left: Edge, right: Edge) -> tuple[Seam, ...]:
    """How the band's ends close: each on its own mirror image, or one on the other when the band is whole."""
    ends = piece.edges[3], piece.edges[1]
    kind: SeamKind = "closure" if ends[0].kind == "opening" else "join"
    region: SeamRegion = "front" if left.line == lines.CENTRE_FRONT else "back"
    id = f"{piece.id}/{left.line}"
    one = Span(piece.id, ends[0].id, 1.0, 0.0)
    if right.line == left.line:
        return (Seam(id, kind, (one,), (Span(piece.id, ends[1].id),), region),)
    if ends[0].kind == "fold":
        return ()
    return (Seam(id, kind, (one,), (replace(one, hand="mirror"),), region),)
