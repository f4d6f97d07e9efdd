"""What is drawn in and at a piece: its grain, notches, marks and lines."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import shapely

from panelwright.errors import GeometryError
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.intake.drawing_edges import inside_curve
from panelwright.intake.drawing_fit import CurveFitter
from panelwright.intake.drawing_outline import Found
from panelwright.intake.drawing_places import ON_THE_LINE, OutlinePlaces
from panelwright.intake.drawing_role import Role, role_of
from panelwright.intake.drawing_stroke import Dot, Stroke, Written
from panelwright.intake.drawn_edge import DrawnEdge
from panelwright.intake.drawn_piece import DrawnNotch
from panelwright.pattern.level import LEVELS
from panelwright.pattern.mark import Grain, InsideLine, Mark, as_point

MOST_LINES: Final = 60
MOST_NOTCHES: Final = 100
MOST_SIGNS: Final = 200
MOST_WORDS: Final = 20
# Ticks of one notch are this near to each other along the outline, mm.
_ONE_NOTCH: Final = 8.5
# A notch is a straight line no longer than this, mm, whose one end lies on the outline.
_LONGEST_NOTCH: Final = 40.0
_LONGEST_UNNAMED: Final = 16.0
# A name stands no farther than this from the end of its line, mm.
_NAME_AT: Final = 1.0
_GRAIN_WORD: Final = re.compile(r"\bgrain\b", re.IGNORECASE)
_GRAIN_WORD_AT: Final = 25.0
_LEAST_GRAIN: Final = 40.0


@dataclass(frozen=True, eq=False)
class Content:
    """What lies in or at a piece before anybody has said what it is."""

    strokes: Sequence[Stroke] = ()
    dots: Sequence[Dot] = ()
    texts: Sequence[Written] = ()


@dataclass(frozen=True, eq=False)
class Inside:
    """What a piece holds; `guessed_grain` tells that only a word beside its grain line says so."""

    grain: Grain | None
    lines: tuple[InsideLine, ...]
    notches: tuple[DrawnNotch, ...]
    marks: tuple[Mark, ...]
    guessed_grain: bool = False
    left_out: int = 0


def inside_of(
    found: Found, edges: Sequence[DrawnEdge], content: Content, roles: Mapping[str, Role], fitter: CurveFitter
) -> Inside:
    """Tell apart what is drawn in a piece."""
    by_role: dict[Role, list[Stroke]] = {}
    for stroke in content.strokes:
        by_role.setdefault(role_of(stroke.names, roles), []).append(stroke)
    outline = OutlinePlaces(edges)
    notches, unused = _notches(found, outline, content.dots, by_role, roles)
    grain, guessed = _grain(by_role.get("grain", []), unused, content.texts)
    lines = [stroke for stroke in (*unused, *by_role.get("inside", [])) if stroke is not guessed]
    folds = [stroke for stroke in by_role.get("fold", [])[:MOST_LINES] if not outline.has(stroke)]
    named = _lines(lines, folds, content.texts, roles, fitter)
    marks = _marks(by_role.get("mark", []), content.dots, content.texts, roles)
    left_out = len(lines) + len(folds) - len(named)
    return Inside(grain, named, notches, marks, guessed is not None, left_out)


def _notches(
    found: Found,
    edges: OutlinePlaces,
    dots: Sequence[Dot],
    by_role: Mapping[Role, list[Stroke]],
    roles: Mapping[str, Role],
) -> tuple[tuple[DrawnNotch, ...], list[Stroke]]:
    """(notches, lines of no known kind that are none)."""
    rings = [shapely.LineString(ring.line.preview) for ring in (found.outline, found.outer)]
    for ring in rings:
        shapely.prepare(ring)
    ticks: list[Array] = []
    unused: list[Stroke] = []
    for stroke in by_role.get("notch", [])[: 2 * MOST_NOTCHES]:
        if stroke.length <= _LONGEST_NOTCH:
            ticks.append(_foot(stroke, rings[0]))
    for stroke in by_role.get("any", []):
        short = stroke.is_straight and stroke.length <= _LONGEST_UNNAMED
        if short and len(ticks) < MOST_NOTCHES and _touches(stroke, rings):
            ticks.append(_foot(stroke, rings[0]))
        else:
            unused.append(stroke)
    single = [np.array(dot.at) for dot in dots if role_of(dot.names, roles) == "notch"]
    places = sorted(edges.arc(at) for at in [*ticks, *single][:MOST_NOTCHES])
    return _grouped(edges, places), unused


def _foot(stroke: Stroke, ring: shapely.LineString) -> Array:
    """The end of a tick that lies nearest to the outline."""
    return min((stroke.start, stroke.end), key=lambda end: float(ring.distance(shapely.Point(end))))


def _touches(stroke: Stroke, rings: list[shapely.LineString]) -> bool:
    ends = shapely.points(np.array([stroke.start, stroke.end]))
    near = np.array([shapely.dwithin(ring, ends, ON_THE_LINE) for ring in rings])
    return bool(near.any()) and not bool(near.all(axis=1).any())


def _grouped(edges: OutlinePlaces, places: list[float]) -> tuple[DrawnNotch, ...]:
    """Ticks side by side are one notch, in their middle; a tick and the point at its end are one tick."""
    groups: list[list[float]] = []
    for arc in places:
        if groups and arc - groups[-1][-1] <= _ONE_NOTCH:
            groups[-1].append(arc)
        else:
            groups.append([arc])
    notches = []
    for group in groups:
        ticks = [arc for k, arc in enumerate(group) if k == 0 or arc - group[k - 1] > 1.5]
        middle = (ticks[0] + ticks[-1]) / 2
        notches.append(DrawnNotch(as_point(edges.point(middle)), min(len(ticks), 3)))
    return tuple(notches)


def _grain(told: list[Stroke], unknown: list[Stroke], texts: Sequence[Written]) -> tuple[Grain | None, Stroke | None]:
    """(grain, the line that was taken for it because of a word beside it)."""
    lines = sorted((stroke for stroke in told if stroke.is_straight), key=lambda stroke: -stroke.length)
    if lines:
        return _as_grain(lines[0]), None
    words = [np.array(text.at) for text in texts if _GRAIN_WORD.search(text.text)][:MOST_WORDS]
    beside = [
        stroke
        for stroke in sorted(unknown, key=lambda stroke: -stroke.length)[:MOST_LINES]
        if stroke.is_straight
        and stroke.length >= _LEAST_GRAIN
        and any(_off(stroke, at) <= _GRAIN_WORD_AT for at in words)
    ]
    if not beside:
        return None, None
    line = max(beside, key=lambda stroke: stroke.length)
    return _as_grain(line), line


def _as_grain(line: Stroke) -> Grain:
    """Upwards, or to the right where it lies flat."""
    start, end = as_point(line.start), as_point(line.end)
    flat = abs(end[0] - start[0]) > 1e3 * abs(end[1] - start[1])
    backwards = end[0] < start[0] if flat else end[1] < start[1]
    return Grain(end, start) if backwards else Grain(start, end)


def _off(stroke: Stroke, at: Array) -> float:
    return float(shapely.LineString(stroke.preview).distance(shapely.Point(at)))


def _lines(
    lines: list[Stroke],
    folds: list[Stroke],
    texts: Sequence[Written],
    roles: Mapping[str, Role],
    fitter: CurveFitter,
) -> tuple[InsideLine, ...]:
    found: list[InsideLine] = []
    taken: set[str] = set()
    names = _Words([text for text in texts if role_of(text.names, roles) not in ("cut", "text", "mark")])
    for stroke in [*lines, *folds][:MOST_LINES]:
        curve = _curve(stroke, fitter)
        if curve is None:
            continue
        name = _slug(stroke.own or names.beside(stroke.start, stroke.end))
        level = next((each for each in LEVELS if name == each and each not in taken), None)
        id = level or f"line-{len(found) + 1}"
        taken.add(id)
        if level and curve.start[0] > curve.end[0]:
            curve = curve.reversed()
        found.append(InsideLine(id, "level" if level else ("fold" if stroke in folds else "guide"), curve))
    return tuple(found)


def _curve(stroke: Stroke, fitter: CurveFitter) -> Curve | None:
    try:
        return inside_curve(stroke, fitter)
    except GeometryError:
        return None


class _Words:
    """Texts, each where it stands."""

    def __init__(self, texts: Sequence[Written]) -> None:
        self._texts = texts
        self._places = np.array([text.at for text in texts]).reshape(-1, 2)

    def beside(self, *points: Array) -> str:
        """The first text that stands at one of some points; nothing where none does."""
        near = np.any([np.hypot(*(self._places - point).T) <= _NAME_AT for point in points], axis=0)
        return self._texts[int(near.argmax())].text if near.any() else ""


def _slug(text: str) -> str:
    return re.sub(r"[^\w]+", "-", text.lower()).strip("-")[:40]


def _marks(
    strokes: list[Stroke], dots: Sequence[Dot], texts: Sequence[Written], roles: Mapping[str, Role]
) -> tuple[Mark, ...]:
    """Points on layers of marks, and signs round a point: the middle of each."""
    places = [(np.array(dot.at), dot.own) for dot in dots if role_of(dot.names, roles) in ("mark", "any")]
    places = places[:MOST_LINES]
    for stroke in strokes[:MOST_SIGNS]:
        middle = (stroke.preview.min(axis=0) + stroke.preview.max(axis=0)) / 2
        if all(np.hypot(*(at - middle)) > 2.0 for at, _ in places):
            places.append((middle, stroke.own))
    names = _Words(sorted(texts, key=lambda text: role_of(text.names, roles) != "mark"))
    found: dict[str, Mark] = {}
    for at, own in places[:MOST_LINES]:
        name = id = _slug(own or names.beside(at)) or "mark"
        number = 1
        while id in found:
            number += 1
            id = f"{name}-{number}"
        found[id] = Mark(id, "point", as_point(at))
    return tuple(found.values())
