"""What the lines drawn on a piece of paper are: grain, levels, a fold, notches; by where they lie in its outline."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
import shapely

from panelwright.errors import GeometryError
from panelwright.geometry.arrays import Array
from panelwright.intake.drawn_edge import DrawnEdge
from panelwright.intake.drawn_piece import DrawnNotch
from panelwright.intake.level_name import numbered
from panelwright.intake.paper_strokes import PaperStroke, axis_ends
from panelwright.intake.photo_edges import smooth_edge
from panelwright.pattern.mark import Grain, InsideLine, as_point

# Lengths in mm of the paper, angles in degrees.
_NOTCH: Final = (1.2, 16.0)
_AT_EDGE: Final = 1.6  # where a line counts as ending at the outline
_NOTCH_LEAN: Final = 45.0
_ONE_NOTCH: Final = 5.0
_ONE_TICK: Final = 1.2
_STRAIGHT: Final = 0.02  # bow as a share of the length, beside 0.4 mm
_LEAST_GRAIN: Final = 8.0
_GRAIN_SHARE: Final = 0.4  # of the piece's length, of a grain line without arrows
_LENGTHWISE: Final = 20.0
_LEAST_LEVEL: Final = 7.0
_ACROSS: Final = 45.0  # least angle between a level and the grain
_SHORT_OF: Final = (12.0, 0.3)  # that a level may stop short of the outline: mm, share of its length
_FOLD_APART: Final = (1.5, 14.0)  # between a fold's bracket and its edge
_FOLD_SHARE: Final = 0.35
_FOLD_END: Final = 1.8
_PARALLEL: Final = 4.0
_LEAST_LINE: Final = 10.0
_USUAL_SIGNS: Final = 14
_TRUE: Final = 0.2  # mm that a line's curve keeps to its points


@dataclass(frozen=True, eq=False)
class PaperSigns:
    """What is drawn on a piece; `doubts` are sentences without the piece's name on what may be something else."""

    grain: Grain | None = None
    lines: tuple[InsideLine, ...] = ()
    notches: tuple[DrawnNotch, ...] = ()
    folds: tuple[int, ...] = ()
    doubts: tuple[str, ...] = ()


def paper_signs(
    strokes: Sequence[PaperStroke], outline: Array, edges: Sequence[DrawnEdge], cuts: Sequence[Array] = ()
) -> PaperSigns:
    """Tell apart the lines on a piece.

    A line along a straight edge whose ends turn out to that edge marks a fold; a straight line with arrow heads is the
    grain, without them the longest one that runs lengthwise and stops inside; a short line square to the outline that
    begins there is a notch; a line that crosses the piece from outline to outline is a level. Levels are numbered from
    the top down, since what they are called is not read.

    Args:
        strokes: lines inside the outline, mm.
        outline: anticlockwise, mm, shape (n, 2).
        edges: of the same outline.
        cuts: places on it where small gaps were cut, or seem to be.
    """
    sorter = _Sorter(strokes, outline, edges, cuts)
    folds = sorter.folds()
    grain = sorter.grain()
    notches = sorter.notches()
    up = np.array([0.0, 1.0]) if grain is None else grain.vector / grain.length
    levels = sorter.levels(None if grain is None else up)
    levels.sort(key=lambda curve: -float(curve.curve.point(curve.curve.length / 2) @ up))
    named = tuple(replace(line, id=numbered(k)) for k, line in enumerate(levels, 1))
    others = tuple(replace(line, id=f"line-{k}") for k, line in enumerate(sorter.others(), 1))
    if len(named) + len(others) + len(notches) > _USUAL_SIGNS:
        sorter.doubts.append(
            f"{len(named) + len(others)} lines and {len(notches)} notches are seen on it, as on squared paper: compare "
            "levels, grain, folds and notches with the paper"
        )
    return PaperSigns(grain, (*named, *others), notches, folds, tuple(sorter.doubts))


class _Sorter:
    """Takes lines off one heap, kind by kind."""

    def __init__(
        self, strokes: Sequence[PaperStroke], outline: Array, edges: Sequence[DrawnEdge], cuts: Sequence[Array]
    ) -> None:
        self.cuts = list(cuts)
        self.left = _joined(list(strokes))
        self.edges, self.outline = edges, outline
        self.ring = shapely.LinearRing(outline)
        self.area = shapely.Polygon(outline)
        shapely.prepare(self.ring)
        self.doubts: list[str] = []
        box = shapely.get_coordinates(self.area.minimum_rotated_rectangle)
        sides = np.diff(box[:3], axis=0)
        long = sides[int(np.argmax(np.hypot(*sides.T)))]
        self.long = long / np.hypot(*long)
        self.slender = float(np.ptp(outline @ self.long)) / max(float(np.ptp(outline @ _square(self.long))), 1.0)

    def folds(self) -> tuple[int, ...]:
        found = []
        for number, edge in enumerate(self.edges):
            curve = edge.curve
            chord = float(np.hypot(*curve.chord))
            if chord < 20.0 or curve.length > 1.002 * chord:
                continue
            line = next((each for each in self._long() if self._beside(each, edge)), None)
            if line is None:
                continue
            arms = [self._arm(line, end, edge) for end in (line.points[0], line.points[-1])]
            if not all(arms):
                if any(arms):
                    self.doubts.append(f"a line beside edge {number + 1} may say that it lies on the fold")
                continue
            found.append(number)
            feet = [curve.nearest(end) for end in (line.points[0], line.points[-1])]
            places = [curve.point(arc) for arc, _ in feet]
            used = [line, *(arm for both in arms for arm in both)]
            self.left = [
                each for each in self.left
                if all(each is not one for one in used) and not self._of_head(each, places, feet[0][1])
            ]  # fmt: skip
            self.cuts = [at for at in self.cuts if all(np.hypot(*(at - foot)) > 0.8 * feet[0][1] for foot in places)]
        return tuple(found)

    def grain(self) -> Grain | None:
        with_heads = [
            each for each in self._straight()
            if each.length >= _LEAST_GRAIN and (all(each.arrows) or (any(each.arrows) and self._lengthwise(each)))
        ]  # fmt: skip
        with_heads.sort(key=lambda each: (sum(each.arrows), each.length))
        if with_heads:
            line = with_heads[-1]
            if not all(line.arrows):
                self.doubts.append("its grain line shows one arrow head only")
            self._take(line, heads=True)
            return _upwards(line)
        tall = float(np.ptp(self.outline @ self.long))
        free = [
            each for each in self._straight()
            if each.length >= _GRAIN_SHARE * tall and self._lengthwise(each)
        ]  # fmt: skip
        if not free or self.slender < 1.15:
            return None
        line = max(free, key=lambda each: each.length)
        self.doubts.append("its grain is guessed from a line along it without arrow heads")
        self._take(line)
        return _upwards(line)

    def _lengthwise(self, stroke: PaperStroke) -> bool:
        """Whether a line runs along the piece and stops inside it."""
        return _angle(stroke.chord, self.long) < _LENGTHWISE and max(self._gaps(stroke)) > 3 * _AT_EDGE

    def notches(self) -> tuple[DrawnNotch, ...]:
        feet = [float(self.ring.project(shapely.Point(at))) for at in self.cuts]
        for each in list(self.left):
            if not _NOTCH[0] <= each.length <= _NOTCH[1] or each.bow > 0.15 * each.length:
                continue
            gaps = self._gaps(each)
            near, far = min(gaps), max(gaps)
            if near > _AT_EDGE or far < 0.6 * each.length:
                continue
            tip, end = (each.points[0], each.points[-1]) if gaps[0] <= gaps[1] else (each.points[-1], each.points[0])
            way = (tip - end) / max(float(np.hypot(*(tip - end))), 1e-9)
            arc = float(self.ring.project(shapely.Point(tip + near * way)))
            if _angle(way, _square(self._along(arc))) > _NOTCH_LEAN:
                continue
            feet.append(arc)
            self.left.remove(each)
        return self._notches(sorted(feet))

    def levels(self, up: Array | None) -> list[InsideLine]:
        axis = self.long if up is None else up
        if up is None and self.slender < 1.3:
            axis = np.array([0.0, 1.0])
        found = []
        for each in list(self.left):
            chord = float(np.hypot(*each.chord))
            if each.length < _LEAST_LEVEL or chord < 0.93 * each.length or _angle(each.chord, axis) < _ACROSS:
                continue
            short = [self._short_of(each, at_end) for at_end in (False, True)]
            if max(short) > max(_AT_EDGE, min(_SHORT_OF[0], _SHORT_OF[1] * each.length)):
                continue
            line = self._line(each, "level")
            if line is not None:
                found.append(line)
                self.left.remove(each)
        return found

    def others(self) -> list[InsideLine]:
        lines = [self._line(each, "guide") for each in self.left if each.length >= _LEAST_LINE]
        return [line for line in lines if line is not None][:20]

    def _line(self, stroke: PaperStroke, kind: str) -> InsideLine | None:
        points = stroke.points if stroke.chord[0] >= 0 else stroke.points[::-1]
        try:
            curve = smooth_edge(points, points[0], points[-1], _TRUE)
        except (GeometryError, ValueError):
            return None
        return InsideLine("", "level" if kind == "level" else "guide", curve)

    def _straight(self) -> list[PaperStroke]:
        return [each for each in self.left if each.bow < 0.4 + _STRAIGHT * each.length]

    def _long(self) -> list[PaperStroke]:
        return [each for each in self._straight() if each.length > _LEAST_GRAIN]

    def _gaps(self, stroke: PaperStroke) -> tuple[float, float]:
        """How far its ends lie from the outline."""
        first, last = (float(self.ring.distance(shapely.Point(end))) for end in (stroke.points[0], stroke.points[-1]))
        return first, last

    def _short_of(self, stroke: PaperStroke, at_end: bool) -> float:
        """How far one end, run on straight, is from the outline."""
        points = stroke.points if at_end else stroke.points[::-1]
        way = points[-1] - points[max(0, len(points) - 12)]
        way = way / max(float(np.hypot(*way)), 1e-9)
        ahead = shapely.LineString([points[-1] - 0.5 * way, points[-1] + 40.0 * way])
        hits = shapely.get_coordinates(shapely.intersection(ahead, self.ring))
        return float(np.hypot(*(hits - points[-1]).T).min()) if len(hits) else 99.0

    def _beside(self, stroke: PaperStroke, edge: DrawnEdge) -> bool:
        """Whether a line runs along a straight edge, near it."""
        chord = edge.curve.chord
        apart = [edge.curve.nearest(place)[1] for place in (stroke.points[0], stroke.points[-1])]
        return (
            stroke.length >= _FOLD_SHARE * float(np.hypot(*chord))
            and _angle(stroke.chord, chord) < _PARALLEL
            and _FOLD_APART[0] < min(apart) and max(apart) < _FOLD_APART[1]
        )  # fmt: skip

    def _arm(self, line: PaperStroke, end: Array, edge: DrawnEdge) -> list[PaperStroke]:
        """What leads from an end of a bracket to its edge."""
        far = edge.curve.nearest(end)[1]
        found = []
        for each in self.left:
            if each is line or each.length > 1.6 * far + 1.0:
                continue
            a, b = each.points[0], each.points[-1]
            near, other = (a, b) if np.hypot(*(a - end)) < np.hypot(*(b - end)) else (b, a)
            across = _angle(each.chord, edge.curve.chord) > 60.0
            if across and np.hypot(*(near - end)) < _FOLD_END and edge.curve.nearest(other)[1] < 0.6 * far:
                found.append(each)
        return found

    def _of_head(self, stroke: PaperStroke, feet: Sequence[Array], far: float) -> bool:
        """Whether a short line is part of the arrow head at a foot of a bracket."""
        middle = stroke.points[len(stroke.points) // 2]
        return stroke.length < far + 1.0 and any(float(np.hypot(*(middle - foot))) < 0.8 * far for foot in feet)

    def _take(self, line: PaperStroke, heads: bool = False) -> None:
        ends = [line.points[0], line.points[-1]]
        self.left = [
            each for each in self.left
            if each is not line
            and not (heads and each.length < 5.0 and any(np.hypot(*(each.points - end).T).min() < 1.5 for end in ends))
        ]  # fmt: skip

    def _along(self, arc: float) -> Array:
        a, b = (self.ring.interpolate((arc + d) % self.ring.length) for d in (-0.8, 0.8))
        return np.array([b.x - a.x, b.y - a.y])

    def _notches(self, feet: Sequence[float]) -> tuple[DrawnNotch, ...]:
        groups: list[list[float]] = []
        for arc in feet:
            if groups and arc - groups[-1][-1] < _ONE_TICK:
                continue
            if groups and arc - groups[-1][-1] < _ONE_NOTCH:
                groups[-1].append(arc)
            else:
                groups.append([arc])
        found = []
        for group in groups:
            at = self.ring.interpolate((group[0] + group[-1]) / 2)
            found.append(DrawnNotch((float(at.x), float(at.y)), min(len(group), 3)))
        return tuple(found)


def _joined(strokes: list[PaperStroke]) -> list[PaperStroke]:
    """Lines that go on from each other after a gap as one."""
    found = sorted(strokes, key=lambda each: -each.length)
    for _ in range(len(found)):
        pair = next(
            ((a, b) for k, a in enumerate(found) for b in found[k + 1 :] if a.length > 4 and _goes_on(a, b)), None
        )
        if pair is None:
            break
        found = [each for each in found if each is not pair[0] and each is not pair[1]]
        found.insert(0, _one(*pair))
    return found


def _ends(a: PaperStroke, b: PaperStroke) -> tuple[bool, bool]:
    """At which ends two lines are nearest: (whether the last of a, whether the last of b)."""
    gaps = np.hypot(*(a.points[[0, -1]][:, None] - b.points[[0, -1]][None]).transpose(2, 0, 1))
    k = int(gaps.argmin())
    return bool(k // 2), bool(k % 2)


def _goes_on(a: PaperStroke, b: PaperStroke) -> bool:
    last_a, last_b = _ends(a, b)
    p, q = a.points[-1 if last_a else 0], b.points[-1 if last_b else 0]
    gap = q - p
    if b.length < 2.5 or np.hypot(*gap) > 5.0 or np.hypot(*gap) > b.length:
        return False
    out = a.points[-1] - a.points[max(0, len(a.points) - 15)] if last_a else a.points[0] - a.points[:16][-1]
    away = b.chord if not last_b else -b.chord
    way = out / max(float(np.hypot(*out)), 1e-9)
    sideways = abs(float(gap @ _square(way)))
    ahead = float(gap @ way)
    return _angle(out, away) < 8.0 and float(out @ away) > 0 and sideways < 0.5 and ahead > -1.0


def _one(a: PaperStroke, b: PaperStroke) -> PaperStroke:
    last_a, last_b = _ends(a, b)
    first, first_arrows = (a.points, a.arrows) if last_a else (a.points[::-1], a.arrows[::-1])
    second, second_arrows = (b.points[::-1], b.arrows[::-1]) if last_b else (b.points, b.arrows)
    strength = max(a.strength, b.strength)
    return PaperStroke(np.concatenate([first, second]), strength, (first_arrows[0], second_arrows[1]))


def _upwards(line: PaperStroke) -> Grain:
    start, end = axis_ends(line.points)
    backwards = end[1] < start[1] if abs(end[1] - start[1]) > 1e-3 else end[0] < start[0]
    return Grain(as_point(end), as_point(start)) if backwards else Grain(as_point(start), as_point(end))


def _square(way: Array) -> Array:
    return np.array([-way[1], way[0]])


def _angle(a: Array, b: Array) -> float:
    """Between two directions without sense, degrees."""
    turning = abs(float(a[0] * b[1] - a[1] * b[0]))
    return float(np.degrees(np.arctan2(turning, abs(float(a @ b)))))
