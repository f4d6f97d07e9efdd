"""Strokes joined end to end: closed outlines, and what stays open."""

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Final

import numpy as np

from panelwright.geometry.arrays import Array
from panelwright.intake.drawing_stroke import Stroke

# Where many lines meet, only so many are looked at for the straightest way on.
_LOOKED_AT: Final = 12
Step = tuple[int, bool]  # (number of the stroke, whether it is run the other way)


def joined(strokes: Sequence[Stroke], reach: float) -> tuple[list[Stroke], list[Stroke]]:
    """(closed lines, open lines) that strokes make where ends are nearer than `reach`.

    A closed line ends exactly where it starts. Where more than two ends meet, a line goes straight on; what ends
    nowhere is taken off first, so that a line that only touches an outline is no part of it.
    """
    closed = [_shut([stroke]) for stroke in strokes if stroke.gap() <= reach < stroke.length / 2]
    others = [stroke for stroke in strokes if stroke.gap() > reach]
    graph = _Graph(others, reach)
    graph.take_off_loose_ends()
    rings = graph.rings()
    left = [stroke for k, stroke in enumerate(others) if k not in graph.used]
    closed += [_shut([_way(others[k], back) for k, back in ring]) for ring in rings]
    return closed, _open_lines(left, reach)


class _Graph:
    """Strokes between places where ends meet."""

    def __init__(self, strokes: Sequence[Stroke], reach: float) -> None:
        self._strokes = strokes
        self._ends = _places([end for stroke in strokes for end in (stroke.start, stroke.end)], reach)
        self._at: dict[int, list[Step]] = defaultdict(list)
        for k in range(len(strokes)):
            self._at[self._ends[2 * k]].append((k, False))
            self._at[self._ends[2 * k + 1]].append((k, True))
        self.used: set[int] = set()
        self._loose: set[int] = set()
        self._headings: dict[Step, Array] = {}

    def take_off_loose_ends(self) -> None:
        """Leave out strokes that end where no other begins, and then those that ended on them."""
        degree = {place: len(steps) for place, steps in self._at.items()}
        waiting = [place for place, count in degree.items() if count == 1]
        while waiting:
            for k, _ in self._at[waiting.pop()]:
                if k in self._loose:
                    continue
                self._loose.add(k)
                for place in self._ends[2 * k : 2 * k + 2]:
                    degree[place] -= 1
                    if degree[place] == 1:
                        waiting.append(place)

    def rings(self) -> list[list[Step]]:
        """Closed ways along strokes, each used once."""
        found = []
        done = set(self._loose)
        for first in range(len(self._strokes)):
            if first in done:
                continue
            way: list[Step] = [(first, False)]
            passed = [self._ends[2 * first]]
            seen = {passed[0]: 0}
            done.add(first)
            while way:
                place = self._goal(way[-1])
                if place in seen:
                    begin = seen[place]
                    ring = way[begin:]
                    found.append(ring)
                    self.used.update(k for k, _ in ring)
                    for each in passed[begin + 1 :]:
                        del seen[each]
                    del way[begin:], passed[begin + 1 :]
                    if not way:
                        break
                else:
                    seen[place] = len(way)
                    passed.append(place)
                step = self._onwards(way[-1], place, done)
                if step is None:
                    break
                done.add(step[0])
                way.append(step)
        return found

    def _goal(self, step: Step) -> int:
        return self._ends[2 * step[0] + (0 if step[1] else 1)]

    def _onwards(self, step: Step, place: int, done: set[int]) -> Step | None:
        here = self._at[place]
        here[:] = [each for each in here if each[0] not in done]
        if not here:
            return None
        if len(here) == 1:
            return here[0]
        back = self._heading((step[0], not step[1]))
        return min(here[:_LOOKED_AT], key=lambda way: float(back @ self._heading(way)))

    def _heading(self, step: Step) -> Array:
        """The direction in which a stroke sets out; the same few are compared over and over where many meet."""
        known = self._headings.get(step)
        if known is None:
            known = self._headings[step] = _heading(_way(self._strokes[step[0]], step[1]))
        return known


def _places(ends: list[Array], reach: float) -> list[int]:
    """A number for each end; ends nearer than `reach` to the first of a place have the same one."""
    cells: dict[tuple[int, int], list[int]] = defaultdict(list)
    first: list[tuple[float, float]] = []
    numbers = []
    for end in ends:
        x, y = float(end[0]), float(end[1])
        column, row = math.floor(x / reach), math.floor(y / reach)
        near = (
            place
            for i in (column, column - 1, column + 1)
            for j in (row, row - 1, row + 1)
            for place in cells.get((i, j), ())
            if math.hypot(first[place][0] - x, first[place][1] - y) <= reach
        )
        place = next(near, -1)
        if place < 0:
            place = len(first)
            first.append((x, y))
            cells[column, row].append(place)
        numbers.append(place)
    return numbers


def _open_lines(strokes: Sequence[Stroke], reach: float) -> list[Stroke]:
    """Strokes joined where exactly two ends of the same layer meet."""
    by_names: dict[tuple[str, ...], list[Stroke]] = defaultdict(list)
    for stroke in strokes:
        by_names[stroke.names].append(stroke)
    return [line for own in by_names.values() for line in _strung(own, reach)]


def _strung(strokes: list[Stroke], reach: float) -> list[Stroke]:
    ends = _places([end for stroke in strokes for end in (stroke.start, stroke.end)], reach)
    at: dict[int, list[int]] = defaultdict(list)
    for end, place in enumerate(ends):
        at[place].append(end)
    used: set[int] = set()
    lines = []
    starts = [end for end, place in enumerate(ends) if len(at[place]) != 2]
    for end in [*starts, *range(0, len(ends), 2)]:
        way: list[Step] = []
        while end // 2 not in used:
            used.add(end // 2)
            way.append((end // 2, bool(end % 2)))
            here = at[ends[end ^ 1]]
            if len(here) != 2:
                break
            end = next(each for each in here if each != end ^ 1) if here[0] != here[1] else end
        if way:
            lines.append(_strung_runs([_way(strokes[k], back) for k, back in way]))
    return lines


def _way(stroke: Stroke, back: bool) -> Stroke:
    return stroke.reversed() if back else stroke


def _heading(stroke: Stroke) -> Array:
    """Unit direction in which a stroke sets out."""
    away = stroke.preview[1:] - stroke.start
    far = np.flatnonzero(np.hypot(*away.T) > 1e-9)
    if not len(far):
        return np.zeros(2)
    direction: Array = away[far[0]] / np.hypot(*away[far[0]])
    return direction


def _shut(way: list[Stroke]) -> Stroke:
    """One closed stroke of strokes that follow one another, each end moved onto the next start."""
    runs = _following(way)
    last = runs[-1].copy()
    if last.ndim == 2:
        last[-1] = way[0].start
    else:
        last[-1, 3] = way[0].start
    return replace(_told(way), runs=(*runs[:-1], last))


def _strung_runs(way: list[Stroke]) -> Stroke:
    return replace(_told(way), runs=tuple(_following(way)))


def _told(way: list[Stroke]) -> Stroke:
    """The first of some strokes, with the first name of its own that one of them has."""
    return replace(way[0], own=next((stroke.own for stroke in way if stroke.own), ""))


def _following(way: Iterable[Stroke]) -> list[Array]:
    """The runs of strokes, each starting exactly where the one before it ends; straight ones that follow are one."""
    runs: list[Array] = []
    straight: list[Array] = []
    end: Array | None = None
    for run in (run for stroke in way for run in stroke.runs):
        moved = run.copy()
        first = moved if moved.ndim == 2 else moved[0]
        if end is not None:
            first[0] = end
        end = moved[-1] if moved.ndim == 2 else moved[-1, 3]
        if moved.ndim == 2:
            straight.append(moved if not straight else moved[1:])
            continue
        if straight:
            runs.append(np.concatenate(straight))
            straight = []
        runs.append(moved)
    return [*runs, np.concatenate(straight)] if straight else runs
