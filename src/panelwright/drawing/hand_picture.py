"""The picture beside a step: the piece after it, new lines bold, replaced ones dotted, the lettered points."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
import shapely

from panelwright.drawing import pen, piece_line, piece_text
from panelwright.drawing.drawing import Bounds, Drawing, Fill, Lettering, Sign, Stroke
from panelwright.drawing.free_space import FreeSpace
from panelwright.drawing.hand_draft import Drafted
from panelwright.drawing.hand_guide import Guide
from panelwright.drawing.hand_letters import CROSS
from panelwright.drawing.hand_piece import HandPiece
from panelwright.drawing.hand_told import Becomes, Drawn, Lettered, Marked, OnLine, Round, Told
from panelwright.drawing.path import Path
from panelwright.drawing.piece_drawing import piece_drawing
from panelwright.drawing.scale import QUARTER, Scale
from panelwright.finish.cut_piece import CutPiece
from panelwright.geometry.arrays import Array, unit
from panelwright.geometry.curve import Curve
from panelwright.pattern.mark import as_point
from panelwright.pattern.piece import Piece

LETTER_SIZE: Final = 2.6
CAPTION_SIZE: Final = 2.8
DOT: Final = 0.45
POINT: Final = 0.3
CLEAR: Final = 0.35
BORDER: Final = 9.0
RADII: Final = (2.2, 3.0, 4.0, 5.5, 7.5, 10.0)
LEADER: Final = 3.5  # a letter that stands farther off has a line to its point, mm
LEADER_GAP: Final = 0.3
TURNS: Final = (0, 30, -30, 60, -60, 90, -90, 120, -120, 150, -150, 180)
# A picture larger than this is drawn smaller than the learner draws it, mm.
LARGEST: Final = (182.0, 140.0)


@dataclass(frozen=True, eq=False)
class Picture:
    """One piece drawn; the origin is that of the cross.

    Attributes:
        panel: the block panel that it came from first, or "".
        drawing: with its letters and caption.
    """

    panel: str
    drawing: Drawing

    @property
    def box(self) -> Bounds:
        """(left, bottom, right, top), mm."""
        return self.drawing.bounds


def step_picture(draft: Drafted, shrunk: float = 1.0) -> Picture:
    """The piece after a step, drawn so many times as large as the learner draws it."""
    picture = _Picture(draft.piece, draft.after, shrunk)
    becoming = [id for told in draft.told if isinstance(told, Becomes) for id in told.edges]
    picture.cross()
    picture.dotted(draft.before)
    picture.piece()
    picture.bold(told.guide.curve for told in draft.fresh)
    picture.bold(draft.piece.edge(id).curve.scaled(QUARTER.factor) for id in becoming)
    picture.rulers(told.guide for told in draft.fresh)
    new = [told.letter for told in draft.told if isinstance(told, Lettered)]
    return picture.done(new, [*letters_of(draft.told), CROSS])


def allowance_picture(piece: Piece, cut_piece: CutPiece, hand: HandPiece, shrunk: float = 1.0) -> Picture:
    """The piece with its cut line and notches bold, and the letters of its corners."""
    picture = _Picture(piece, hand, shrunk)
    picture.piece()
    picture.allowances(cut_piece)
    return picture.done([], [letter for letter, _, _ in hand.outline])


def cut_picture(piece: Piece, cut_piece: CutPiece, shrunk: float = 1.0) -> Picture:
    """The piece as it is at the end, with its own words on it and under it."""
    return Picture(_panel(piece), piece_drawing(piece, cut_piece, _scale(piece, shrunk)).drawing)


def letters_of(told: Sequence[Told]) -> list[str]:
    """The letters of which sentences speak, each once."""
    return list(dict.fromkeys(letter for each in told for letter in _letters(each)))


def _letters(told: Told) -> Iterator[str]:
    match told:
        case Lettered(letter, place):
            yield letter
            if isinstance(place, OnLine):
                yield from (place.start, place.way)
        case Marked(_, OnLine(_, start, _, way)):
            yield from (start, way)
        case Drawn(_, start, end):
            yield from (start, end)
        case Round(_, stretches):
            yield from (letter for letter, _, _ in stretches)


class _Picture:
    """A picture in the making; all that is handed in is mm on the learner's paper."""

    def __init__(self, piece: Piece, hand: HandPiece, shrunk: float) -> None:
        self.source, self.hand = piece, hand
        self.scale = _scale(piece, shrunk)
        self.shrunk = self.scale.factor / QUARTER.factor
        self.signs: list[Sign] = []

    def cross(self) -> None:
        """The two lines of the cross, a little longer than the piece."""
        ends = np.array(self.source.outline.exterior.coords) * QUARTER.factor
        for way in (self.hand.upright, np.array([self.hand.upright[1], -self.hand.upright[0]])):
            along = (ends - self.hand.origin) @ way
            low, high = min(float(along.min()), 0.0) - 3.0, max(float(along.max()), 0.0) + 3.0
            self._line(Curve.straight(self.hand.origin + low * way, self.hand.origin + high * way), pen.HAIRLINE)

    def dotted(self, before: HandPiece | None) -> None:
        """The outline before the step; what stays of it is covered by the lines that are drawn next."""
        for curve in before.outline_curves() if before else ():
            self._line(curve, pen.OLD, "old block line")

    def piece(self) -> None:
        """Outline, levels, marks."""
        self.signs += piece_line.inside_lines(self.source, self.scale)
        self.signs += piece_line.stitch_lines(self.source, self.scale)
        for edge in self.source.edges:
            if edge.kind == "fold":
                self._line(edge.curve.scaled(QUARTER.factor), pen.FOLD, "grain and fold")
        self.signs += piece_line.mark_signs(self.source, self.scale)

    def bold(self, curves: Iterable[Curve]) -> None:
        """New lines."""
        for curve in curves:
            self._line(curve, pen.CUT, "cut lines")

    def rulers(self, guides: Iterable[Guide]) -> None:
        """Where the ruler lies for a curve, and the points square to it."""
        for guide in guides:
            if guide.points:
                self._line(Curve.straight(guide.curve.start, guide.curve.end), pen.GUIDE)
            for foot, place in zip(guide.feet, guide.places, strict=True):
                if np.hypot(*(place - foot)) > POINT:
                    self._line(Curve.straight(foot, place), pen.HAIRLINE)
                self.signs.append(Fill(Path.circle(place * self.shrunk, POINT), 0.0, "notches"))

    def allowances(self, cut_piece: CutPiece) -> None:
        """The cut line and the notches."""
        self.signs += piece_line.cut_lines(self.source, cut_piece, self.scale)
        self.signs += piece_line.notch_ticks(self.source, cut_piece.notches, self.scale)

    def done(self, new: Sequence[str], spoken: Sequence[str]) -> Picture:
        """The picture with its letters and caption."""
        points = {CROSS: self.hand.origin, **self.hand.letters}
        letters = [letter for letter in dict.fromkeys((*new, *spoken)) if letter in points]
        lines = [sign.path for sign in self.signs if isinstance(sign, Stroke | Fill)]
        for letter in letters:
            self.signs.append(Fill(Path.circle(points[letter] * self.shrunk, DOT), 0.0, "notches"))
        left, bottom, right, top = Drawing(tuple(self.signs)).bounds
        room = shapely.box(left - BORDER, bottom - BORDER, right + BORDER, top + BORDER)
        space = FreeSpace(room, [*lines, *(Path.circle(points[name] * self.shrunk, DOT) for name in letters)], CLEAR)
        middle = np.array([(left + right) / 2, (bottom + top) / 2])
        for letter in letters:
            self._letter(letter, points[letter] * self.shrunk, middle, space, letter in new)
        for line in self.source.inside:
            if piece_text.has_name(line):
                name = piece_text.level_name(line, space, self.scale)
                self.signs += [name] if name else []
        self._caption()
        origin = self.hand.origin * self.shrunk
        return Picture(_panel(self.source), Drawing(tuple(self.signs)).moved(as_point(-origin)))

    def _letter(self, letter: str, at: Array, middle: Array, space: FreeSpace, bold: bool) -> None:
        outwards = unit(at - middle) if np.hypot(*(at - middle)) > 1e-6 else np.array([1.0, 0.0])
        across = np.array([-outwards[1], outwards[0]])
        ways = np.outer(np.cos(np.radians(TURNS)), outwards) + np.outer(np.sin(np.radians(TURNS)), across)
        centred = Lettering(letter, (0.0, -0.35 * LETTER_SIZE), LETTER_SIZE, anchor="middle", bold=bold)
        place, far = at + RADII[0] * ways[0], RADII[0]
        for radius in RADII:
            places = at + radius * ways
            index = space.first_free(centred.box + places[:, None])
            if index is not None:
                place, far = places[index], radius
                break
        found = centred.moved(as_point(place))
        space.take(found.box)
        self.signs.append(found)
        if far > LEADER:
            self.signs.append(Stroke(Path.polyline([at, _near_end(found, at)]), pen.HAIRLINE, "notches"))

    def _caption(self) -> None:
        left, bottom, right, _ = Drawing(tuple(self.signs)).bounds
        smaller = " (drawn smaller)" if self.shrunk < 1.0 else ""
        below = ((left + right) / 2, bottom - CAPTION_SIZE - 1.0)
        words = f"{self.source.id}{smaller}"
        self.signs.append(Lettering(words, below, CAPTION_SIZE, anchor="middle", bold=True))

    def _line(self, curve: Curve, ink: pen.Pen, layer: str = "level lines") -> None:
        self.signs.append(Stroke(Path.curve(curve.scaled(self.shrunk)), ink, layer))


def _scale(piece: Piece, most: float) -> Scale:
    """Quarter scale times `most`, or smaller for a piece that would be too large."""
    left, bottom, right, top = np.array(piece.outline.bounds) * QUARTER.factor
    shrunk = float(min(most, LARGEST[0] / (right - left), LARGEST[1] / (top - bottom)))
    return replace(QUARTER, factor=QUARTER.factor * shrunk)


def _panel(piece: Piece) -> str:
    return piece.material[0].panel if piece.material else ""


def _near_end(lettering: Lettering, at: Array) -> Array:
    """Where a line from a point stops, just before a letter's box."""
    way = lettering.box.mean(axis=0) - at
    far = float(np.hypot(*way))
    inside = shapely.LineString([at, at + way]).intersection(shapely.Polygon(lettering.box))
    reach = float(shapely.distance(shapely.Point(at), inside))
    reached: Array = at + way * max(0.0, reach - LEADER_GAP) / far
    return reached
