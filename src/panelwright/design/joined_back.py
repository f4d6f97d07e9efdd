"""The panels behind the side made one, as the cloth that a tie grows out of."""

from dataclasses import dataclass, replace
from math import ceil

from panelwright.design.back_dart import JoinGap
from panelwright.design.body_chart import BodyChart, Upright
from panelwright.design.join import join_pieces
from panelwright.design.position import spoken
from panelwright.errors import DesignError
from panelwright.file_words import in_file
from panelwright.pattern import line as lines
from panelwright.pattern.edge import Edge
from panelwright.pattern.mark import InsideLine
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.spoken_piece import spoken_piece


@dataclass(frozen=True, eq=False)
class JoinedBack:
    """A pattern whose back is one piece a side.

    Attributes:
        pattern: with the joined piece.
        piece: the joined piece; it has the id of the panel nearest the side.
        gaps: what the joined edges leave between them, from the side to the centre back.
        chart: of the block's half.
        first: number of the upright line at the side, which is also that of the first panel behind it.
    """

    pattern: Pattern
    piece: Piece
    gaps: tuple[JoinGap, ...]
    chart: BodyChart
    first: int

    @property
    def at_side(self) -> Upright:
        """The line at the side."""
        return self.chart.uprights[self.first]

    @property
    def at_centre(self) -> Upright:
        """The centre back."""
        return self.chart.uprights[-1]

    @property
    def side(self) -> Edge:
        """The edge at the side."""
        return only_edge(self.piece, self.at_side.line)

    @property
    def centre(self) -> Edge:
        """The edge at the centre back."""
        return only_edge(self.piece, self.at_centre.line)

    def width(self, height: float) -> float:
        """Width of the panels at a height on the wearer, mm above the waist, before they were joined, mm."""
        return sum(width.at(height)[0] for width in self.chart.widths[self.first :])


def side_line(chart: BodyChart) -> int:
    """Number of the side seam; where a panel stands at the side, of the first seam behind it."""
    return ceil(chart.side)


def only_edge(piece: Piece, line: str) -> Edge:
    """The edge of a piece on a line.

    Raises:
        DesignError: if there is not just one.
    """
    found = piece.on_line(line)
    if len(found) != 1:
        raise DesignError(
            f"{spoken_piece(piece)} has {len(found)} edges on the {spoken(line)} line; put the tie before the step "
            "that "
            "divides or removes it",
            piece.id,
        )
    return found[0]


def join_back(pattern: Pattern, chart: BodyChart, label: str) -> JoinedBack:
    """The pattern with all panels behind the side joined, and the centre back drawn in as a guide.

    Args:
        pattern: with a top edge and a hem.
        chart: of the block's half.
        label: of the joined piece.

    Raises:
        DesignError: if a panel is gone, is cut on a fold, or was drawn for one side of the body only.
    """
    first = side_line(chart)
    panels = [_panel(pattern, walked.piece.id) for walked in chart.panels[first:]]
    gaps = []
    for k, panel in enumerate(panels[1:]):
        seam = chart.uprights[first + 1 + k].line
        before, other = only_edge(pattern.piece(panels[0].id), seam), only_edge(panel, seam)
        pattern = join_pieces(pattern, seam, panels[0].id, label)
        region = next(r for r in pattern.piece(panels[0].id).material if r.panel == panel.material[0].panel)
        laid = region.placement.after(panel.material[0].placement.inverse)
        name = f"{panels[k].label} to {panel.label.lower()}"
        gaps.append(JoinGap(name, before.line_curve, other.line_curve.placed(laid)))
    joined = pattern.piece(panels[0].id)
    guide = InsideLine(lines.CENTRE_BACK, "guide", only_edge(joined, lines.CENTRE_BACK).line_curve)
    piece = replace(joined, label=label, inside=(*joined.inside, guide))
    return JoinedBack(pattern.with_pieces(piece), piece, tuple(gaps), chart, first)


def _panel(pattern: Pattern, id: str) -> Piece:
    if not pattern.has_piece(id) or not pattern.piece(id).material:
        raise DesignError(
            "a back panel is no longer there; put the tie before the step that changes it, or start it from the centre "
            "back",
            id,
        )
    piece = pattern.piece(id)
    if any(edge.kind == "fold" for edge in piece.edges):
        raise DesignError(
            f"{spoken_piece(piece)} is cut on the fold; let the block open at the centre back"
            f"{in_file('block.centre_back, opening')}, or put a closure with ties at the centre back first",
            id,
        )
    if piece.extent != "one_side" or piece.hand != "both":
        raise DesignError(
            f"{spoken_piece(piece)} is drawn for one side of the body only; put the tie before unfolding", id
        )
    return piece
