"""Ties that are strips of their own, sewn by one end to an opening or caught in the side seam."""

from dataclasses import dataclass, replace
from typing import Final, Literal

import numpy as np

from panelwright.body.worded_length import length_words
from panelwright.design.body_chart import BodyChart
from panelwright.design.joined_back import side_line
from panelwright.design.position import Height, arc_on, refuse_beyond, spoken
from panelwright.design.tie_length import Tying, sash_thumb
from panelwright.design.tie_shape import Strip, TieEnd
from panelwright.design.tied_edge import closed_by, refuse_unfinished
from panelwright.errors import DesignError
from panelwright.geometry.curve import Curve
from panelwright.pattern import level as levels
from panelwright.pattern.closure import Closure
from panelwright.pattern.edge import Edge
from panelwright.pattern.line import Line
from panelwright.pattern.mark import Grain, Mark, as_point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam, SeamRegion, Span
from panelwright.pattern.working import Part

AddedStart = Literal["centre-front", "centre-back", "caught-in-side"]
CLEAR: Final = 10.0  # mm between a tie and the end of its edge, where several are spread, and between two of them
GRAIN: Final = (0.15, 0.85)  # of the strip's length


@dataclass(frozen=True)
class AddedTie:
    """What the maker chose about it.

    Attributes:
        start: where it is sewn on.
        tying: knot and length.
        end_width: mm.
        end: square or pointed.
        height: of its middle, on the edge that it is sewn to; None: at the waist or as near as the edge allows.
    """

    start: AddedStart
    tying: Tying
    end_width: float
    end: TieEnd
    height: Height | None

    def on(self, pattern: Pattern, chart: BodyChart, uid: str, ids: tuple[str, ...]) -> Pattern:
        """The pattern with a pair of strips for each id, from the top down, marked and sewn to the panel.

        A centre that nothing closes yet gets a closure.

        Args:
            pattern: with a top edge and a hem.
            chart: of the block's half.
            uid: of the step.
            ids: of the strips.

        Raises:
            DesignError: one sentence with the remedy, if the centre is not open or the strips have no room.
        """
        number = {"centre-front": 0, "centre-back": len(chart.panels)}.get(self.start, side_line(chart))
        place = self._place(pattern, chart.uprights[number].line)
        middles = self._middles(chart, number, place, len(ids))
        reach, closures = self._closing(pattern, chart, place, middles[0], uid)
        thumb = sash_thumb(reach[0].length) if self.start == "caught-in-side" else None
        working = self.tying.working(f"{uid}/length", "Tie, along its middle from the seam", reach, thumb)
        strips = tuple(
            self._strip(uid, id, "Tie" if len(ids) == 1 else f"Tie {k}", working.length) for k, id in enumerate(ids, 1)
        )
        marked = replace(place.piece, marks=place.piece.marks + tuple(self._marks(place, middles, uid)))
        sewn = tuple(self._seam(place, middle, strip) for middle, strip in zip(middles, strips, strict=True))
        with_panel = pattern.with_pieces(marked)
        return replace(
            with_panel,
            pieces=with_panel.pieces + strips,
            seams=pattern.seams + sewn,
            lines=pattern.lines + _lines(uid),
            closures=pattern.closures + closures,
            workings=(*pattern.workings, working),
        )

    def _place(self, pattern: Pattern, line: str) -> "_Place":
        """The edge that the strips are sewn to: at the side, that of the panel in front."""
        found = [
            _Place(piece, edge)
            for piece, edge in pattern.pieces_on_line(line)
            if piece.layer == "outer" and (self.start != "caught-in-side" or edge.side == "right")
        ]
        if len(found) != 1 or found[0].piece.hand != "both":
            raise DesignError(
                f"{len(found)} edges lie on the {spoken(line)} line and it takes one that both sides share; put the "
                "tie before the step that divides it",
                line,
            )
        refuse_unfinished(found[0].piece, found[0].edge)
        if self.start == "caught-in-side":
            return found[0]
        kind, closure = found[0].edge.kind, closed_by(pattern, self.start)
        if closure is not None:
            return replace(found[0], low=closure.low, high=min(closure.high, found[0].edge.curve.length))
        if kind != "opening":
            is_now = "cut on the fold" if kind == "fold" else "sewn shut"
            raise DesignError(
                f"the {spoken(line)} is {is_now} and ties have nothing to close; put a closure with ties at the "
                f"{spoken(line)} before it",
                line,
            )
        return found[0]

    def _middles(self, chart: BodyChart, number: int, place: "_Place", count: int) -> tuple[float, ...]:
        """Where the middle of each strip lies, mm up the edge, from the top down."""
        width, opened = self.tying.width, place.top - place.low
        inset = width / 2 + (CLEAR if count > 1 else 0.0)
        lowest, highest = place.low + inset, place.top - inset
        if opened < 2 * inset + (count - 1) * (width + CLEAR):
            what = "a tie" if count == 1 else f"{count} ties"
            raise DesignError(
                f"{what} of {length_words(width)} have no room on an edge of {length_words(opened)}; make them "
                "narrower or fewer",
                place.piece.id,
            )
        if count > 1:
            return tuple(float(arc) for arc in np.linspace(highest, lowest, count))
        if self.height is None:
            row = next((k for k, row in enumerate(chart.rows) if row.level == levels.WAIST), len(chart.rows) // 2)
            arc = place.arc(chart.uprights[number].rows[row])
            return (min(max(arc, lowest), highest),)
        upright = chart.uprights[number]
        arc = place.arc(refuse_beyond(chart, number, arc_on(chart, number, self.height)) / upright.length)
        off = max(lowest - arc, arc - highest)
        if off > 0:
            what = "edge" if opened == place.edge.curve.length else "opening"
            change = "raise" if arc < lowest else "lower"
            raise DesignError(
                f"at that height it reaches {length_words(off)} past the end of the {spoken(place.edge.line)} {what}; "
                f"{change} it by that much or leave the height out",
                place.piece.id,
            )
        return (arc,)

    def _closing(
        self, pattern: Pattern, chart: BodyChart, place: "_Place", middle: float, uid: str
    ) -> tuple[tuple[Part, ...], tuple[Closure, ...]]:
        """(what a strip reaches over before its knot, the closure that it makes)."""
        if self.start == "caught-in-side":
            first = side_line(chart)
            beside = chart.uprights[first]
            height = beside.height(place.share(middle) * beside.length)
            width = sum(panel.at(height)[0] for panel in chart.widths[first:])
            return (Part("across the back, from the side to the centre back", width),), ()
        known = closed_by(pattern, self.start)
        if known is not None:
            apart = (("gap", known.gap), ("overlap", known.overlap))
            return tuple(Part(f"half the {name} of the edges", size / 2) for name, size in apart if size), ()
        seam = next((seam.id for seam in pattern.seams if seam.kind == "closure" and place.is_sewn_in(seam)), "")
        made = Closure(uid, self.start, "tie", "", "centre", seam, 0.0, place.edge.curve.length)
        return (), (made,)

    def _strip(self, uid: str, id: str, label: str, length: float) -> Piece:
        """A pair of strips, drawn as it leaves the wearer's right half: at the centre front to the right."""
        way = np.array([1.0 if self.start == "centre-front" else -1.0, 0.0])
        strip = Strip(np.zeros(2), way, length, self.tying.width, self.end_width, self.end)
        (one, other), corners = strip.starts, strip.corners
        edges = (
            Edge(f"{id}.{uid}/seam", f"{uid}/seam", "left", "seam", Curve.straight(other, one)),
            Edge(f"{id}.{uid}/sides", f"{uid}/sides", "left", "finished", Curve.straight(one, corners[0])),
            *strip.end_edges(id, f"{uid}/end"),
            Edge(f"{id}.{uid}/sides-2", f"{uid}/sides", "right", "finished", Curve.straight(corners[-1], other)),
        )
        grain = Grain(*(as_point(share * length * way) for share in GRAIN))
        return Piece.closed(edges, id=id, label=label, extent="one_side", hand="both", grain=grain)

    def _marks(self, place: "_Place", middles: tuple[float, ...], uid: str) -> list[Mark]:
        """Both ends of each strip on the panel's edge."""
        half = self.tying.width / 2
        return [
            Mark(f"{uid}-{k}-{name}", "point", as_point(place.edge.line_curve.point(middle + way * half)))
            for k, middle in enumerate(middles, 1)
            for name, way in (("upper", 1.0), ("lower", -1.0))
        ]

    def _seam(self, place: "_Place", middle: float, strip: Piece) -> Seam:
        """The strip's end on its stretch of the edge, both from the lower end up; it is flat, not run on across."""
        half = self.tying.width / 2
        ends = [(middle - half) / place.edge.curve.length, (middle + half) / place.edge.curve.length]
        low, high = ends if place.edge.along_line else [1.0 - share for share in ends]
        # At the centre front the strip is drawn the other way round, and its end runs down.
        end = (1.0, 0.0) if self.start == "centre-front" else (0.0, 1.0)
        names: dict[AddedStart, tuple[str, SeamRegion]] = {
            "centre-front": ("centre-front", "front"),
            "centre-back": ("centre-back", "back"),
            "caught-in-side": ("front-side", "front"),
        }
        name, region = names[self.start]
        a, b = Span(place.piece.id, place.edge.id, low, high), Span(strip.id, strip.edges[0].id, *end)
        return Seam(f"{strip.id}.{name}", "attach", (a,), (b,), region, blend=False)


@dataclass(frozen=True, eq=False)
class _Place:
    """The edge that strips are sewn to, from `low` to `high` mm up it; None: to its upper end."""

    piece: Piece
    edge: Edge
    low: float = 0.0
    high: float | None = None

    @property
    def top(self) -> float:
        """Where the stretch for strips ends, mm up the edge."""
        return self.edge.curve.length if self.high is None else self.high

    def arc(self, share: float) -> float:
        """mm up the edge at a share of its line; below 0 or past its length where the edge does not reach."""
        low, high = self.edge.interval
        return (share - low) / (high - low) * self.edge.curve.length

    def share(self, arc: float) -> float:
        """Share of its line at an arc up the edge."""
        low, high = self.edge.interval
        return low + arc / self.edge.curve.length * (high - low)

    def is_sewn_in(self, seam: Seam) -> bool:
        """Whether the seam holds the edge."""
        return any(span.edge == self.edge.id for span in seam.a + seam.b)


def _lines(uid: str) -> tuple[Line, ...]:
    labels = {"sides": "Tie, long edges", "end": "Tie, end", "seam": "Tie, sewn end"}
    return tuple(Line(f"{uid}/{slot}", label, uid) for slot, label in labels.items())
