"""A dart moved about its pivot: the piece is cut from the new place to the pivot, and the old dart is closed."""

import math
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from shapely import Polygon

from panelwright.body.worded_length import length_words
from panelwright.design.adopted_part import AdoptedPart, adopted
from panelwright.design.chain import rechained
from panelwright.design.dart import PIVOT, Dart, leg_ids
from panelwright.design.dart_legs import opened
from panelwright.design.divided_piece import PartName
from panelwright.design.join import drawn_to
from panelwright.design.level_bridge import TOUCHING, Bridge, across, bridged, ending_on
from panelwright.design.outline_cut import OutlinePlace
from panelwright.design.remnant import bounded
from panelwright.design.split import split_piece
from panelwright.errors import DesignError, GeometryError
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.geometry.placement import Placement
from panelwright.pattern.edge import Edge
from panelwright.pattern.line import Line
from panelwright.pattern.mark import Mark, as_point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam, Span
from panelwright.pattern.spoken_piece import spoken_piece

MOVED: Final = "the part that is swung"  # id of that part while it is apart; no piece is called so
LEAST_LEG: Final = 20.0  # mm from a dart's mouth to its point
LEAST_MOUTH: Final = 8.0  # mm; a narrower dart is not worth sewing
CLEAR: Final = 12.0  # mm along the outline between a dart's mouth and the next corner or mouth


@dataclass(frozen=True)
class Swing:
    """How a dart is moved.

    Attributes:
        place: on the piece's outline, where its new mouth opens.
        line: of the new dart.
        share: of its value that is moved, above 0 … 1.
        back: mm by which points are drawn back from the pivot.
    """

    place: OutlinePlace
    line: Line
    share: float
    back: float


@dataclass(frozen=True, eq=False)
class _Part:
    """One part of the slashed piece in its new place.

    Attributes:
        piece: the part, called like the whole.
        between: its edges from one dart to the other, in the sense of the outline.
        leg: of the old dart.
    """

    piece: Piece
    between: tuple[Edge, ...]
    leg: Edge


def swung(pattern: Pattern, dart: Dart, swing: Swing) -> Pattern:
    """The pattern with the dart, or a share of it, at another place of its piece's outline.

    The angle at the pivot is kept. What is moved goes with everything in it; the part with the fold stays, else the
    larger one. Closing legs of unlike shape leaves a little gap or lap, which levels state as ease.

    Raises:
        DesignError: if the place lies on the dart, on a fold or too near a corner, or the straight line from there to
            the pivot leaves the piece.
    """
    restored = _to_pivot(pattern, dart)
    piece, pivot = restored.piece(dart.piece.id), dart.pivot
    _refuse_place(piece, dart, swing.place)
    left_stays = _left_stays(piece, dart, swing.place, pivot)
    names = PartName(piece.id, piece.label), PartName(MOVED, piece.label)
    parts = names if left_stays else names[::-1]
    start = piece.edge(swing.place.edge).curve.point(swing.place.arc)
    mouth = 2 * float(np.linalg.norm(start - pivot)) * math.sin(swing.share * dart.value / 2)
    if mouth < LEAST_MOUTH:
        raise DesignError(
            f"the dart would be only {length_words(mouth)} wide at its new mouth; choose a place farther from its "
            "point, or move a larger share",
            piece.id,
        )
    try:
        cut = split_piece(restored, piece.id, [Curve.straight(start, pivot)], swing.line, parts, dart.seam.region)
    except DesignError as error:
        if not isinstance(error.__cause__, GeometryError):
            raise
        raise DesignError(
            f"the straight line from that place to the dart's point leaves {spoken_piece(piece)}; choose a place that "
            "is seen from the point",
            piece.id,
        ) from error
    stays, apart = (cut.piece(part.id) for part in names)
    turn_by = swing.share * dart.value
    moved = adopted(apart, stays.id, _about(pivot, turn_by if left_stays else -turn_by), (stays,))
    ends = (stays, moved.piece) if left_stays else (moved.piece, stays)
    left, right = (_part(part, dart.line, swing.line.id) for part in ends)
    return _Reassembly(cut, dart, swing, left, right, moved, pivot).pattern()


def _to_pivot(pattern: Pattern, dart: Dart) -> Pattern:
    """The pattern with the dart's point at its pivot.

    Raises:
        DesignError: if another dart or an edge is in the way.
    """
    shift = dart.pivot - dart.point
    if _length(shift) < TOUCHING:
        return pattern
    first, second = _leg_to(dart.first, shift, at_end=True), _leg_to(dart.second, shift, at_end=False)
    edges = tuple({first.id: first, second.id: second}.get(edge.id, edge) for edge in dart.piece.edges)
    ease = second.curve.length - first.curve.length
    seams = tuple(replace(seam, ease=ease) if seam.id == dart.seam.id else seam for seam in pattern.seams)
    try:
        piece = replace(dart.piece, edges=edges)
    except GeometryError as error:
        raise DesignError(
            f"drawn on to where it turns, {length_words(_length(shift))} before its point, the dart would cross "
            f"another dart or edge of {spoken_piece(dart.piece)}; swing that dart first, with its point drawn back",
            dart.line,
        ) from error
    return replace(pattern.with_pieces(piece), seams=seams)


def _length(vector: Array) -> float:
    return float(np.linalg.norm(vector))


def _leg_to(leg: Edge, shift: Array, at_end: bool) -> Edge:
    """The leg with its point moved: evenly less towards the mouth, which it leaves as before.

    So the edge that the dart opens into still runs on smoothly when it is closed.
    """
    points = leg.curve.points
    shares = np.concatenate([[0.0], np.linspace(0.0, 1.0, len(points) - 1)])[:, None]
    return replace(leg, curve=Curve.from_points(points + (shares if at_end else shares[::-1]) * shift))


def _refuse_place(piece: Piece, dart: Dart, place: OutlinePlace) -> None:
    edge = piece.edge(place.edge)
    if edge.id in (dart.first.id, dart.second.id):
        raise DesignError("the dart cannot be swung into its own leg; choose another place", edge.line)
    if edge.kind in ("fold", "opening"):
        what = "the fold" if edge.kind == "fold" else "the opening"
        raise DesignError(
            f"a dart cannot open into {what} of {spoken_piece(piece)}; choose another place"
            f"{', or unfold the garment first' if edge.kind == 'fold' else ''}",
            edge.line,
        )
    to_corner = min(place.arc, edge.curve.length - place.arc)
    if to_corner < CLEAR:
        raise DesignError(
            f"the new mouth would lie {length_words(max(to_corner, 0.0))} from a corner of {spoken_piece(piece)}; keep "
            f"it {length_words(CLEAR)} clear",
            edge.line,
        )


def _left_stays(piece: Piece, dart: Dart, place: OutlinePlace, pivot: Array) -> bool:
    """Whether the part on the left of the cut, from the dart's second leg on, keeps its place."""
    count = len(piece.edges)
    low, high = piece.index(dart.second.id), piece.index(place.edge)
    left = [piece.edges[(low + k) % count] for k in range((high - low) % count + 1)]
    fold = next((edge for edge in piece.edges if edge.kind == "fold"), None)
    if fold is not None:
        return any(edge.id == fold.id for edge in left)
    *whole, last = left
    runs = [edge.curve.polyline() for edge in whole]
    runs += [last.curve.between(0.0, place.arc).polyline(), pivot[None, :]]
    area = abs(Polygon(np.concatenate(runs)).area)
    return bool(area >= piece.outline.area / 2)


def _about(pivot: Array, angle: float) -> Placement:
    """A turn about a point, anticlockwise."""
    shift = pivot - Placement(angle).points(pivot)
    return Placement(angle, float(shift[0]), float(shift[1]))


def _part(piece: Piece, *darts: str) -> _Part:
    """A part, and its edges between the two darts: one run of the outline, which may pass its first edge."""
    edges = piece.edges
    first = next(k for k in range(len(edges)) if edges[k].line not in darts and edges[k - 1].line in darts)
    run = [*edges[first:], *edges[:first]]
    (leg,) = piece.on_line(darts[0])
    return _Part(piece, tuple(edge for edge in run if edge.line not in darts), leg)


@dataclass(frozen=True, eq=False)
class _Reassembly:
    """The two parts made one piece again, and the pattern round it.

    Attributes:
        cut: the pattern with the two parts apart.
        left, right: the parts; the left one has the second leg of the old dart.
        moved: the one that was turned.
    """

    cut: Pattern
    dart: Dart
    swing: Swing
    left: _Part
    right: _Part
    moved: AdoptedPart
    pivot: Array

    @property
    def whole(self) -> bool:
        """Whether nothing is left of the old dart."""
        return self.swing.share >= 1.0

    def pattern(self) -> Pattern:
        """The pattern with the piece, its darts, seams and levels."""
        old, new, id = self.dart.line, self.swing.line.id, self.dart.piece.id
        piece, drawn = self._piece()
        lines = tuple(line for line in self.cut.lines if not (self.whole and line.id == old))
        pieces = tuple(piece if each.id == id else each for each in self.cut.pieces if each.id != MOVED)
        bare = replace(self.cut, pieces=pieces, seams=(), levels=(), lines=lines)
        seams = [self._sewn(bare, seam, drawn) for seam in self.cut.seams if seam.id not in (old, new)]
        for line in (new,) if self.whole else (old, new):
            first, second = self._legs_of(piece, line)
            ease = second.curve.length - first.curve.length
            dart = Seam(line, "dart", (Span(id, first.id),), (Span(id, second.id, 1.0, 0.0),), self.dart.seam.region)
            seams.append(replace(dart, ease=ease if abs(ease) > TOUCHING else 0.0))
        levels = tuple(self.moved.level(level) for level in self.cut.levels)
        after = replace(bare, seams=tuple(seams), levels=levels)
        return bridged(after, id, self._closed_levels()) if self.whole else after

    def _piece(self) -> tuple[Piece, set[str]]:
        """The piece, and the ids of edges whose ends were drawn together where the old dart is closed."""
        left, right, drawn = list(self.left.between), list(self.right.between), set[str]()
        if self.whole and self.moved.piece is self.right.piece:
            right[-1] = replace(right[-1], curve=drawn_to(right[-1].curve, end=left[0].curve.start))
            drawn.add(right[-1].id)
        elif self.whole:
            left[0] = replace(left[0], curve=drawn_to(left[0].curve, start=right[-1].curve.end))
            drawn.add(left[0].id)
        edges = [*left, *self._new_legs(left[-1].curve.end, right[0].curve.start), *right]
        if not self.whole:
            first, second = self._old_legs()
            edges = [second, *edges, first]
        stays = self.right.piece if self.moved.piece is self.left.piece else self.left.piece
        try:
            piece = Piece.closed(
                tuple(edges),
                id=stays.id,
                label=stays.label,
                extent=self.dart.piece.extent,
                hand=stays.hand,
                grain=stays.grain,
                inside=stays.inside + self.moved.piece.inside,
                marks=self._marks(stays),
                material=bounded(stays) + bounded(self.moved.piece),
                layer=stays.layer,
                derived_from=stays.derived_from,
            )
        except GeometryError as error:
            raise DesignError(
                f"{spoken_piece(stays)} would lap over itself with the dart there; choose another place or a smaller "
                "share",
                stays.id,
            ) from error
        return piece, drawn

    def _new_legs(self, mouth: Array, other: Array) -> tuple[Edge, Edge]:
        line, shift = self.swing.line.id, self._back(mouth, other) - self.pivot
        first, second = leg_ids(self.dart.piece.id, line)
        legs = (
            Edge(first, line, "left", "seam", Curve.straight(mouth, self.pivot)),
            Edge(second, line, "right", "seam", Curve.straight(self.pivot, other)),
        )
        return (_leg_to(legs[0], shift, True), _leg_to(legs[1], shift, False)) if self.swing.back else legs

    def _old_legs(self) -> tuple[Edge, Edge]:
        """What is left of the old dart, its point drawn back so that cloth lies between the two darts."""
        first, second = self.right.leg, self.left.leg
        shift = self._back(first.curve.start, second.curve.end) - self.pivot
        ids = leg_ids(self.dart.piece.id, self.dart.line)
        legs = opened(_leg_to(first, shift, at_end=True).curve, _leg_to(second, shift, at_end=False).curve)
        return replace(first, id=ids[0], curve=legs[0]), replace(second, id=ids[1], curve=legs[1])

    def _back(self, mouth: Array, other: Array) -> Array:
        """The point of a dart with this mouth: on its middle line, drawn back from the pivot."""
        middle = (mouth + other) / 2 - self.pivot
        reach = float(np.linalg.norm(middle))
        if self.swing.back > reach - LEAST_LEG:
            raise DesignError(
                f"its point cannot be drawn back {length_words(self.swing.back)}, because the dart is "
                f"{length_words(reach)} long; keep {length_words(LEAST_LEG)} of it",
                self.dart.piece.id,
            )
        point: Array = self.pivot + self.swing.back / reach * middle
        return point

    def _marks(self, stays: Piece) -> tuple[Mark, ...]:
        lines = {self.dart.line, self.swing.line.id}
        kept = [mark for mark in stays.marks + self.moved.piece.marks if not _pivot_of(mark, lines)]
        marked = [] if not self.swing.back else [self.swing.line.id] if self.whole else sorted(lines)
        pivots = tuple(Mark(f"{line}{PIVOT}", "point", as_point(self.pivot)) for line in marked)
        return (*kept, *pivots)

    def _legs_of(self, piece: Piece, line: str) -> tuple[Edge, Edge]:
        first, second = sorted(piece.on_line(line), key=lambda edge: edge.side != "left")
        return first, second

    def _sewn(self, bare: Pattern, seam: Seam, drawn: set[str]) -> Seam:
        """A seam on the new piece; what drawing an edge to the closed dart changed of its length is its ease."""
        a, b = rechained(seam.a, self.moved.parts), rechained(seam.b, self.moved.parts)
        sewn = replace(seam, a=a, b=b)
        if seam.kind == "closure" or not drawn & {span.edge for span in a + b}:
            return sewn
        off = bare.chain_length(b) - bare.chain_length(a) * seam.ratio - seam.ease
        return replace(sewn, ease=seam.ease + off) if abs(off) > TOUCHING else sewn

    def _closed_levels(self) -> list[Bridge]:
        """Level lines that met the two legs of the dart that is closed."""
        sides = [(self.right.piece, self.right.leg), (self.left.piece, self.left.leg)]
        return across(*(ending_on(piece, leg.curve) for piece, leg in sides))


def _pivot_of(mark: Mark, lines: set[str]) -> bool:
    return any(mark.id.startswith(f"{line}{PIVOT}") for line in lines)
