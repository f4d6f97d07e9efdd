"""A gored skirt: equal gores, each a sector of a cone below the hip, shaped from hip to waist.

A line round a gore leaves both its seams at a right angle, so that it runs on over every seam. It is an arc of a
circle: with half-angle φ and half-chord x its half-length is φ·x / sin φ (closed form).
"""

from dataclasses import dataclass
from functools import cached_property
from math import cos, degrees, sin, tan

import numpy as np

from panelwright.blocks.options import BlockOptions
from panelwright.blocks.skirt_body import SkirtBody
from panelwright.blocks.skirt_panel import SkirtPanel
from panelwright.blocks.skirt_plan import panel_names, seam_names
from panelwright.errors import BlockError
from panelwright.geometry.arc import arc_from
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.geometry.placement import Placement
from panelwright.pattern.level import HIP, TOP_HIP, WAIST

MOST_LEAN = 0.6  # radians of a seam at the waist, off the upright
MIRROR = Placement(mirrored=True)


@dataclass(frozen=True)
class Gore:
    """One gore, drawn about its middle at x = 0 with the middle of its waist at y = 0.

    Attributes:
        girths: whole lengths round it at waist, top hip, hip and hem, mm.
        depths: of those below the waist, along the middle, mm; the first is 0.
    """

    girths: tuple[float, float, float, float]
    depths: tuple[float, float, float, float]

    @cached_property
    def leans(self) -> tuple[float, float, float, float]:
        """Of the seam off the upright at each of them, radians.

        Below the hip (hem - hip) / twice the length between them, a cone; at the top hip between the means above and
        below it, at the waist as far beyond the mean as the top hip falls short of it.
        """
        above, below, cone = (
            (self.girths[k + 1] - self.girths[k]) / (2 * (self.depths[k + 1] - self.depths[k])) for k in range(3)
        )
        share = self.depths[1] / self.depths[2]
        middle = (1 - share) * above + share * below
        return float(np.clip(2 * above - middle, -MOST_LEAN, MOST_LEAN)), middle, cone, cone

    @cached_property
    def seam(self) -> Curve:
        """The right seam upwards: straight to the hip, then fair curves to top hip and waist."""
        corners = [_corner(*each) for each in zip(self.girths, self.leans, self.depths, strict=True)]
        parts = [Curve.straight(corners[3], corners[2]).cubics[0]]
        for low, high in ((2, 1), (1, 0)):
            start, end = corners[low], corners[high]
            reach = float(np.linalg.norm(end - start)) / 3
            parts.append(
                np.array([start, start + reach * _up(self.leans[low]), end - reach * _up(self.leans[high]), end])
            )
        return Curve(np.array(parts))

    def round(self, number: int) -> Curve:
        """The right half of the line round the gore at one of its girths, from the middle outwards."""
        lean = self.leans[number]
        return arc_from((0.0, -self.depths[number]), 0.0, lean, self.girths[number] / 2)


def _corner(girth: float, lean: float, depth: float) -> Array:
    """Where a line round the gore meets the right seam."""
    x = girth / 2 * (sin(lean) / lean if abs(lean) > 1e-9 else 1.0)
    return np.array([x, x * tan(lean / 2) - depth])


def _up(lean: float) -> Array:
    return np.array([-sin(lean), cos(lean)])


def gored_panels(body: SkirtBody, options: BlockOptions) -> tuple[tuple[SkirtPanel, ...], tuple[tuple[str, str], ...]]:
    """(the panels of the right half from centre front to centre back, (line, label) of the seams between them).

    The centres lie in the middle of gores, so that with 6 or 10 of them there is a side seam, with 4, 8 or 12 none.

    Raises:
        BlockError: if the skirt ends at the hip, or the hip is so much wider than the waist that gores cannot take it.
    """
    count, skirt = options.skirt.gores, options.skirt
    body.refuse_short(skirt.length, "a gored skirt")
    waist, top_hip, hip = body.waist / count, body.top_hip / count, body.hip / count
    gore = Gore(
        (waist, top_hip, hip, hip + 2 * skirt.flare), (0.0, body.depths[TOP_HIP], body.depths[HIP], skirt.length)
    )
    if max(abs(lean) for lean in gore.leans) >= MOST_LEAN:
        raise BlockError(
            f"the seams of {count} gores would lean more than {degrees(MOST_LEAN):.0f}° to take in waist or hem; "
            "choose more gores or less flare"
        )
    places = tuple((2 * k + 1) / count for k in range(count // 2))
    names = panel_names(len(places) + 1)
    sides = ("left", *["both"] * (len(names) - 2), "right")
    return tuple(_panel(name, gore, side) for name, side in zip(names, sides, strict=True)), seam_names(places)


def _panel(name: tuple[str, str], gore: Gore, side: str) -> SkirtPanel:
    """A whole gore, or its left half at a centre front, or its right half at a centre back."""
    middle = Curve.straight((0.0, -gore.depths[-1]), (0.0, 0.0))
    left = gore.seam.placed(MIRROR)

    def across(number: int) -> Curve:
        right = gore.round(number)
        parts = [right.placed(MIRROR).reversed()] * (side != "right") + [right] * (side != "left")
        return parts[0] if len(parts) == 1 else parts[0].joined(parts[1])

    return SkirtPanel(
        *name,
        front=middle if side == "left" else gore.seam,
        back=middle if side == "right" else left,
        waist=(across(0).reversed(),),
        hem=across(3),
        levels={level: (across(k),) for k, level in enumerate((WAIST, TOP_HIP, HIP))},
        along_back=side == "right",
    )
