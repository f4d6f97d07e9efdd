"""Cutting a piece's outline in two places and closing it with new edges."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from panelwright.design.chain import EdgePart
from panelwright.errors import DesignError
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.edge import Edge
from panelwright.pattern.piece import Piece
from panelwright.pattern.spoken_piece import spoken_piece


@dataclass(frozen=True)
class OutlinePlace:
    """A place on a piece's outline: `arc` mm from the start of an edge."""

    edge: str
    arc: float


@dataclass(frozen=True)
class CutOutline:
    """A piece's outline after the part between two places was replaced.

    Attributes:
        edges: the new outline, from the first edge that is kept.
        parts: what became of every edge of the old outline.
    """

    edges: tuple[Edge, ...]
    parts: dict[str, tuple[EdgePart, ...]]


def cut_outline(
    piece: Piece,
    leave: OutlinePlace,
    enter: OutlinePlace,
    new: Sequence[Edge],
    pointed: bool = False,
    rename: str | None = None,
) -> CutOutline:
    """The outline that runs from `enter` round to `leave` as before and then along `new` back to `enter`.

    Args:
        piece: the piece.
        leave: where the old outline is left.
        enter: where it is joined again.
        new: edges from `leave` to `enter`.
        pointed: whether the maker asked for a point at `leave`.
        rename: id of the piece that what is kept becomes, when it is another.

    Raises:
        DesignError: if nothing would be left of the outline.
    """
    count = len(piece.edges)
    first, last = piece.index(enter.edge), piece.index(leave.edge)
    steps = (last - first) % count
    if first == last and leave.arc <= enter.arc:
        steps = count
    kept: list[Edge] = []
    parts: dict[str, tuple[EdgePart, ...]] = {edge.id: () for edge in piece.edges}
    for step in range(steps + 1):
        edge = piece.edges[(first + step) % count]
        length = edge.curve.length
        start = enter.arc if step == 0 else 0.0
        end = leave.arc if step == steps else length
        start, end = _snapped(start, length), _snapped(end, length)
        if end - start < TOLERANCES.same_point:
            continue
        id = renamed(edge.id, piece.id, rename) if rename else edge.id
        again = any(part.id == id for part in kept)
        part = edge.part(start, end, f"{id}-2" if again else id)
        kept.append(replace(part, pointed_end=pointed) if step == steps else part)
        mine = EdgePart(rename or piece.id, part.id, start / length, end / length)
        parts[edge.id] = tuple(sorted((*parts[edge.id], mine), key=lambda each: each.low))
    if not kept:
        raise DesignError(f"nothing would be left of {spoken_piece(piece)}", piece.id)
    return CutOutline((*kept, *new), parts)


def renamed(edge: str, old: str, new: str) -> str:
    """The id of an edge when its piece is called `new`: `SF.side` becomes `SF yoke.side`."""
    return new + edge[len(old) :] if edge.startswith(f"{old}.") else f"{new}.{edge}"


def _snapped(arc: float, length: float) -> float:
    return 0.0 if arc < TOLERANCES.same_point else length if arc > length - TOLERANCES.same_point else arc
