"""A straight waistband, cut from the waist that it is sewn to."""

import math
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import ClassVar, Final

from panelwright.body.worded_length import given_words, range_words
from panelwright.design.attach import EdgeRow, row_on
from panelwright.design.band_opening import BandOpening, opening_of
from panelwright.design.step import blamed, checked_uid
from panelwright.design.without_meaning import is_skirt
from panelwright.errors import DesignError
from panelwright.geometry.curve import Curve
from panelwright.pattern.edge import Edge
from panelwright.pattern.line import WAIST_EDGE, Line
from panelwright.pattern.mark import Grain, InsideLine
from panelwright.pattern.notion import Notion
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam, Span
from panelwright.pattern.working import Part, Working

BAND_WIDTHS: Final = (10.0, 120.0)
OVERLAPS: Final = (0.0, 100.0)
_GRAIN_SHARE: Final = 0.7


@dataclass(frozen=True)
class Waistband:
    """A band along the whole waist of a skirt, cut in one along the straight grain, that closes where the skirt opens.

    Attributes:
        uid: permanent name; slots `edge` (its upper edge, or the inner one of a folded band), `ends` and `overlap`.
        width: finished, mm.
        overlap: by which its ends lap, mm: added to the end that lies underneath (common practice: the wearer's left
            at a centre, the back at a side).
        folded: cut twice as wide with a fold along its upper edge; else a band of one width, to be faced.

    Raises:
        DesignError: if a number is out of range.
    """

    kind: ClassVar[str] = "waistband"
    needs_shoulder: ClassVar[bool] = False

    uid: str
    width: float = 30.0
    overlap: float = 30.0
    folded: bool = True

    def __post_init__(self) -> None:
        checked_uid(self.uid)
        with blamed(self.uid, "waistband"):
            for what, given, limits in (
                ("width", self.width, BAND_WIDTHS),
                ("overlap", self.overlap, OVERLAPS),
            ):
                if not (math.isfinite(given) and limits[0] <= given <= limits[1]):
                    words = range_words(*limits, "and")
                    raise DesignError(f"its {what} is {given_words(given)}; give between {words}", what)

    @property
    def label(self) -> str:
        """`Waistband`."""
        return "Waistband"

    @property
    def slots(self) -> tuple[str, ...]:
        """Its free edges."""
        return ("edge", "ends", "overlap")

    @property
    def uses(self) -> frozenset[str]:
        """No earlier step."""
        return frozenset()

    def apply(self, pattern: Pattern, block: Pattern) -> Pattern:
        """The pattern with the band sewn to every waist edge, and a hook to shut it.

        Raises:
            DesignError: if there is no waist edge, it is sewn already, or the skirt opens nowhere.
        """
        with blamed(self.uid, "waistband"):
            if not is_skirt(block):
                raise DesignError("a waistband goes to the waist of a skirt; leave it out, or start from a skirt block")
            if any(edge.kind == "seam" for _, edge in pattern.pieces_on_line(WAIST_EDGE)):
                raise DesignError("the waist is sewn to something already; leave one of the two out")
            row = row_on(pattern, WAIST_EDGE)
            opening = opening_of(pattern, row)
            piece = self._piece(row, opening)
        chain = Seam(self.uid, "attach", opening.chain(row), (Span(piece.id, f"{piece.id}.{WAIST_EDGE}"),), "front")
        slots = zip(self.slots, ("Waistband, free edge", "Waistband, ends", "Waistband, overlap"), strict=True)
        lines = tuple(Line(f"{self.uid}/{slot}", label, self.uid) for slot, label in slots)
        return replace(
            pattern,
            pieces=(*_sewn(pattern, {span.edge for span in row.spans}), piece),
            seams=(*pattern.seams, chain),
            lines=(*pattern.lines, *lines),
            workings=(*pattern.workings, self._working(row)),
            notions=(
                *pattern.notions,
                Notion("hook", "hook and bar for a waistband", 1, step=self.uid, detail="on the ends of the band"),
            ),
        )

    def _working(self, row: EdgeRow) -> Working:
        parts = (Part("the waist of the skirt, all round", 2 * row.length), Part("overlap", self.overlap))
        note = "It is as long as the edge that it is sewn to: hold it round the waist before it is cut."
        return Working(f"{self.uid}/length", "Waistband", parts, note=note)

    def _piece(self, row: EdgeRow, opening: BandOpening) -> Piece:
        """A rectangle, its sewn edge below, as it lies round the wearer seen from outside; x runs from 0."""
        high = self.width * (2 if self.folded else 1)
        low = self.overlap if opening.laps_at_start else 0.0
        long = 2 * row.length
        corners = [(low, 0.0), (low + long, 0.0)]
        whole = long + self.overlap
        around = [(whole, 0.0), (whole, high), (0.0, high), (0.0, 0.0)]
        below = [*([(0.0, 0.0)] if low else []), *corners, *([(whole, 0.0)] if self.overlap > 0 and not low else [])]
        edges = []
        for start, end in pairwise(below):
            sewn = start == corners[0]
            line = WAIST_EDGE if sewn else f"{self.uid}/overlap"
            curve = Curve.straight(start, end)
            edges.append(
                Edge(f"{self.uid}.{line}", line, "right", "seam", curve)
                if sewn
                else Edge(f"{self.uid}.{line}", line, "left", "finished", curve)
            )
        for start, end, name, number in zip(around, around[1:], ("ends", "edge", "ends"), ("", "", "-2"), strict=False):
            line = f"{self.uid}/{name}"
            edges.append(Edge(f"{self.uid}.{line}{number}", line, "left", "finished", Curve.straight(start, end)))
        fold = InsideLine("fold", "fold", Curve.straight((0.0, self.width), (whole, self.width)))
        middle, half = self.width / 2, _GRAIN_SHARE * whole / 2
        grain = Grain((whole / 2 - half, middle), (whole / 2 + half, middle))
        inside = (fold,) if self.folded else ()
        return Piece.closed(
            tuple(edges), id=self.uid, label=self.label, extent="whole", hand="both", grain=grain, inside=inside
        )


def _sewn(pattern: Pattern, ids: set[str]) -> tuple[Piece, ...]:
    """The pieces with those edges to be sewn."""
    return tuple(
        replace(piece, edges=tuple(replace(edge, kind="seam") if edge.id in ids else edge for edge in piece.edges))
        if any(edge.id in ids for edge in piece.edges)
        else piece
        for piece in pattern.pieces
    )
