"""Edges that are sewn to several are divided where those meet, so that every seam joins one edge to one."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import accumulate, pairwise

from panelwright.intake.drawn_edge import DrawnEdge
from panelwright.intake.drawn_pattern import DrawnPattern
from panelwright.intake.drawn_piece import DrawnPiece
from panelwright.intake.drawn_seam import DrawnSeam
from panelwright.intake.edge_ref import EdgeRef
from panelwright.intake.same_half import are_of_one_half
from panelwright.intake.shared_edge import SharedEdge


@dataclass(frozen=True)
class Division:
    """An edge that was divided.

    Attributes:
        shared: what was said of it, its parts in the order in which they lie along the whole edge.
        places: how far along the whole edge it was divided, mm from where its outline begins it.
        is_sure: whether the pieces tell at which end the first part lies; if not, it is taken as it was written.
    """

    shared: SharedEdge
    places: tuple[float, ...]
    is_sure: bool


@dataclass(frozen=True)
class Divided:
    """What `divided` returns.

    Attributes:
        pattern: with no shared edge.
        was: each edge -> where it was drawn.
        divisions: the edges that were divided.
    """

    pattern: DrawnPattern
    was: Mapping[EdgeRef, EdgeRef]
    divisions: tuple[Division, ...]


def divided(whole: DrawnPattern) -> Divided:
    """The pattern with every shared edge divided in the shares that its parts have of their own length together.

    Each stretch is as drawn: together they are the edge. Ease is shared out alike.

    Args:
        whole: at full scale, outlined by its stitch lines.

    Raises:
        InputError: if one edge is in two seams.
    """
    whole.sewn  # noqa: B018  # refuses an edge in two seams
    divisions = {shared.whole: _division(whole, shared) for shared in whole.shared}
    was: dict[EdgeRef, EdgeRef] = {}
    pieces = []
    for piece in whole.pieces:
        edges: list[DrawnEdge] = []
        for number, edge in enumerate(piece.edges):
            ref = EdgeRef(piece.id, number)
            numbered = replace(edge, drawn_number=piece.drawn_number(number))
            for stretch in _stretches(numbered, divisions[ref].places if ref in divisions else ()):
                was[EdgeRef(piece.id, len(edges))] = ref
                edges.append(stretch)
        pieces.append(replace(piece, edges=tuple(edges)))
    now: dict[EdgeRef, EdgeRef] = {}
    for ref, old in was.items():
        now.setdefault(old, ref)
    seams = [replace(seam, a=now[seam.a], b=now[seam.b]) for seam in whole.seams]
    for division in divisions.values():
        seams += _seams(whole, division, now)
    pattern = replace(whole, pieces=tuple(pieces), seams=tuple(seams), shared=())
    return Divided(pattern, was, tuple(divisions.values()))


def _division(whole: DrawnPattern, shared: SharedEdge) -> Division:
    forwards = _forwards(whole, shared)
    if forwards is False:
        shared = replace(shared, parts=shared.parts[::-1])
    shares = _shares(whole, shared)
    length = whole.edge(shared.whole).curve.length
    places = tuple(length * share for share in accumulate(shares[:-1]))
    return Division(shared, places, forwards is not None)


def _shares(whole: DrawnPattern, shared: SharedEdge) -> list[float]:
    lengths = [whole.edge(part).curve.length for part in shared.parts]
    return [length / sum(lengths) for length in lengths]


def _stretches(edge: DrawnEdge, places: tuple[float, ...]) -> list[DrawnEdge]:
    ends = (0.0, *places, edge.curve.length)
    curves = [edge.curve.between(low, high) for low, high in pairwise(ends)] if places else [edge.curve]
    for k in range(1, len(curves)):
        curves[k] = curves[k].ending_at(start=curves[k - 1].end)
    curves[-1] = curves[-1].ending_at(end=edge.curve.end)
    return [replace(edge, curve=curve) for curve in curves]


def _seams(whole: DrawnPattern, division: Division, now: Mapping[EdgeRef, EdgeRef]) -> list[DrawnSeam]:
    shared, first = division.shared, now[division.shared.whole]
    return [
        DrawnSeam(EdgeRef(first.piece, first.number + k), now[part], shared.line, shared.ease * share)
        for k, (part, share) in enumerate(zip(shared.parts, _shares(whole, shared), strict=True))
    ]


def _forwards(whole: DrawnPattern, shared: SharedEdge) -> bool | None:
    """Whether the first part lies where the outline begins the whole edge; None where the pieces don't tell.

    What bounds the whole edge bounds the outermost parts too: lines of one name, or edges sewn to each other. Else the
    seam beside an outermost part tells, if its piece is known to be drawn for the same half of the body as the whole
    edge's: their outlines run against each other there.
    """
    starts, ends = (_beside(whole, shared.whole, way) for way in (-1, 1))
    joint = [_joint(whole, a, b) for a, b in pairwise(shared.parts)]
    first, last = shared.parts[0], shared.parts[-1]
    outer = [
        {_beside(whole, part, way) for way in (-1, 1)} - {side for pair in joint for side in pair or ()}
        for part in (first, last)
    ]
    for_it = sum(_runs_on(whole, starts, each) for each in outer[0]) + sum(_runs_on(whole, ends, o) for o in outer[1])
    against = sum(_runs_on(whole, ends, each) for each in outer[0]) + sum(_runs_on(whole, starts, o) for o in outer[1])
    if for_it != against:
        return for_it > against
    if joint[0] is not None and are_of_one_half(whole, shared.whole.piece, first.piece):
        return joint[0][0] == _beside(whole, first, -1)
    if joint[-1] is not None and are_of_one_half(whole, shared.whole.piece, last.piece):
        return joint[-1][1] == _beside(whole, last, 1)
    return None


def _beside(whole: DrawnPattern, ref: EdgeRef, way: int) -> EdgeRef:
    return EdgeRef(ref.piece, (ref.number + way) % len(_piece(whole, ref).edges))


def _piece(whole: DrawnPattern, ref: EdgeRef) -> DrawnPiece:
    return whole.piece(ref.piece)


def _joint(whole: DrawnPattern, a: EdgeRef, b: EdgeRef) -> tuple[EdgeRef, EdgeRef] | None:
    """The edges beside two parts that are sewn to each other, so that the parts meet there."""
    pairs = [(_beside(whole, a, one), _beside(whole, b, other)) for one in (-1, 1) for other in (-1, 1)]
    return next((pair for pair in pairs if _are_sewn(whole, *pair)), None)


def _are_sewn(whole: DrawnPattern, a: EdgeRef, b: EdgeRef) -> bool:
    return any({seam.a, seam.b} == {a, b} for seam in whole.seams)


def _runs_on(whole: DrawnPattern, a: EdgeRef, b: EdgeRef) -> bool:
    """Whether two edges lie on one line, or are sewn to each other."""
    name = whole.edge(a).line
    return bool(name and name == whole.edge(b).line) or _are_sewn(whole, a, b)
