"""The entities of a DXF file that can be part of a pattern, as strokes."""

import math
import re
from typing import Final

import numpy as np

from panelwright.errors import InputError
from panelwright.geometry.arrays import Array
from panelwright.intake.drawing_limits import usable
from panelwright.intake.drawing_stroke import arc_cubics
from panelwright.intake.dxf_spline import spline_runs
from panelwright.intake.dxf_tags import Entity

CLOSED: Final = 1
# Flags of old polylines: a mesh or a body, and the frame points of a smoothed one.
_MESH: Final = 16 | 64
_FRAME: Final = 16
_MOST_BULGE: Final = 1e4
LARGEST_RATIO: Final = 1e3
_FORMATTING: Final = re.compile(r"\\[A-Za-z][^;\\{}]*;|[{}]")
Runs = tuple[Array, ...]


def entity_runs(entity: Entity, vertices: list[Entity]) -> Runs | None:
    """The runs of a line of any kind; None where an entity is no line that a pattern has.

    Args:
        entity: the entity.
        vertices: of an old polyline, which stand behind it.

    Raises:
        InputError: if it is malformed.
    """
    match entity.kind:
        case "LINE":
            return (np.array([_point(entity, 10), _point(entity, 11)]),)
        case "LWPOLYLINE":
            return _light_polyline(entity)
        case "POLYLINE":
            return _old_polyline(entity, vertices)
        case "ARC" | "CIRCLE":
            return _circular(entity)
        case "ELLIPSE":
            return _elliptic(entity)
        case "SPLINE":
            return spline_runs(entity)
    return None


def entity_text(entity: Entity) -> str:
    """What a TEXT or MTEXT says, in one line."""
    text = entity.text(1)
    if entity.kind == "MTEXT":
        text = _FORMATTING.sub("", text.replace("\\P", " "))
    return " ".join("".join(letter if letter.isprintable() else " " for letter in text[:500]).split())[:200]


def text_place(entity: Entity) -> tuple[float, float]:
    """Where it stands: its alignment point where it has one."""
    aligned = entity.kind == "TEXT" and (entity.whole(72) or entity.whole(73))
    if aligned and any(code == 11 for code, _ in entity.tags):
        return _point(entity, 11)
    return _point(entity, 10)


def is_turned_over(entity: Entity) -> bool:
    """Whether it is seen from below: its x runs the other way."""
    return entity.number(230, 1.0) < 0


def _point(entity: Entity, code: int) -> tuple[float, float]:
    return entity.number(code), entity.number(code + 10)


def _light_polyline(entity: Entity) -> Runs:
    points: list[list[float]] = []
    for code, value in entity.tags:
        if code == 10:
            points.append([entity.length(value, code), 0.0, 0.0])
        elif points and code in (20, 42):
            points[-1][1 if code == 20 else 2] = entity.length(value, code)
    return _bulged(entity, points, bool(entity.whole(70) & CLOSED))


def _old_polyline(entity: Entity, vertices: list[Entity]) -> Runs | None:
    flags = entity.whole(70)
    if flags & _MESH:
        return None
    own = [vertex for vertex in vertices if not vertex.whole(70) & _FRAME]
    points = [[*_point(vertex, 10), vertex.number(42, 0.0)] for vertex in own]
    return _bulged(entity, points, bool(flags & CLOSED))


def _bulged(entity: Entity, points: list[list[float]], closed: bool) -> Runs:
    """Straight lines and arcs through vertices (x, y, bulge); a bulge is the tangent of a quarter of the arc's turn."""
    if len(points) < 2:
        raise InputError(f"the {entity.kind} in line {entity.line} has fewer than two points: save the drawing again")
    if closed and points[0][:2] != points[-1][:2]:
        points = [*points, [*points[0][:2], 0.0]]
    table = np.array(points)
    places = table[:, :2]
    bent = np.flatnonzero(np.abs(table[:-1, 2]) > 1e-9)
    runs, last = list[Array](), 0
    for k in bent.tolist():
        if k > last:
            runs.append(places[last : k + 1])
        runs.append(_bulge(places[k], places[k + 1], float(table[k, 2])))
        last = k + 1
    if last < len(places) - 1:
        runs.append(places[last:])
    return tuple(runs)


def _bulge(a: Array, b: Array, bulge: float) -> Array:
    chord = b - a
    if abs(bulge) > _MOST_BULGE or not chord.any():
        return np.array([[a, a + chord / 3, a + chord * 2 / 3, b]])
    sweep = 4 * math.atan(bulge)
    middle = (a + b) / 2 + np.array([-chord[1], chord[0]]) * (1 - bulge * bulge) / (4 * bulge)
    radius = a - middle
    cubics = arc_cubics(middle, radius, np.array([-radius[1], radius[0]]), 0.0, sweep)
    cubics[0, 0], cubics[-1, 3] = a, b
    return cubics


def _circular(entity: Entity) -> Runs:
    centre, radius = np.array(_point(entity, 10)), entity.number(40)
    if not radius > 0:
        raise InputError(f"the {entity.kind} in line {entity.line} has no radius: save the drawing again")
    start, end = 0.0, 2 * math.pi
    if entity.kind == "ARC":
        start = math.radians(math.fmod(entity.number(50), 360.0))
        end = start + _turn(math.radians(math.fmod(entity.number(51), 360.0)) - start)
    return _round(centre, np.array([radius, 0.0]), np.array([0.0, radius]), start, end)


def _elliptic(entity: Entity) -> Runs:
    centre, major, ratio = np.array(_point(entity, 10)), np.array(_point(entity, 11)), entity.number(40)
    if not major.any() or not 1e-9 < abs(ratio) <= LARGEST_RATIO:
        raise InputError(f"the ELLIPSE in line {entity.line} has no width: save the drawing again")
    start, end = entity.number(41, 0.0), entity.number(42, 2 * math.pi)
    minor = ratio * np.array([-major[1], major[0]])
    return _round(
        centre, major, minor, math.fmod(start, 2 * math.pi), math.fmod(start, 2 * math.pi) + _turn(end - start)
    )


def _turn(angle: float) -> float:
    """The turn above 0 and up to once round that an angle means."""
    turned = math.fmod(angle, 2 * math.pi)
    turned += 2 * math.pi if turned < 0 else 0.0
    return turned if turned > 1e-9 else 2 * math.pi


def _round(centre: Array, across: Array, up: Array, start: float, end: float) -> Runs:
    cubics = usable(arc_cubics(centre, across, up, start, end))
    if abs(end - start - 2 * math.pi) < 1e-9:
        cubics[-1, 3] = cubics[0, 0]
    return (cubics,)
