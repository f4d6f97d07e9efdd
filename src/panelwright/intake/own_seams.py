"""The seams of a pattern read off paper, and where its centre lines open."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from panelwright.intake.drawn_pattern import DrawnPattern
from panelwright.intake.edge_ref import EdgeRef
from panelwright.intake.own_edges import OwnEdge
from panelwright.pattern.edge import Edge
from panelwright.pattern.line import is_centre_front
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam, SeamKind, SeamRegion, Span


def own_seams(whole: DrawnPattern, edges: Mapping[EdgeRef, OwnEdge], pieces: Sequence[Piece]) -> tuple[Seam, ...]:
    """Confirmed seams, chain a nearer the front and both from the hem up, then the openings and seams at the centre.

    A line that is sewn in several seams, as a shoulder across a princess seam is, numbers them.

    Args:
        whole: at full scale.
        edges: what became of its edges.
        pieces: placed, in the order of the row.
    """
    sewn = [_join(seam.line, edges[seam.a].id, edges[seam.b].id, seam.ease, pieces) for seam in whole.seams]
    taken = {edges[side].id for seam in whole.seams for side in (seam.a, seam.b)}
    numbered: dict[str, Seam] = {}
    for seam in (*sewn, *_centres(pieces, taken)):
        id, k = seam.id, 1
        while id in numbered:
            k += 1
            id = f"{seam.id}-{k}"
        numbered[id] = replace(seam, id=id)
    return tuple(numbered.values())


def region(line: str) -> SeamRegion:
    """Front, back or side, by the words of a seam's name."""
    return "back" if "back" in line else "front" if "front" in line else "side"


def _join(line: str, a: str, b: str, ease: float, pieces: Sequence[Piece]) -> Seam:
    order = [piece.id for piece in pieces]
    found = sorted((_found(id, pieces) for id in (a, b)), key=lambda pair: order.index(pair[0]))
    (first, one), (second, other) = found
    ease = ease if one.id == a else -ease
    along = one.along_line
    chains = _span(first, one, along), _span(second, other, not along if other.side == one.side else other.along_line)
    return Seam(line, "join", (chains[0],), (chains[1],), region(line), ease=ease)


def _found(id: str, pieces: Sequence[Piece]) -> tuple[str, Edge]:
    return next((piece.id, edge) for piece in pieces for edge in piece.edges if edge.id == id)


def _span(piece: str, edge: Edge, forwards: bool) -> Span:
    return Span(piece, edge.id) if forwards else Span(piece, edge.id, 1.0, 0.0)


def _centres(pieces: Sequence[Piece], sewn: set[str]) -> Iterator[Seam]:
    """An opening is closed to its own mirror image; a centre that is to be sewn is joined to it."""
    for piece in pieces:
        for edge in piece.edges:
            centre = "centre" in edge.line.lower()
            if piece.extent == "whole" or edge.id in sewn or not (edge.kind == "opening" or centre):
                continue
            if edge.kind not in ("opening", "seam"):
                continue
            kind: SeamKind = "closure" if edge.kind == "opening" else "join"
            ways = (0.0, 1.0) if edge.along_line else (1.0, 0.0)
            right, left = Span(piece.id, edge.id, *ways), Span(piece.id, edge.id, *ways, "mirror")
            name = edge.line if edge.interval == (0.0, 1.0) else edge.id
            yield Seam(name, kind, (right,), (left,), "front" if is_centre_front(edge.line) else "back")
