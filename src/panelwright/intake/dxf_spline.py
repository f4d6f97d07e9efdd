"""A spline of a DXF file as cubics."""

from typing import Final

import numpy as np
from scipy.interpolate import BSpline

from panelwright.errors import InputError
from panelwright.geometry.arrays import Array
from panelwright.intake.dxf_tags import Entity
from panelwright.intake.points_curve import curve_through

HIGHEST_DEGREE: Final = 9
MOST_CONTROLS: Final = 20_000
# Each span of a spline that cubics cannot follow exactly is cut into so many parts.
_PARTS: Final = 16


def spline_runs(entity: Entity) -> tuple[Array, ...]:
    """The cubics of a SPLINE, exact up to the third degree without weights, else true in place and direction.

    A spline that is given by the points it goes through alone runs as `curve_through` runs.

    Raises:
        InputError: if it is malformed.
    """
    controls, fits = _points(entity, 10), _points(entity, 11)
    if len(controls) < 2:
        return _fitted(entity, fits)
    degree, knots = entity.whole(71, 3), np.array(entity.numbers(40))
    weights = np.array(entity.numbers(41))
    _refuse_malformed(entity, degree, knots, controls, weights)
    rational = bool(len(weights)) and bool(np.ptp(weights) > 1e-9 * weights.max())
    spans = _spans(knots, degree, len(controls))
    if not len(spans):
        raise InputError(f"the SPLINE in line {entity.line} has no length: save the drawing again")
    if degree == 1 and not rational:
        return (controls,)
    if degree <= 3 and not rational:
        return (_exact(controls, knots, degree, spans),)
    weighted = np.column_stack([controls, np.ones(len(controls))])
    if rational:
        weighted = weighted * weights[:, None]
    return (_followed(BSpline(knots, weighted, degree), spans),)


def _points(entity: Entity, code: int) -> Array:
    xs, ys = entity.numbers(code), entity.numbers(code + 10)
    if len(xs) != len(ys) or len(xs) > MOST_CONTROLS:
        raise InputError(f"the SPLINE in line {entity.line} has {len(xs)} x and {len(ys)} y: save the drawing again")
    return np.column_stack([xs, ys]) if xs else np.zeros((0, 2))


def _fitted(entity: Entity, fits: Array) -> tuple[Array, ...]:
    if len(fits) > 1:
        fits = fits[np.concatenate([[True], np.hypot(*np.diff(fits, axis=0).T) > 1e-6])]
    if len(fits) < 2:
        raise InputError(f"the SPLINE in line {entity.line} has no points: save the drawing again")
    return (curve_through(fits).cubics,)


def _refuse_malformed(entity: Entity, degree: int, knots: Array, controls: Array, weights: Array) -> None:
    count = len(controls)
    fault = ""
    if not 1 <= degree <= HIGHEST_DEGREE:
        fault = f"is of degree {degree}"
    elif count <= degree or len(knots) != count + degree + 1:
        fault = f"has {count} points and {len(knots)} knots"
    elif (np.diff(knots) < 0).any():
        fault = "has knots that run backwards"
    elif len(weights) not in (0, count) or (weights <= 1e-9).any():
        fault = "has weights that do not belong to its points"
    if fault:
        raise InputError(f"the SPLINE in line {entity.line} {fault}, which cannot be: save the drawing again")


def _spans(knots: Array, degree: int, count: int) -> Array:
    """The stretches of the parameter between different knots, shape (n, 2)."""
    own = knots[degree : count + 1]
    least = 1e-12 * max(1.0, float(np.abs(own).max()))
    spans: Array = np.column_stack([own[:-1], own[1:]])[np.diff(own) > least]
    return spans


def _exact(controls: Array, knots: Array, degree: int, spans: Array) -> Array:
    """Control points of each span by blossoming, raised to the third degree, shape (n, 4, 2)."""
    low, high = spans.T
    arguments = [[low] * (degree - k) + [high] * k for k in range(degree + 1)]
    points = np.stack([_blossom(controls, knots, degree, low, each) for each in arguments], axis=1)
    if degree == 2:
        a, b, c = (points[:, k] for k in range(3))
        points = np.stack([a, a + 2 / 3 * (b - a), c + 2 / 3 * (b - c), c], axis=1)
    return _joined(points)


def _blossom(controls: Array, knots: Array, degree: int, inside: Array, arguments: list[Array]) -> Array:
    """De Boor's triangle with arguments of its own at each level, on the spans that start at `inside`, shape (n, 2)."""
    k = np.searchsorted(knots, inside, side="right") - 1
    points = controls[k[:, None] + np.arange(-degree, 1)]
    for level, t in enumerate(arguments, 1):
        first = k[:, None] + np.arange(level - degree, 1)
        below, above = knots[first], knots[first + degree + 1 - level]
        share = ((t[:, None] - below) / (above - below))[..., None]
        points = (1 - share) * points[:, :-1] + share * points[:, 1:]
    place: Array = points[:, 0]
    return place


def _followed(spline: BSpline, spans: Array) -> Array:
    """Cubics with the places and velocities of a spline in weighted coordinates, `_PARTS` to each span."""
    low, wide = spans[:, :1], np.diff(spans)
    share = np.linspace(0.0, 1.0, _PARTS + 1)
    share[[0, -1]] = 1e-9, 1 - 1e-9  # a velocity may jump at a knot
    t = low + wide * share
    value, change = spline(t), spline(t, nu=1)
    places = value[..., :2] / value[..., 2:]
    velocity = (change[..., :2] - places * change[..., 2:]) / value[..., 2:]
    third = (wide / _PARTS / 3)[..., None] * velocity
    a, b = places[:, :-1], places[:, 1:]
    cubics = np.stack([a, a + third[:, :-1], b - third[:, 1:], b], axis=2)
    return _joined(cubics.reshape(-1, 4, 2))


def _joined(cubics: Array) -> Array:
    """Each cubic made to start exactly where the one before it ends."""
    cubics[1:, 0] = cubics[:-1, 3]
    return cubics
