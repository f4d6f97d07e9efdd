"""What a hand has to do to a piece to come from one state of a design to the next."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
import shapely

from panelwright.drawing.hand_guide import LEAST_LENGTH, Guide, guides
from panelwright.drawing.hand_names import inside_name, level_name, line_name, mark_words
from panelwright.drawing.hand_piece import SAME, HandLine, HandPiece, LevelMark
from panelwright.drawing.hand_told import (
    Becomes,
    Cross,
    Drawn,
    Lettered,
    LevelLines,
    Levels,
    Marked,
    Round,
    Same,
    Told,
    Trace,
)
from panelwright.drawing.piece_line import marks
from panelwright.drawing.scale import QUARTER
from panelwright.geometry.arrays import Array, unit
from panelwright.geometry.curve import Curve
from panelwright.geometry.placement import Placement
from panelwright.pattern.edge import Edge
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

# Between the places of an edge that are held against lines drawn before, mm on paper.
STEP: Final = 0.5
# A stretch along a line drawn before counts from this length on, mm on paper.
LEAST_STRETCH: Final = 4.0
_INSIDE: Final = ("stitch", "dart", "fold")


@dataclass(frozen=True, eq=False)
class Drafted:
    """A piece after a step.

    Attributes:
        piece: of the pattern.
        before: the same as it was on paper, in the piece's own place, or None for a new one.
        after: what is on the paper now.
        told: what was to be done; nothing where nothing changed.
    """

    piece: Piece
    before: HandPiece | None
    after: HandPiece
    told: tuple[Told, ...]

    @property
    def fresh(self) -> tuple[Drawn, ...]:
        """The lines that are new."""
        return tuple(told for told in self.told if isinstance(told, Drawn))


def drafted(piece: Piece, pattern: Pattern, known: Mapping[str, tuple[HandPiece, Piece]]) -> Drafted:
    """The piece drawn by hand on top of what is on paper already.

    Args:
        piece: as it is to be.
        pattern: that it belongs to, for the names of lines.
        known: piece id -> (what is on paper, the piece that it shows).
    """
    draft = _Draft(piece, pattern, known)
    draft.draw()
    return Drafted(piece, draft.before, draft.hand, tuple(draft.told))


class _Draft:
    """One piece at work."""

    def __init__(self, piece: Piece, pattern: Pattern, known: Mapping[str, tuple[HandPiece, Piece]]) -> None:
        self.piece, self.pattern = piece, pattern
        self.told: list[Told] = []
        source = _source(piece, known)
        self.source = source[1].id if source else ""
        if source:
            self.hand = source[0].moved(_moved(source[1], piece), piece.id)
        else:
            self.hand = HandPiece(piece.id, *_cross(piece), {})
        self.before = self.hand if source else None

    def draw(self) -> None:
        """Letters, lines, levels, outline, marks."""
        stretches = None
        if not self._same_outline():
            stretches = [stretch for edge in self.piece.edges for stretch in self._edge(edge)]
        for inside in self.piece.inside:
            if inside.kind in _INSIDE:
                self._drawn(inside.curve.scaled(QUARTER.factor), inside_name(inside))
        self._levels()
        if stretches is not None:
            self._outline(stretches)
        self._kinds()
        self._marks()
        if self.source != self.piece.id:
            self._begin()

    def _same_outline(self) -> bool:
        """Whether the outline on paper is the piece's own as far as a pencil shows."""
        if not self.hand.outline:
            return False
        ring = np.concatenate([curve.polyline() for curve in self.hand.outline_curves()])
        true = np.array(self.piece.outline.exterior.coords) * QUARTER.factor
        return float(shapely.hausdorff_distance(shapely.LinearRing(ring), shapely.LinearRing(true))) < SAME

    def _begin(self) -> None:
        if not self.source:
            self.told.insert(0, Cross(self.piece.id))
            return
        changed = [told for told in self.told if not isinstance(told, Round | Becomes)]
        if changed:
            self.told.insert(0, Trace(self.piece.id, self.source))
        else:
            self.told = [Same(self.piece.id, self.source)]

    def _edge(self, edge: Edge) -> list[tuple[str, str, HandLine]]:
        """The stretches of an edge: (letter, letter, the line between them)."""
        return self._drawn(edge.curve.scaled(QUARTER.factor), line_name(self.pattern.line(edge.line)))

    def _drawn(self, curve: Curve, name: str) -> list[tuple[str, str, HandLine]]:
        found = []
        for stretch, line in self._stretches(curve):
            parts = [Guide(stretch, ())] if line is not None else guides(stretch)
            for part in parts:
                start, end = self._letter(part.curve.start), self._letter(part.curve.end)
                if start != end:
                    found.append((start, end, line or self._new_line(part, name, start, end)))
        return found

    def _new_line(self, guide: Guide, name: str, start: str, end: str) -> HandLine:
        line = HandLine(name, start, end, guide.curve)
        self.told.append(Drawn(name, start, end, guide))
        self.hand = replace(self.hand, lines=(*self.hand.lines, line))
        return line

    def _letter(self, point: Array) -> str:
        known = self.hand.letter_at(point)
        if known is not None:
            return known
        place = self.hand.place(point)
        self.hand, name = self.hand.with_letter(point)
        self.told.append(Lettered(name, place, (float(point[0]), float(point[1]))))
        return name

    def _stretches(self, curve: Curve) -> list[tuple[Curve, HandLine | None]]:
        """An edge in stretches that lie on lines drawn before, and stretches that are new."""
        arcs = np.linspace(0.0, curve.length, max(3, int(curve.length / STEP) + 1))
        points = _at(curve, arcs)
        best: tuple[int, int, HandLine] | None = None
        for line in self.hand.lines:
            near = np.asarray(shapely.distance(shapely.points(points), line.run))
            begin, end = _longest(near < SAME)
            if end - begin > (best[1] - best[0] if best else 0):
                best = (begin, end, line)
        if best is None:
            return [(curve, None)]
        first, last, line = best
        low, high = self._to_letters(curve, line, float(arcs[first]), float(arcs[last]))
        if high - low < min(LEAST_STRETCH, curve.length / 2):
            return [(curve, None)]
        parts: list[tuple[Curve, HandLine | None]] = [(curve.between(low, high), line)]
        if low > 0.0:
            parts = [*self._stretches(curve.between(0.0, low)), *parts]
        if high < curve.length:
            parts = [*parts, *self._stretches(curve.between(high, curve.length))]
        return parts

    def _to_letters(self, curve: Curve, line: HandLine, low: float, high: float) -> tuple[float, float]:
        """A stretch of a curve along a line, its ends put on letters and on the curve's own ends that are near."""
        near = (curve.nearest(at) for at in self.hand.letters.values() if line.holds(at))
        stops = [arc for arc, off in near if off < SAME]
        for stop in (min(stops, key=lambda stop: abs(stop - end), default=end) for end in (low, high)):
            low = stop if abs(stop - low) < 2 * STEP else low
            high = stop if abs(stop - high) < 2 * STEP else high
        return 0.0 if low < LEAST_LENGTH else low, curve.length if curve.length - high < LEAST_LENGTH else high

    def _outline(self, stretches: Sequence[tuple[str, str, HandLine]]) -> None:
        told = tuple((start, end, self.hand.spoken(line)) for start, end, line in stretches)
        if _turned(told) != _turned(self.hand.outline):
            self.told.append(Round(self.piece.id, told))
        self.hand = replace(self.hand, outline=told)

    def _levels(self) -> None:
        """The marks of the levels, which a block's own panels bring."""
        if self.before is not None:
            return
        bows = []
        marks: list[LevelMark] = []
        for inside in self.piece.inside:
            if inside.kind == "level":
                curve = inside.curve.scaled(QUARTER.factor)
                marks += [LevelMark(level_name(inside.id), end) for end in (curve.start, curve.end)]
                middle = self.hand.from_cross(_at(curve, np.array([curve.length / 2]))[0])[0]
                ends = [self.hand.from_cross(end)[0] for end in (curve.start, curve.end)]
                bows.append((level_name(inside.id), middle - sum(ends) / 2))
        for line in self.hand.lines:
            self._level_marks(line, [mark for mark in marks if line.holds(mark.at)])
        if bows:
            self.told.append(LevelLines(tuple(bows)))
        self.hand = replace(self.hand, levels=tuple(marks))

    def _level_marks(self, line: HandLine, marks: list[LevelMark]) -> None:
        low = min((line.start, line.end), key=lambda end: self.hand.from_cross(self.hand.letters[end])[0])
        start, _ = line.curve.nearest(self.hand.letters[low])
        far = sorted((abs(line.curve.nearest(mark.at)[0] - start), mark.level) for mark in marks)
        upwards = abs(self.hand.from_cross(line.curve.chord + self.hand.origin)[0]) > 0.7 * line.curve.length
        if far and upwards:
            self.told.append(Levels(self.hand.spoken(line), low, tuple((level, distance) for distance, level in far)))

    def _kinds(self) -> None:
        before = dict(self.hand.kinds)
        names = {edge.id: line_name(self.pattern.line(edge.line)) for edge in self.piece.edges}
        now = {names[edge.id]: edge.kind for edge in self.piece.edges}
        for name, kind in now.items():
            if kind != before.get(name, kind if kind in ("seam", "finished") else None):
                self.told.append(Becomes(name, kind, tuple(id for id, own in names.items() if own == name)))
        self.hand = replace(self.hand, kinds=tuple(now.items()))

    def _marks(self) -> None:
        before = dict(self.hand.marked)
        kept = []
        for mark in marks(self.piece):
            at = QUARTER.factor * np.array(mark.at)
            old = before.get(mark.id)
            if old is None or np.hypot(*(at - np.array(old))) > SAME:
                self.told.append(Marked(mark_words(mark), self.hand.place(at), (float(at[0]), float(at[1]))))
            kept.append((mark.id, (float(at[0]), float(at[1]))))
        self.hand = replace(self.hand, marked=tuple(kept))


def _source(piece: Piece, known: Mapping[str, tuple[HandPiece, Piece]]) -> tuple[HandPiece, Piece] | None:
    """What the piece is drawn on: itself, the piece that it repeats, or one of its first panel; None: fresh paper."""
    if piece.id in known:
        return known[piece.id]
    if piece.derived_from:
        return known.get(piece.derived_from)
    if not piece.material:
        return None
    panel = piece.material[0].panel
    of_panel = (entry for entry in known.values() if entry[1].material and entry[1].material[0].panel == panel)
    return next(of_panel, None)


def _moved(before: Piece, after: Piece) -> Placement:
    """How what is on paper has to be moved to lie where the piece lies, mm on paper."""
    if not before.material or not after.material:
        return Placement()
    move = after.material[0].placement.after(before.material[0].placement.inverse)
    return replace(move, x=move.x * QUARTER.factor, y=move.y * QUARTER.factor)


def _cross(piece: Piece) -> tuple[Array, Array]:
    """(origin, unit vector up) of a piece's cross: the grain, or the fold along it, where the waist meets it."""
    start, up = np.array(piece.grain.start), unit(piece.grain.vector)
    fold = next((edge for edge in piece.edges if edge.kind == "fold"), None)
    if fold is not None:
        start = fold.curve.start if fold.curve.chord @ up > 0 else fold.curve.end
    waist = piece.inside_line("waist")
    if waist is not None:
        run = waist.curve.polyline()
        right = np.array([up[1], -up[0]])
        places = (run - start) @ right
        order = np.argsort(places)
        height = float(np.interp(0.0, places[order], ((run - start) @ up)[order]))
        start = start + height * up
    return QUARTER.factor * start, up


def _at(curve: Curve, arcs: Array) -> Array:
    """Points at arc positions, to about a hundredth of a millimetre."""
    run = curve.polyline(0.005)
    along = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(run, axis=0), axis=1))])
    places = arcs * (along[-1] / curve.length)
    return np.stack([np.interp(places, along, run[:, k]) for k in (0, 1)], axis=1)


def _longest(flags: "np.ndarray[tuple[int, ...], np.dtype[np.bool_]]") -> tuple[int, int]:
    """(first, last) of the longest run of True; (0, 0) where there is none of two."""
    ends = np.flatnonzero(np.diff(np.concatenate([[False], flags, [False]]).astype(int))).reshape(-1, 2)
    if not len(ends):
        return 0, 0
    low, high = ends[int(np.argmax(ends[:, 1] - ends[:, 0]))]
    return int(low), int(high) - 1


def _turned(outline: tuple[tuple[str, str, str], ...]) -> tuple[tuple[str, str, str], ...]:
    """An outline begun at its first letter in order, since a step may begin it elsewhere."""
    first = min(range(len(outline)), key=lambda k: outline[k], default=0)
    return outline[first:] + outline[:first]
