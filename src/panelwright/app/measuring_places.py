"""Where on the figure the tape lies for each measurement, and from which side it is seen."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np

from panelwright.app.measuring_figure import ELBOW, WRIST, MeasuringFigure, View
from panelwright.body.section import plane
from panelwright.body.term import TermId
from panelwright.body.torso_shape import GIRTHS
from panelwright.body.upper_body import ACROSS_AT
from panelwright.geometry.arrays import Array

CLEAR: Final = 34.0  # mm from the body to a length that is shown beside it

Run = tuple[Array, bool]  # places in space, shape (n, 3); whether a tape's ends are marked


@dataclass(frozen=True, eq=False)
class Shown:
    """What a picture shows.

    Attributes:
        view: of the figure.
        tapes: strong lines, and whether they have arrows at their ends.
        round: a tape that goes round the body, shape (n, 3), closed; or None.
        help: fine lines from the body to the tape.
        whole: down to the floor.
    """

    view: View
    tapes: tuple[Run, ...] = ()
    round: Array | None = None
    help: tuple[Array, ...] = ()
    whole: bool = False


def girth_at(figure: MeasuringFigure, height: float) -> Array:
    """A tape round the figure at a height, shape (n, 3), mm: a closed line 2 mm outside it."""
    half = plane(figure.torso.taped(np.array([height])) + 2.0)[0][::5]
    flat = np.concatenate([half, half[-2:0:-1] * [-1.0, 1.0]])
    return np.column_stack([flat, np.full(len(flat), height)])


def _girth(level: str) -> Callable[[MeasuringFigure], Shown]:
    return lambda figure: Shown("front", round=girth_at(figure, figure.torso.shape.heights[level]))


def _neck(figure: MeasuringFigure) -> Shown:
    upper = figure.upper
    halves = [upper.sheet(half).points(curve.v, curve.u) for half in ("front", "back") if (curve := upper.neck(half))]
    front, back = halves
    right = np.concatenate([front, back[::-1][1:]])
    return Shown("front", round=np.concatenate([right, right[-2:0:-1] * [-1.0, 1.0, 1.0]]) * [1.03, 1.03, 1.0])


def bust_point(figure: MeasuringFigure) -> Array:
    """The right bust point, shape (3,), mm."""
    torso, height = figure.torso, figure.torso.shape.heights["bust"]
    radii = torso.bare(np.array([height]))[0]
    angles = np.linspace(0.0, np.pi, len(radii))
    radius = float(np.interp(torso.bust_angle, angles, radii))
    return np.array([radius * np.sin(torso.bust_angle), radius * np.cos(torso.bust_angle), height])


def _side_neck(figure: MeasuringFigure) -> Array:
    point: Array = figure.upper.front.points(np.array([1.0]), np.array([figure.upper.neck_at]))[0]
    return point


def _shoulder(figure: MeasuringFigure) -> Array:
    point: Array = figure.upper.front.points(np.array([1.0]), np.array([1.0]))[0]
    return point


def _bust_points(figure: MeasuringFigure) -> Shown:
    point = bust_point(figure)
    return Shown("front", tapes=((np.array([point, point * [-1.0, 1.0, 1.0]]), True),))


def _neck_to_bust(figure: MeasuringFigure) -> Shown:
    return Shown("front", tapes=((np.array([_side_neck(figure), bust_point(figure)]), True),))


def _shoulder_length(figure: MeasuringFigure) -> Shown:
    return Shown("front", tapes=((np.array([_side_neck(figure), _shoulder(figure)]), True),))


def _shoulder_slope(figure: MeasuringFigure) -> Shown:
    neck, end = _side_neck(figure), _shoulder(figure)
    reach = 1.5 * (end[0] - neck[0])
    slope = figure.wearer["shoulder_slope"]
    angles = np.linspace(0.0, slope, 12)
    around = np.column_stack([np.cos(angles), np.zeros(12), -np.sin(angles)]) * reach * 0.85 + neck
    down = neck + np.array([np.cos(slope), 0.0, -np.sin(slope)]) * reach
    level = np.array([neck, neck + np.array([reach, 0.0, 0.0])])
    return Shown("front", tapes=((around, True),), help=(level, np.array([neck, down])))


def _across(view: View, term: TermId) -> Callable[[MeasuringFigure], Shown]:
    def shown(figure: MeasuringFigure) -> Shown:
        upper, half = figure.upper, figure.wearer[term] / 2
        under = upper.shape.underarm
        height = under + ACROSS_AT * (upper.shoulder_point[1] - under)
        ends = np.array([[half, 0.0, height], [-half, 0.0, height]])
        return Shown(view, tapes=((ends, True),))

    return shown


def _down_the_back(figure: MeasuringFigure) -> Shown:
    upper = figure.upper
    top = float(upper.neck("back").v[0])
    v = np.linspace(top, 0.0, 12)
    above = upper.back.points(v, np.zeros(12))
    z = np.linspace(upper.foot, 0.0, 20)[1:]
    below = np.column_stack([np.zeros(19), -figure.torso.taped(z)[:, -1], z])
    return Shown("back", tapes=((np.concatenate([above, below]), True),))


def _before(low: str, high: str) -> Callable[[MeasuringFigure], Shown]:
    """A height between two levels, shown before the body as seen from the side."""

    def shown(figure: MeasuringFigure) -> Shown:
        heights, torso = figure.torso.shape.heights, figure.torso
        ends = [heights[low], heights[high]]
        fronts = torso.taped(np.array(ends)).max(axis=1)
        out = float(torso.taped(np.array([heights["bust"]]))[0].max()) + CLEAR
        tape = np.array([[0.0, out, z] for z in ends])
        help = tuple(
            np.array([[0.0, front * 0.98, z], [0.0, out + 14.0, z]]) for front, z in zip(fronts, ends, strict=True)
        )
        return Shown("side", tapes=((tape, True),), help=help)

    return shown


def _at_side(low: float | str, high: float | str) -> Callable[[MeasuringFigure], Shown]:
    """A height on the side of the body: between the waist and a level, or the underarm."""

    def shown(figure: MeasuringFigure) -> Shown:
        heights = {**figure.torso.shape.heights, "underarm": figure.upper.shape.underarm}
        z = np.linspace(heights[str(low)], heights[str(high)], 24)
        foot = figure.upper.foot
        x = figure.torso.taped(np.minimum(z, foot))[:, 180]
        rulers = [np.array([[x[k], -70.0, z[k]], [x[k], 70.0, z[k]]]) for k in (0, -1) if abs(z[k]) > 1e-6]
        return Shown("side", tapes=((np.column_stack([x, np.zeros(24), z]), True),), help=tuple(rulers))

    return shown


def _stature(figure: MeasuringFigure) -> Shown:
    x = -330.0
    tape = np.array([[x, 0.0, figure.floor], [x, 0.0, figure.head_top]])
    help = tuple(np.array([[x - 30.0, 0.0, z], [0.0, 0.0, z]]) for z in (figure.floor, figure.head_top))
    return Shown("front", tapes=((tape, True),), help=help, whole=True)


def _arm_length(figure: MeasuringFigure) -> Shown:
    """From the end of the shoulder down the outside of the arm; the elbow is bent for it, and hangs in the picture."""
    down = [np.array([x + radius, y, z]) for x, y, z, radius in figure.arm[ELBOW : WRIST + 1]]
    return Shown("front", tapes=((np.array([_shoulder(figure), *down]), True),))


def _round_the_arm(joint: int, below: float) -> Callable[[MeasuringFigure], Shown]:
    """A tape round the right arm, a share of the way from a joint to the next."""

    def shown(figure: MeasuringFigure) -> Shown:
        start, end = (np.array(figure.arm[k]) for k in (joint, joint + 1))
        *middle, radius = start + below * (end - start)
        angles = np.linspace(0.0, 2 * np.pi, 48, endpoint=False)
        flat = np.column_stack([np.cos(angles), np.sin(angles), np.zeros(48)])
        return Shown("front", round=np.array(middle) + (radius + 2.0) * flat)

    return shown


SHOWN: Final[Mapping[TermId, Callable[[MeasuringFigure], Shown]]] = {
    **{term: _girth(level) for level, term in GIRTHS.items()},
    "back_neck_to_waist": _down_the_back,
    "bust_point_to_underbust": _before("underbust", "bust"),
    "side_neck_to_bust_point": _neck_to_bust,
    "bust_point_span": _bust_points,
    "bust_height": _before("waist", "bust"),
    "underarm_to_waist": _at_side("waist", "underarm"),
    "waist_to_top_hip": _at_side("top-hip", "waist"),
    "waist_to_hip": _at_side("hip", "waist"),
    "neck_base_girth": _neck,
    "shoulder_length": _shoulder_length,
    "shoulder_slope": _shoulder_slope,
    "across_front": _across("front", "across_front"),
    "across_back": _across("back", "across_back"),
    "arm_length": _arm_length,
    "upper_arm_girth": _round_the_arm(0, 0.45),
    "wrist_girth": _round_the_arm(WRIST, 0.0),
    "stature": _stature,
}
