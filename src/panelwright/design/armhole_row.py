"""The armhole of a bodice as a sleeve meets it: front and back, from seam to seam."""

from dataclasses import dataclass

from panelwright.design.attach import next_on
from panelwright.errors import DesignError
from panelwright.file_words import in_file
from panelwright.pattern.line import ARMHOLE, SHOULDER, SIDE
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Span


@dataclass(frozen=True)
class ArmholeRow:
    """Edges from the shoulder down the front to the side, and from the side up the back."""

    front: tuple[Span, ...]
    back: tuple[Span, ...]


def armhole_row(pattern: Pattern) -> ArmholeRow:
    """The armhole of the pattern.

    Raises:
        DesignError: if it has none, something is sewn to it, or both sides of the body are drawn already.
    """
    lines = [line.id for line in pattern.lines if line.id.rpartition("/")[2] == ARMHOLE]
    lines = [line for line in lines if pattern.pieces_on_line(line)]
    if not lines:
        raise DesignError(
            "there is no armhole to set it in; put it after a bodice to the shoulder"
            f"{in_file('a step of kind bodice-top')}"
        )
    line = lines[-1]
    if any(edge.kind == "seam" for _, edge in pattern.pieces_on_line(line)):
        raise DesignError("something is sewn to the armhole already; leave one of the two out")
    spans = _from_shoulder(pattern, line)
    for number, span in enumerate(spans, 1):
        piece = pattern.piece(span.piece)
        if piece.after(pattern.edge(span)).line == SIDE and number < len(spans):
            return ArmholeRow(spans[:number], spans[number:])
    raise DesignError("front and back of the armhole do not meet at a side seam; choose a block of 4 or 6 panels")


def _from_shoulder(pattern: Pattern, line: str) -> tuple[Span, ...]:
    """Its edges from the front shoulder down and up again to the back shoulder, each in the sense of its outline.

    Raises:
        DesignError: if it does not start at one shoulder and end at one.
    """
    edges = {edge.id: (piece, edge) for piece, edge in pattern.pieces_on_line(line) if piece.layer == "outer"}
    firsts = [id for id, (piece, edge) in edges.items() if _shoulder(piece.before(edge).line)]
    order = firsts[:1]
    while len(firsts) == 1 and not _shoulder((place := edges[order[-1]])[0].after(place[1]).line):
        after = next_on(pattern, *place, line)
        if after is None or after in order:
            break
        order.append(after)
    if len(firsts) != 1 or len(order) < len(edges):
        raise DesignError(
            "its armhole is not one line from shoulder to shoulder; put the sleeve before steps that cut the bodice "
            "apart or draw both sides of it"
        )
    return tuple(Span(edges[id][0].id, id) for id in order)


def _shoulder(line: str) -> bool:
    return line.rpartition("/")[2] == SHOULDER
