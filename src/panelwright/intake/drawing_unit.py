"""How large a drawing is: its unit, from what the file says or from the size of its largest piece."""

import math
from typing import Final

import numpy as np

from panelwright.errors import InputError
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.intake.drawing_outline import REACH, find_outlines
from panelwright.intake.drawing_reading import Guess
from panelwright.intake.drawing_role import Role
from panelwright.intake.drawing_stroke import LinesRead
from panelwright.intake.svg_number import PIXEL

# Name -> mm.
UNITS: Final = {"millimetres": 1.0, "centimetres": 10.0, "metres": 1000.0, "inches": 25.4, "points": 25.4 / 72}
_PIXELS: Final = "96 to the inch"
# The longest side of the largest piece of a garment is between these, mm.
_USUAL: Final = (200.0, 1800.0)


def unit_named(name: str) -> float:
    """mm to one of a unit that a person named.

    Raises:
        InputError: if it is not known.
    """
    known = {**UNITS, _PIXELS: PIXEL}
    if name not in known:
        raise InputError(f"the unit {name} is not known; those known are {', '.join(known)}", "unit")
    return known[name]


def unit_guess(lines: LinesRead, roles: dict[str, Role], told: str | None) -> tuple[float, Guess]:
    """(mm to one unit, how it was found out).

    Raises:
        InputError: if a person named a unit that is not known.
    """
    choices = (*UNITS, _PIXELS) if lines.form == "SVG" else tuple(UNITS)
    if told is not None:
        return unit_named(told), Guess("unit", told, "so a person said", choices)
    if lines.unit is not None:
        return lines.unit, Guess("unit", _name(lines.unit), lines.unit_why, choices)
    if lines.form == "SVG":
        why = f"{lines.unit_why}, and without one SVG counts 96 units to an inch"
        return PIXEL, Guess("unit", _PIXELS, why, choices, sure=False)
    longest = _longest(lines, roles)
    name = _by_size(longest, lines.metric)
    sizes = ", ".join(f"{longest * UNITS[each] / 10:.0f} cm in {each}" for each in _likely(lines.metric))
    return UNITS[name], Guess(
        "unit", name, f"{lines.unit_why}; its largest piece would be {sizes}", choices, sure=False
    )


def _name(unit: float) -> str:
    near = (name for name, each in {**UNITS, _PIXELS: PIXEL}.items() if abs(unit / each - 1) < 1e-4)
    return next(near, f"{unit:g} mm")


def _longest(lines: LinesRead, roles: dict[str, Role]) -> float:
    """Longest side of the largest piece, in the drawing's own unit."""
    points = np.concatenate([stroke.preview for stroke in lines.strokes])
    whole = float(np.ptp(points, axis=0).max())
    found = find_outlines(lines.strokes, roles, reach=max(2e-5 * whole, 1e-12))
    sides = [float(np.ptp(piece.outer.line.preview, axis=0).max()) for piece in found.pieces]
    return max(sides, default=whole)


def _likely(metric: bool | None) -> tuple[str, ...]:
    """The units that pieces are drawn in, the likeliest first."""
    return ("inches", "millimetres") if metric is False else ("millimetres", "centimetres", "inches", "metres")


def _by_size(longest: float, metric: bool | None) -> str:
    """The first likely unit in which the largest piece has a usual size, else the one that comes nearest."""
    low, high = _USUAL

    def off(name: str) -> float:
        size = max(longest * UNITS[name], 1e-9)
        return max(math.log(low / size), math.log(size / high), 0.0)

    return min(_likely(metric), key=off)


def refuse_unusable_size(lines: LinesRead) -> None:
    """Refuse a drawing, in mm, that no garment can be as large or as small as.

    Raises:
        InputError: if it is one.
    """
    points = np.concatenate([stroke.preview for stroke in lines.strokes])
    size = float(np.ptp(points, axis=0).max())
    if size > 2 * TOLERANCES.extent:
        raise InputError(
            f"the drawing would be {size / 1000:.0f} m across, more than {2 * TOLERANCES.extent / 1000:g} m: check its "
            "unit, or take away what lies far from the pieces"
        )
    if size < 100 * REACH:
        raise InputError(f"the drawing would be {size:.2g} mm across, too small for a garment: check its unit")
