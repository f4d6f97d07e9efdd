"""Strips that are sewn to a row of edges: straight and gathered, or cut in a curve so that they flare."""

import math
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from panelwright.body.worded_length import length_words
from panelwright.design.attach import EdgeRow, row_on
from panelwright.design.grain_place import grain_inside
from panelwright.design.position import spoken
from panelwright.errors import DesignError
from panelwright.geometry.arc import arc_from
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.geometry.placement import Placement
from panelwright.pattern import line as lines
from panelwright.pattern.edge import Edge, EdgeKind
from panelwright.pattern.line import Line
from panelwright.pattern.mark import Grain
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Extent, Piece
from panelwright.pattern.seam import Seam, SeamKind, SeamRegion, Span

STRAIGHT_RATIO: Final = 1.0 + 1e-9
MOST_TURN: Final = math.radians(340.0)  # of a ring that one piece can be
MOST_OF_HALF: Final = math.radians(178.0)  # of one that is half of a piece, on one side of its centre line
GRAIN: Final = (0.15, 0.85)  # of the strip's width


@dataclass(frozen=True)
class Band:
    """A strip.

    Attributes:
        uid, label: of the step and the piece; the piece's code is `id`.
        width: mm from the sewn edge to the free one.
        gathering: length of its sewn edge in lengths of what it is sewn to, 1 or more.
        flare: length of its free edge in lengths of its sewn one, 1 or more.
    """

    id: str
    uid: str
    label: str
    width: float
    gathering: float
    flare: float

    def on_edges(self, pattern: Pattern, line: str) -> Pattern:
        """The pattern with the strip sewn to the finished edges on a line, which become seam edges.

        Cut on the fold where they are, and closed where they are.

        Raises:
            DesignError: if the edges are not one row, or the ring would close on itself.
        """
        row = row_on(pattern, line)
        left, right = row.ends
        if left.kind == "fold" and right.kind == "fold":
            raise DesignError(
                f"the edges on {spoken(line)} run from fold to fold; open the garment at one of the centres first",
                line,
            )
        free = Line(f"{self.uid}/edge", f"{self.label}, edge", self.uid)
        piece = self._piece(row.length * self.gathering, row)
        sewn = {span.edge for span in row.spans}
        pieces = tuple(
            replace(p, edges=tuple(replace(e, kind="seam") if e.id in sewn else e for e in p.edges))
            if any(e.id in sewn for e in p.edges)
            else p
            for p in pattern.pieces
        )
        top = Line(f"{self.uid}/top", f"{self.label}, sewn edge", self.uid)
        seam = Seam(
            self.uid, "attach", row.spans, (Span(self.id, f"{self.id}.{top.id}", 1.0, 0.0),),
            "front", self.gathering, blend=False,
        )  # fmt: skip
        return replace(
            pattern,
            pieces=(*pieces, piece),
            lines=(*pattern.lines, top, free),
            seams=(*pattern.seams, seam, *self._closing(piece, left, right)),
        )

    def in_seam(self, pattern: Pattern, seam: Seam) -> Pattern:
        """The pattern with the strip caught in a seam between two pieces; its ends are finished.

        The strip belongs to one side of the wearer where the pieces do.
        """
        length = pattern.chain_length(seam.a) * self.gathering
        owner = pattern.piece(seam.a[0].piece)
        extent: Extent = "whole" if owner.extent == "whole" else "one_side"
        ends = Line(f"{self.uid}/ends", f"{self.label}, ends", self.uid)
        free = Line(f"{self.uid}/edge", f"{self.label}, edge", self.uid)
        top = Line(f"{self.uid}/top", f"{self.label}, sewn edge", self.uid)
        curves = self._curves(length, MOST_TURN)
        edges = (
            self._edge(free.id, "right", "finished", curves[0]),
            self._edge(ends.id, "left", "finished", curves[1]),
            self._edge(top.id, "left", "seam", curves[2]),
            replace(self._edge(ends.id, "right", "finished", curves[3]), id=f"{self.id}.{ends.id}-2"),
        )
        hand = owner.hand if extent == "one_side" else "both"
        piece = Piece.closed(edges, id=self.id, label=self.label, extent=extent, hand=hand, grain=self._grain(curves))
        # What is caught in a side seam is no side seam: its notch need not keep clear of others.
        region: SeamRegion = "back" if seam.region == "back" else "front"
        attached = Seam(
            self.uid, "attach", seam.a, (Span(self.id, f"{self.id}.{top.id}", 1.0, 0.0),), region, self.gathering,
            blend=False,
        )  # fmt: skip
        piece = replace(piece, grain=grain_inside(piece.outline, piece.grain))
        return replace(
            pattern,
            pieces=(*pattern.pieces, piece),
            lines=(*pattern.lines, top, free, ends),
            seams=(*pattern.seams, attached),
        )

    def _piece(self, length: float, row: EdgeRow) -> Piece:
        left, right = row.ends
        extent: Extent = "whole" if right.line == left.line else "one_side"
        extent = "half_on_fold" if "fold" in (left.kind, right.kind) else extent
        curves = self._curves(length, MOST_TURN if extent == "whole" else MOST_OF_HALF)
        if left.kind == "fold":
            curves = self._fold_left(curves)
        ids = f"{self.id}.{right.line}", f"{self.id}.{left.line}"
        if ids[0] == ids[1]:
            ids = f"{ids[0]}-right", f"{ids[1]}-left"
        edges = (
            self._edge(f"{self.uid}/edge", "right", "finished", curves[0]),
            Edge(ids[0], right.line, "left", _end_kind(right.kind), curves[1]),
            self._edge(f"{self.uid}/top", "left", "seam", curves[2]),
            Edge(ids[1], left.line, "right", _end_kind(left.kind), curves[3]),
        )
        grain = self._grain(curves)
        if left.kind == "fold":
            grain = Grain(*(_inside(curves[3], share) for share in GRAIN[::-1]))
        elif right.kind == "fold" or lines.is_centre_front(right.line):
            grain = Grain(*(_inside(curves[1], share) for share in GRAIN))
        piece = Piece.closed(edges, id=self.id, label=self.label, extent=extent, hand="both", grain=grain)
        return replace(piece, grain=grain_inside(piece.outline, grain))

    def _edge(self, line: str, side: str, kind: EdgeKind, curve: Curve) -> Edge:
        return Edge(f"{self.id}.{line}", line, "left" if side == "left" else "right", kind, curve)

    def _curves(self, length: float, most: float) -> tuple[Curve, Curve, Curve, Curve]:
        """Free edge, right end, sewn edge and left end in outline order; the right end lies at x = 0, upright.

        Raises:
            DesignError: if a ring would turn by more than `most`, radians.
        """
        if self.flare < STRAIGHT_RATIO:
            corners = [(-length, -self.width), (0.0, -self.width), (0.0, 0.0), (-length, 0.0)]
            sides = [Curve.straight(corners[k], corners[(k + 1) % 4]) for k in range(4)]
            return sides[0], sides[1], sides[2], sides[3]
        # Of two arcs about one centre the lengths are as the radii, which differ by the width.
        inner = self.width / (self.flare - 1)
        turn = length / inner
        if turn > most:
            raise DesignError(
                f"a strip {length_words(self.width)} wide that flares so much from an edge of {length_words(length)} "
                f"turns by {math.degrees(turn):.0f}°, more than one piece can; make it wider, or flare it less",
                self.uid,
            )
        outer = inner + self.width
        # The right end lies straight below the centre, and its upper corner where a straight strip has it.
        up = Placement(0.0, 0.0, inner)
        sewn, free = _arc(inner, turn).placed(up), _arc(outer, turn).placed(up)
        return free, Curve.straight(free.end, sewn.end), sewn.reversed(), Curve.straight(sewn.start, free.start)

    def _fold_left(self, curves: tuple[Curve, Curve, Curve, Curve]) -> tuple[Curve, Curve, Curve, Curve]:
        """Turned so that the left end is upright."""
        chord = curves[3].chord
        angle = -math.pi / 2 - math.atan2(chord[1], chord[0])
        c, s = math.cos(angle), math.sin(angle)
        matrix = np.array([[c, s], [-s, c]])
        turned = [Curve(curve.cubics @ matrix) for curve in curves]
        return turned[0], turned[1], turned[2], turned[3]

    def _grain(self, curves: tuple[Curve, Curve, Curve, Curve]) -> Grain:
        """Across the strip in its middle."""
        low, high = (curve.point(curve.length / 2) for curve in (curves[0], curves[2]))
        ends = [low + share * (high - low) for share in GRAIN]
        return Grain((float(ends[0][0]), float(ends[0][1])), (float(ends[1][0]), float(ends[1][1])))

    def _closing(self, piece: Piece, left: Edge, right: Edge) -> tuple[Seam, ...]:
        """How its ends close: each on its own mirror image, or one on the other when it is whole."""
        here, there = piece.edges[3], piece.edges[1]
        if right.line == left.line:
            kind: SeamKind = "closure" if here.kind == "opening" else "join"
            ends = Span(piece.id, here.id, 1.0, 0.0), Span(piece.id, there.id)
            return (Seam(f"{piece.id}/{left.line}", kind, (ends[0],), (ends[1],), _region(left.line)),)
        return tuple(
            Seam(
                f"{piece.id}/{edge.line}", "closure" if edge.kind == "opening" else "join",
                (Span(piece.id, edge.id, *ends),), (Span(piece.id, edge.id, *ends, "mirror"),), _region(edge.line),
            )
            for edge, ends in ((here, (1.0, 0.0)), (there, (0.0, 1.0)))
            if edge.kind in ("opening", "seam")
        )  # fmt: skip


def _arc(radius: float, turn: float) -> Curve:
    """An arc about the origin from the left to straight below it, anticlockwise."""
    first = -math.pi / 2 - turn
    return arc_from((radius * math.cos(first), radius * math.sin(first)), -turn, turn, radius * turn)


def _inside(end: Curve, share: float) -> tuple[float, float]:
    """A place at a share of an end."""
    point: Array = end.point(share * end.length)
    return float(point[0]), float(point[1])


def _end_kind(panel: EdgeKind) -> EdgeKind:
    return "opening" if panel == "finished" else panel


def _region(line: str) -> SeamRegion:
    return "front" if line == lines.CENTRE_FRONT else "side" if line == lines.SIDE else "back"
