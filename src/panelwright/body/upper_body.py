"""The upper body: chest and back from the upper-bust level to neck, shoulder and armhole.

Two sheets, front and back, stand on the cloth's section at the upper-bust level without a crease and meet in a
straight shoulder line. The wearer's neck base girth, shoulder length and slope, widths across front and back,
underarm and back length fix them; what no tape says (how far chest and back lean) is own choice, marked below.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import Final, Literal

import numpy as np
from scipy.optimize import brentq

from panelwright.body.estimates import SIDE_NECK_ABOVE_NAPE
from panelwright.body.measurements import Measurements
from panelwright.body.sheet import Sheet
from panelwright.errors import BlockError
from panelwright.geometry.arrays import Array

Half = Literal["front", "back"]

# Own choices, from memory of bodies: proportions that no measurement gives.
NECK_FRONT, NECK_BACK = 0.85, 0.50  # depth of the neck curve before and behind the side neck point, of its half width
NECK_ROUND: Final = 2.2  # exponent of the neck's plan; 2 is an ellipse
RIDGE_BEHIND = 0.08  # of the section's depth: how far the shoulder line lies behind the middle of it
RISE_FRONT, RISE_BACK = 0.95, 0.45  # steepness of chest and back where they reach the shoulder line, at the neck
ACROSS_AT = 0.42  # of the armhole's height, from the underarm: where across front and across back are measured
SAMPLES: Final = 61
CURVE_SAMPLES: Final = 41
LEAST_ARMHOLE = 60.0  # mm from the underarm level up to the shoulder point


@dataclass(frozen=True)
class UpperShape:
    """What is measured above the upper-bust level, mm and radians."""

    neck_base_girth: float
    shoulder_length: float
    shoulder_slope: float
    across_front: float
    across_back: float
    underarm: float
    back_length: float

    @classmethod
    def of(cls, wearer: Measurements) -> "UpperShape":
        """The shape of a measured wearer."""
        return cls(
            wearer["neck_base_girth"],
            wearer["shoulder_length"],
            wearer["shoulder_slope"],
            wearer["across_front"],
            wearer["across_back"],
            wearer["underarm_to_waist"],
            wearer["back_neck_to_waist"],
        )


@dataclass(frozen=True, eq=False)
class SheetCurve:
    """A curve on a sheet: places (v, u), shape (n,) each."""

    v: Array
    u: Array

    def length(self, sheet: Sheet) -> float:
        """Its length in space, mm."""
        return float(np.linalg.norm(np.diff(sheet.points(self.v, self.u), axis=0), axis=1).sum())


class UpperBody:
    """The two sheets of a wearer and the curves on them.

    Args:
        shape: measurements.
        section: height -> the cloth's half section there, shape (n, 2), from centre front to centre back.
        foot: height of the upper-bust level, where the sheets begin.
        side_arc: arc position on the section at `foot` where the side seam stands, mm from centre front.
        back_below: length of the centre-back line from the waist to `foot`, mm.

    Raises:
        BlockError: if no such shoulders can be built.
    """

    def __init__(
        self, shape: UpperShape, section: Callable[[float], Array], foot: float, side_arc: float, back_below: float
    ) -> None:
        self.shape, self.foot = shape, foot
        self._side_arc = side_arc
        low, under = section(foot), section(foot - 2.0)
        self._low = np.column_stack([low, np.full(len(low), foot)])
        self._upwards = np.column_stack([(low - under) / 2.0, np.ones(len(low))])
        depth = float(low[0, 1] - low[-1, 1])
        self._ridge = float(low[0, 1] + low[-1, 1]) / 2 - RIDGE_BEHIND * depth
        self._back_below = back_below
        self.neck_width = 0.0
        self.side_neck = self._settle()

    def _settle(self) -> float:
        """Height of the side neck point that gives the wearer's back length; the neck's half width settles with it."""
        shape = self.shape
        least = shape.underarm + LEAST_ARMHOLE + shape.shoulder_length * float(np.sin(shape.shoulder_slope))
        guess = shape.back_length + SIDE_NECK_ABOVE_NAPE

        def excess(height: float) -> float:
            self._set_neck(height)
            return self._back_below + self._centre_back_length() - shape.back_length

        low, high = guess - 80.0, guess + 60.0
        if excess(low) > 0 or excess(high) < 0:
            raise BlockError(
                "no shoulders can be built on these measurements: back neck point to waist and underarm to waist do "
                "not go together; measure both again"
            )
        height = float(brentq(excess, low, high, xtol=2e-2))
        self._set_neck(height)
        if height < least:
            raise BlockError(
                f"the shoulder point would lie {(height - least + LEAST_ARMHOLE) / 10:.1f} cm above the underarm; an "
                f"armhole needs {LEAST_ARMHOLE / 10:g} cm: measure shoulder length, its slope and the underarm again"
            )
        return height

    def _set_neck(self, height: float) -> None:
        self.side_neck = height

        def excess(width: float) -> float:
            self._build(width)
            return 2 * sum(self.neck(half).length(self.sheet(half)) for half in ("front", "back")) - (
                self.shape.neck_base_girth
            )

        guess = self.shape.neck_base_girth / (2 * np.pi)
        if excess(0.4 * guess) > 0 or excess(1.9 * guess) < 0:
            raise BlockError("no neck of the base girth given can be built on these shoulders; measure it again")
        width = float(brentq(excess, 0.4 * guess, 1.9 * guess, xtol=1e-2))
        self._build(width)

    def _build(self, width: float) -> None:
        self.neck_width = width
        self.__dict__.pop("front", None)
        self.__dict__.pop("back", None)

    @property
    def height(self) -> float:
        """From the foot of the sheets up to the side neck point, mm."""
        return self.side_neck - self.foot

    @property
    def shoulder_point(self) -> tuple[float, float]:
        """(x, z) of the shoulder point."""
        slope, length = self.shape.shoulder_slope, self.shape.shoulder_length
        return self.neck_width + length * float(np.cos(slope)), self.side_neck - length * float(np.sin(slope))

    @property
    def neck_at(self) -> float:
        """u of the side neck point on the shoulder line."""
        return self.neck_width / self.shoulder_point[0]

    @cached_property
    def front(self) -> Sheet:
        """The front sheet."""
        return self._sheet(1, -1.0, RISE_FRONT)

    @cached_property
    def back(self) -> Sheet:
        """The back sheet; its u runs from the centre back to the side."""
        return self._sheet(-1, 1.0, RISE_BACK)

    def sheet(self, half: Half) -> Sheet:
        """Front or back."""
        return self.front if half == "front" else self.back

    def _sheet(self, way: int, towards: float, rise: float) -> Sheet:
        """The sheet that starts from the centre front (way 1) or back (way -1)."""
        low, upwards = self._low[::way], self._upwards[::way]
        arcs = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(low, axis=0), axis=1))])
        u = np.linspace(0.0, 1.0, SAMPLES)
        reach = self._side_arc if way == 1 else arcs[-1] - self._side_arc
        low, upwards = (np.stack([np.interp(u * reach, arcs, c) for c in grid.T], axis=-1) for grid in (low, upwards))
        high = self._ridge_line(u)
        slant = float(np.hypot(1.0, rise))
        upright = rise / slant * (1 - u) + u
        arriving = np.stack([np.zeros(SAMPLES), towards * (1 - u**4) / slant, upright], axis=-1)
        return Sheet(u, low, high, upwards * self.height, arriving * (high[:, 2:] - self.foot))

    def _ridge_line(self, u: Array) -> Array:
        """The shoulder line, straight from the shoulder point to the neck and rounded over inside it."""
        x, fall = u * self.shoulder_point[0], float(np.tan(self.shape.shoulder_slope))
        z = np.where(
            x >= self.neck_width,
            self.side_neck - (x - self.neck_width) * fall,
            self.side_neck + (self.neck_width**2 - x**2) * fall / (2 * self.neck_width),
        )
        return np.stack([x, np.full(len(u), self._ridge), z], axis=-1)

    def neck(self, half: Half) -> SheetCurve:
        """The neck base from the centre to the side neck point: a superellipse seen from above."""
        sheet, depth = self.sheet(half), self.neck_width * (NECK_FRONT if half == "front" else NECK_BACK)
        u = self.neck_at * np.sin(np.linspace(0.0, np.pi / 2, CURVE_SAMPLES))
        lines = sheet.at(u)
        low, high = np.zeros(len(u)), np.ones(len(u))
        for _ in range(24):
            v = (low + high) / 2
            points = lines.up(v)
            across, ahead = points[:, 0] / self.neck_width, np.abs(points[:, 1] - self._ridge) / depth
            outside = np.abs(across) ** NECK_ROUND + ahead**NECK_ROUND > 1
            low, high = np.where(outside, v, low), np.where(outside, high, v)
        return SheetCurve(np.append(((low + high) / 2)[:-1], 1.0), u)

    def _centre_back_length(self) -> float:
        top = float(self.neck("back").v[0])
        v = np.linspace(0.0, top, CURVE_SAMPLES)
        return SheetCurve(v, np.zeros(len(v))).length(self.back)

    def side_at(self, height: float) -> float:
        """v at which the side line reaches a height."""
        v = np.linspace(0.0, 1.0, 401)
        return float(np.interp(height, self.front.points(v, np.ones(401))[:, 2], v))

    def armhole(self, half: Half) -> SheetCurve:
        """The armhole from the shoulder point down to the underarm, through the across-front or across-back point."""
        sheet, under = self.sheet(half), self.side_at(self.shape.underarm)
        across = self.shape.across_front if half == "front" else self.shape.across_back
        level = self.shape.underarm + ACROSS_AT * (self.shoulder_point[1] - self.shape.underarm)
        middle = self._at_height(sheet, level)
        inset = self._at_arc(sheet, middle, across / 2)
        down = np.linspace(0.0, 1.0, CURVE_SAMPLES)
        upper_v = 1 - (1 - middle) * down
        upper_u = 1 - (1 - inset) * down**2 * (3 - 2 * down)
        turn = np.linspace(0.0, np.pi / 2, CURVE_SAMPLES)[1:]
        lower_v = middle - (middle - under) * np.sin(turn)
        lower_u = 1 - (1 - inset) * np.cos(turn)
        return SheetCurve(np.concatenate([upper_v, lower_v]), np.concatenate([upper_u, lower_u]))

    def _at_height(self, sheet: Sheet, height: float) -> float:
        v = np.linspace(0.0, 1.0, 401)
        return float(np.interp(height, sheet.points(v, np.full(401, 0.9))[:, 2], v))

    def _at_arc(self, sheet: Sheet, v: float, arc: float) -> float:
        """u at an arc from the centre along a row, kept between the neck and just inside the shoulder point."""
        row = sheet.row(v)
        arcs = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(row, axis=0), axis=1))])
        return float(np.clip(np.interp(arc, arcs, sheet.u), self.neck_at + 0.1, 0.97))
