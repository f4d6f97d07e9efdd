"""Which edges a facing turns, and how wide it is there."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Self

from panelwright.finish.options import Finish
from panelwright.pattern.closure import ClosureKind
from panelwright.pattern.edge import Edge
from panelwright.pattern.line import SHOULDER, is_hem
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam

# Closures whose edges need a second layer: button stands, and edges with eyelets.
FACED_CLOSURES: Final[tuple[ClosureKind, ...]] = ("buttons", "lacing")
# A shoulder edge that would keep less than this beside a band is faced across, mm.
APART: Final = 15.0


@dataclass(frozen=True)
class FacingPlan:
    """The width of the facing along every edge of a shell.

    Attributes:
        widths: edge id -> mm; edges that are not there are not faced.
        hems: lines of the hem.
        whole: pieces that are cut again whole: strips, ties, and panels that run out into a tie.
    """

    widths: Mapping[str, float]
    hems: frozenset[str]
    whole: frozenset[str]

    @classmethod
    def of(cls, pattern: Pattern, options: Finish, across: bool = False) -> Self:
        """The plan for the outer pieces of a shell; `across`: the facing runs on across every shoulder."""
        hems = hem_lines(pattern)
        closed = {one.place for one in pattern.closures if one.kind in FACED_CLOSURES and one.hand == "centre"}
        ties = {step.uid for step in pattern.steps if step.kind == "tie"}
        drawn = {line.id for line in pattern.lines if line.origin in ties}
        widths: dict[str, float] = {}
        whole: set[str] = set()
        for piece in pattern.pieces:
            if not piece.material or any(edge.line in drawn for edge in piece.edges):
                whole.add(piece.id)
            for edge in piece.edges:
                if edge.kind == "finished":
                    widths[edge.id] = options.hem_facing_width if edge.line in hems else options.facing_width
                elif edge.kind == "opening" and edge.line in closed:
                    widths[edge.id] = options.facing_width
        for seam in pattern.seams:
            if is_shoulder(pattern.edge(seam.a[0]).line) and (across or _meet(pattern, seam, options.facing_width)):
                widths.update({span.edge: options.facing_width for span in seam.a + seam.b})
        return cls({id: width for id, width in widths.items() if width}, hems, frozenset(whole))

    def width(self, edge: Edge) -> float:
        """mm; 0 where the edge is not faced."""
        return self.widths.get(edge.id, 0.0)

    def runs(self, piece: Piece) -> tuple[tuple[Edge, ...], ...]:
        """The faced edges of a piece as runs of neighbours, each in outline order; all of them as one if all are."""
        edges = piece.edges
        faced = [self.width(edge) > 0.0 for edge in edges]
        if all(faced):
            return (edges,)
        first = faced.index(False)
        runs: list[list[Edge]] = []
        for k in range(1, len(edges) + 1):
            here = (first + k) % len(edges)
            if faced[here]:
                if not faced[here - 1]:
                    runs.append([])
                runs[-1].append(edges[here])
        return tuple(tuple(run) for run in runs)


def hem_lines(pattern: Pattern) -> frozenset[str]:
    """The block's hem and every hem that a step drew."""
    return frozenset(line.id for line in pattern.lines if is_hem(line))


def is_shoulder(line: str) -> bool:
    """Whether a line is the shoulder of the block, of a bodice or of a strap."""
    return line.rpartition("/")[2] == SHOULDER


def _meet(pattern: Pattern, seam: Seam, width: float) -> bool:
    """Whether the bands of neckline and armhole meet at a shoulder seam, so that the facing runs on across it.

    They stay apart only where each has room within the panel that it starts on: a band never ends beside a princess
    seam that runs up to the shoulder.
    """
    for chain in (seam.a, seam.b):
        first, last = (pattern.edge(span).curve.length * span.share for span in (chain[0], chain[-1]))
        if len(chain) == 1 and first < 2 * width + APART:
            return True
        if min(first, last) < width + APART:
            return True
    return False
