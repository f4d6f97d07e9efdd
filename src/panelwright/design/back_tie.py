"""A tie that is the back itself: all panels behind the side, joined and run on past the centre back."""

from dataclasses import dataclass, replace
from typing import Final, Literal, get_args

import numpy as np
from shapely import Polygon

from panelwright.design.back_dart import BackDart
from panelwright.design.body_chart import BodyChart
from panelwright.design.edge_cut import put_in_place
from panelwright.design.joined_back import JoinedBack, join_back
from panelwright.design.outline_cut import CutOutline, OutlinePlace, cut_outline
from panelwright.design.position import Height
from panelwright.design.remnant import Remnant, remnant
from panelwright.design.tie_axis import TieAxis, tie_axis
from panelwright.design.tie_grain import panel_grain
from panelwright.design.tie_length import Tying, back_thumb
from panelwright.design.tie_shape import Strip, TieEnd
from panelwright.design.tied_edge import closed_by, refuse_unfinished
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.pattern import line as lines
from panelwright.pattern.closure import Closure
from panelwright.pattern.edge import Edge
from panelwright.pattern.line import Line
from panelwright.pattern.mark import Grain, as_point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.working import Part, Working

Misfit = Literal["eased", "dart"]
MISFITS: Final[tuple[str, ...]] = get_args(Misfit)

LEAVE, ARRIVE = 0.3, 0.5  # control points of an edge's curve, as shares of its way along the tie
GRAIN: Final = (0.15, 0.85)  # of the tie's length, where its grain runs along it


@dataclass(frozen=True)
class BackTie:
    """What the maker chose about it.

    Attributes:
        tying: knot and length.
        end_width: mm.
        end: square or pointed.
        height: where the middle of the tie passes the centre back; None: at the waist, or as near as the side allows.
        misfit: what becomes of the fullness where panels are joined: `eased` into the knot, or sewn as a `dart`.
        grain_along: the grain runs along the tie, and not as in the panel at the side.
    """

    tying: Tying
    end_width: float
    end: TieEnd
    height: Height | None
    misfit: Misfit
    grain_along: bool

    def on(self, pattern: Pattern, chart: BodyChart, uid: str, id: str, label: str) -> Pattern:
        """The pattern with its back made a tie; levels that ran through the back leave it, their lines stay as guides.

        Args:
            pattern: with a top edge and a hem.
            chart: of the block's half.
            uid: of the step.
            id, label: of the piece.

        Raises:
            DesignError: one sentence with the remedy, if the back is no plain row of panels or the tie has no room.
        """
        closed_by(pattern, "centre-back")
        back = join_back(pattern, chart, label)
        refuse_unfinished(back.piece, back.side)
        axis = tie_axis(back, self.height, self.tying.width)
        working = self._working(back, axis, uid, ())
        outline = _outline(back, axis, self._strip(axis, working, ()), (uid, id))
        darts = self._darts(back, outline, uid)
        if darts:
            working = self._working(back, axis, uid, darts)
            outline = _outline(back, axis, self._strip(axis, working, darts), (uid, id))
        rest = self._remnant(back, axis, outline, working, darts, (id, label))
        sewn = put_in_place(_with_lines(back.pattern, uid), {back.piece.id: rest}, outline.parts, _lines(uid)[-1])
        guide = sewn.piece(id).inside_line(lines.CENTRE_BACK)
        height = guide.curve.length if guide else self.tying.width
        closure = Closure(uid, "centre-back", "tie", "", "centre", "", 0.0, height)
        others = tuple(each for each in sewn.closures if each.place != "centre-back")
        return replace(
            sewn,
            closures=(*others, closure),
            workings=(*sewn.workings, working, *_fullness(back, uid, darts)),
        )

    def _working(self, back: JoinedBack, axis: TieAxis, uid: str, darts: tuple[BackDart, ...]) -> Working:
        """The length along the middle of the finished tie, from the side."""
        sewn = axis.reach - _taken_up(axis, darts)
        width = back.width(axis.height) if back.gaps else sewn
        reach = [Part("across the back, from the side to the centre back", width)]
        if back.gaps:
            reach.append(Part("fullness left where the back panels are joined", sewn - width))
        if axis.run_out:
            reach.append(Part("past the centre back, until it is narrow enough to knot", axis.run_out))
        thumb = back_thumb(self.tying.knot, width)
        return self.tying.working(f"{uid}/length", "Tie, along its middle from the side", tuple(reach), thumb)

    def _strip(self, axis: TieAxis, working: Working, darts: tuple[BackDart, ...]) -> Strip:
        start = axis.centre + axis.run_out * axis.direction
        length = working.length - (axis.reach - _taken_up(axis, darts)) - axis.run_out
        return Strip(start, axis.direction, length, self.tying.width, self.end_width, self.end)

    def _darts(self, back: JoinedBack, outline: CutOutline, uid: str) -> tuple[BackDart, ...]:
        if self.misfit == "eased":
            return ()
        ring = _ring(outline)
        found = (gap.dart(f"{uid}/dart-{k}", ring) for k, gap in enumerate(back.gaps, 1))
        return tuple(dart for dart in found if dart)

    def _remnant(
        self,
        back: JoinedBack,
        axis: TieAxis,
        outline: CutOutline,
        working: Working,
        darts: tuple[BackDart, ...],
        name: tuple[str, str],
    ) -> Remnant:
        """What the joined back leaves in the tie. None of its levels is whole: the panels do not lie as on the body."""
        id, label = name
        cut = [edge.curve for edge in outline.edges[1:]]
        rest = remnant(back.piece, outline.edges, cut, id=id, label=label)
        if self.grain_along:
            grain = Grain(*(as_point(axis.side + share * working.length * axis.direction) for share in GRAIN))
        else:
            grain = panel_grain(_ring(outline), back.piece.grain, axis.side, axis.centre)
        kept = tuple(replace(line, kind="guide") if line.kind == "level" else line for line in rest.lines)
        sewn = tuple(line for dart in darts for line in dart.lines)
        return replace(
            rest, fields={**rest.fields, "grain": grain}, lines=kept + sewn, whole=frozenset(), laid=frozenset()
        )


def _ring(outline: CutOutline) -> Polygon:
    return Polygon(np.concatenate([edge.curve.polyline()[:-1] for edge in outline.edges]))


def _taken_up(axis: TieAxis, darts: tuple[BackDart, ...]) -> float:
    return sum(dart.takes_up(axis.side, axis.direction) for dart in darts)


def _fullness(back: JoinedBack, uid: str, darts: tuple[BackDart, ...]) -> tuple[Working, ...]:
    """The misfit of the joined edges as a working of its own."""
    if not back.gaps:
        return ()
    parts = [Part(f"{gap.label}, where their edges stand farthest apart", gap.widest) for gap in back.gaps]
    parts += [Part("taken up by a dart", -dart.width) for dart in darts]
    note = "What is left is eased in: it is drawn into the knot when the tie is pulled tight."
    return (Working(f"{uid}/fullness", "Fullness of the joined back", tuple(parts), None, 0.0, 0.0, note),)


def _lines(uid: str) -> tuple[Line, ...]:
    labels = {"upper": "Tie, upper edge", "end": "Tie, end", "lower": "Tie, lower edge"}
    return tuple(Line(f"{uid}/{slot}", label, uid) for slot, label in labels.items())


def _with_lines(pattern: Pattern, uid: str) -> Pattern:
    """The pattern with all but the last of the tie's lines, which is put in with the pieces."""
    return replace(pattern, lines=pattern.lines + _lines(uid)[:-1])


def _outline(back: JoinedBack, axis: TieAxis, strip: Strip, name: tuple[str, str]) -> CutOutline:
    """The edge at the side as it was, then upper edge, end and lower edge of the tie."""
    uid, id = name
    piece, side = back.piece, back.side
    above, below = piece.after(side), piece.before(side)
    corners, starts = strip.corners, strip.starts
    upper = _drawn_in(axis.top, above.curve.start_tangent, starts[0], corners[0], strip.direction)
    lower = _drawn_in(axis.bottom, -below.curve.end_tangent, starts[1], corners[-1], strip.direction)
    new = (
        Edge(f"{id}.{uid}/upper", f"{uid}/upper", "left", "finished", upper),
        *strip.end_edges(id, f"{uid}/end"),
        Edge(f"{id}.{uid}/lower", f"{uid}/lower", "right", "finished", lower.reversed(), pointed_end=below.pointed_end),
    )
    leave, enter = OutlinePlace(side.id, side.curve.length), OutlinePlace(side.id, 0.0)
    return cut_outline(piece, leave, enter, new, side.pointed_end, id)


def _drawn_in(corner: Array, leaving: Array, start: Array, end: Array, direction: Array) -> Curve:
    """From a corner at the side in the direction of the old edge, smoothly into the strip's straight edge."""
    way = float((start - corner) @ direction)
    strip = (end - start) / np.linalg.norm(end - start)
    bend = Curve(np.array([[corner, corner + LEAVE * way * leaving, start - ARRIVE * way * strip, start]]))
    return bend.joined(Curve.straight(start, end))
