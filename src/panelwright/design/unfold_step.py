"""The step that draws both sides of the body."""

from dataclasses import dataclass, replace
from typing import ClassVar

from panelwright.design.dart import PIVOT
from panelwright.design.step import blamed, checked_uid
from panelwright.design.unfold import LEFT, unfold
from panelwright.errors import DesignError
from panelwright.pattern.line import Line
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Seam, Span

SPOKEN = "unfold"


@dataclass(frozen=True)
class Unfold:
    """Opens what is on the fold and draws both pieces of every pair, so that the two sides may differ from there on.

    A piece on the fold keeps its code. Half of a pair keeps it for the wearer's right side; the left one is called
    `<code>/left`.

    Attributes:
        uid: permanent name in the design.
    """

    kind: ClassVar[str] = "unfold"
    needs_shoulder: ClassVar[bool] = False

    uid: str

    def __post_init__(self) -> None:
        checked_uid(self.uid)

    @property
    def label(self) -> str:
        """`Unfold`."""
        return "Unfold"

    @property
    def slots(self) -> tuple[str, ...]:
        """None: no line is new."""
        return ()

    @property
    def uses(self) -> frozenset[str]:
        """No earlier step."""
        return frozenset()

    def apply(self, pattern: Pattern, block: Pattern) -> Pattern:  # noqa: ARG002  # every step is given the block
        """The pattern with both sides.

        Raises:
            DesignError: if it is drawn for both sides already, or a whole piece is sewn to half of a pair.
        """
        with blamed(self.uid, SPOKEN):
            unfolded = unfold(pattern)
            if len(unfolded.pieces) == len(pattern.pieces) and all(
                piece.extent != "half_on_fold" for piece in pattern.pieces
            ):
                raise DesignError("every piece is drawn for one side or entire already; take this step out")
            return _with_left_darts(unfolded)


def _with_left_darts(pattern: Pattern) -> Pattern:
    """The pattern with the left twin of every dart on a line of its own, `<line>/left`, as any other dart lies."""
    known = {line.id for line in pattern.lines}
    for seam in pattern.seams:
        line = pattern.edge(seam.a[0]).line
        twin = f"{line}{LEFT}"
        if seam.kind == "dart" and seam.id == twin and twin not in known:
            pattern = _on_own_line(pattern, seam, line, twin)
    return pattern


def _on_own_line(pattern: Pattern, seam: Seam, line: str, twin: str) -> Pattern:
    piece = pattern.piece(seam.a[0].piece)
    legs = {span.edge for span in seam.a + seam.b}
    edges = tuple(replace(edge, line=twin) if edge.id in legs else edge for edge in piece.edges)
    names = {f"{line}{PIVOT}{LEFT}": f"{twin}{PIVOT}"}
    if not any(edge.line == line for edge in edges):
        names[f"{line}{PIVOT}"] = f"{twin}{PIVOT}"
    marks = tuple(replace(mark, id=names.get(mark.id, mark.id)) for mark in piece.marks)
    # Turned over, the outline runs along the other leg first.
    first, second = sorted((edge for edge in edges if edge.id in legs), key=lambda edge: edge.side != "left")
    sewn = replace(seam, a=(Span(piece.id, first.id),), b=(Span(piece.id, second.id, 1.0, 0.0),), ease=-seam.ease)
    own = pattern.line(line)
    changed = replace(pattern, lines=(*pattern.lines, Line(twin, f"{own.label}, left", own.origin)))
    changed = changed.with_pieces(replace(piece, edges=edges, marks=marks))
    return replace(changed, seams=tuple(sewn if each.id == seam.id else each for each in changed.seams))
