"""What a hand has to do to a piece to come from one state of a design to the next."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
import shapely

from panelwright.drawing.hand_ground import cross_of, drawn_on, moved_to
from panelwright.drawing.hand_guide import Guide, guides
from panelwright.drawing.hand_names import inside_name, level_name, line_name, mark_words
from panelwright.drawing.hand_piece import SAME, HandLine, HandPiece, LevelMark
from panelwright.drawing.hand_stretch import points_along, stretches
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
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.geometry.placement import Placement
from panelwright.pattern.edge import Edge
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

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
        source = drawn_on(piece, known)
        self.source = source[1].id if source else ""
        self.untouched = False
        if source:
            move = moved_to(source[1], piece)
            self.hand = source[0].moved(move, piece.id)
            self.untouched = move == Placement() and source[1].edges == piece.edges
        else:
            self.hand = HandPiece(piece.id, *cross_of(piece), {})
        self.before = self.hand if source else None

    def draw(self) -> None:
        """Letters, lines, levels, outline, marks."""
        outline = None
        if not self._same_outline():
            outline = [stretch for edge in self.piece.edges for stretch in self._edge(edge)]
        for inside in self.piece.inside:
            if inside.kind in _INSIDE:
                self._drawn(inside.curve.scaled(QUARTER.factor), inside_name(inside))
        self._levels()
        if outline is not None:
            self._outline(outline)
        self._kinds()
        self._marks()
        if self.source != self.piece.id:
            self._begin()

    def _same_outline(self) -> bool:
        """Whether the outline on paper is the piece's own as far as a pencil shows."""
        if self.untouched or not self.hand.outline:
            return self.untouched
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
        for stretch, line in stretches(curve, self.hand):
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

    def _outline(self, outline: Sequence[tuple[str, str, HandLine]]) -> None:
        told = tuple((start, end, self.hand.spoken(line)) for start, end, line in outline)
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
                middle = self.hand.from_cross(points_along(curve, np.array([curve.length / 2]))[0])[0]
                ends = [self.hand.from_cross(end)[0] for end in (curve.start, curve.end)]
                bows.append((level_name(inside.id), middle - sum(ends) / 2))
        for line in self.hand.lines:
            self._level_marks(line, [mark for mark in marks if line.holds(mark.at)])
        if bows:
            self.told.append(LevelLines(tuple(bows)))
        self.hand = replace(self.hand, levels=tuple(marks))

    def _level_marks(self, line: HandLine, marks: list[LevelMark]) -> None:
        low = min((line.start, line.end), key=lambda end: self.hand.from_cross(self.hand.letters[end])[0])
        start = line.arc(self.hand.letters[low])
        far = sorted((abs(line.arc(mark.at) - start), mark.level) for mark in marks)
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


def _turned(outline: tuple[tuple[str, str, str], ...]) -> tuple[tuple[str, str, str], ...]:
    """An outline begun at its first letter in order, since a step may begin it elsewhere."""
    first = min(range(len(outline)), key=lambda k: outline[k], default=0)
    return outline[first:] + outline[:first]
