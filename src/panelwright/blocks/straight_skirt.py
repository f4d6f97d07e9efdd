"""A straight skirt: upright below the hip, shaped above it by the side seam and by darts.

How the difference between hip and waist is shared is common practice, and so marked below: there are many ways.
"""

from dataclasses import dataclass, replace
from math import cos, pi
from typing import Final

import numpy as np
from scipy.optimize import brentq

from panelwright.blocks.darted_waist import DartedWaist, DartPlace, darted_waist
from panelwright.blocks.options import BlockOptions
from panelwright.blocks.skirt_body import SkirtBody
from panelwright.blocks.skirt_panel import SkirtDart, SkirtPanel
from panelwright.body.worded_length import length_words
from panelwright.errors import BlockError
from panelwright.geometry.arc import arc_from
from panelwright.geometry.curve import Curve
from panelwright.geometry.placement import Placement
from panelwright.pattern.level import HIP, TOP_HIP, WAIST

# Common practice, from memory: of the quarter's difference the side seam takes two fifths, at most 4 cm; of the rest
# the back takes 2 cm more than the front; a dart is up to 3 cm wide, then there are two.
SIDE_SHARE: Final = 0.4
MOST_AT_SIDE: Final = 40.0
BACK_MORE: Final = 20.0
WIDEST_ALONE: Final = 30.0
NARROWEST: Final = 12.0  # mm; less is taken at the side
WIDEST: Final = 50.0
# Common practice, from memory: shares of the depth of the hip. The dart nearer the side is a little shorter.
FRONT_LENGTHS: Final = (0.45, 0.42)
BACK_LENGTHS: Final = (0.66, 0.6)
# Common practice, from memory: by which the waist lies lower at the centre than at the side, in front and behind, mm.
DROPS: Final = (8.0, 15.0)
ROUNDS: Final = 40
MIRROR: Final = Placement(mirrored=True)


@dataclass(frozen=True)
class Shaping:
    """What a quarter takes in between hip and waist, mm: at the side seam, and in darts in front and behind."""

    side: float
    front: float
    back: float

    @classmethod
    def of(cls, difference: float) -> "Shaping":
        """By common practice, from a quarter of the difference between hip and waist."""
        side = min(SIDE_SHARE * difference, MOST_AT_SIDE)
        rest = difference - side
        more = min(BACK_MORE / 2, rest / 2)
        if rest - more < NARROWEST:  # the back alone
            more = rest if 2 * rest >= NARROWEST else 0.0
        if rest + more < NARROWEST:
            return cls(difference, 0.0, 0.0)
        return cls(side, rest - more, rest + more)


def straight_panels(body: SkirtBody, options: BlockOptions) -> tuple[SkirtPanel, ...]:
    """Front and back of the right half.

    Raises:
        BlockError: if the skirt ends at the hip, or the difference is more than darts can take.
    """
    length, depth = options.skirt.length, body.depths[HIP]
    body.refuse_short(length, "a straight skirt")
    quarter = body.hip / 4
    shaping = Shaping.of(quarter - body.waist / 4)
    if max(shaping.front, shaping.back) > 2 * WIDEST or abs(shaping.side) > 0.6 * depth:
        raise BlockError(
            f"a quarter of the hip is {length_words(quarter - body.waist / 4)} more than that of the waist, more than "
            "side seam and two darts can take; choose a gored skirt"
        )
    lean = _lean(_side(shaping, quarter, depth) / depth)
    side = arc_from((quarter, 0.0), pi / 2, lean, depth)
    halves = []
    for name, taken, lengths, drop in (
        ("front", shaping.front, FRONT_LENGTHS, DROPS[0]), ("back", shaping.back, BACK_LENGTHS, DROPS[1]),
    ):  # fmt: skip
        sewn = quarter - shaping.side - taken
        places = _places(taken, depth, lengths)
        waist = darted_waist(sewn, lean, places, float(side.end[0]), drop)
        halves.append(_Half(name, quarter, side, waist))
    hem = halves[0].centre - length
    return halves[0].panel(hem, body.depths), halves[1].panel(hem, body.depths)


def _side(shaping: Shaping, quarter: float, depth: float) -> float:
    """By which the side seam comes in, mm: a front without a dart bends, and is so much less wide than it is long."""
    taken = shaping.side
    if shaping.front < NARROWEST:
        for _ in range(ROUNDS):
            bent = darted_waist(quarter - shaping.side, _lean(taken / depth), (), 0.0, 0.0)
            taken = quarter - float(bent.end[0])
    return taken


def _lean(share: float) -> float:
    """Turning of an arc that starts upright and ends `share` of its length beside: (1 - cos a) / a = share."""
    if abs(share) < 1e-9:
        return 0.0
    return float(brentq(lambda a: (1 - cos(a)) / a - share, *sorted((np.sign(share) * 1e-12, np.sign(share) * 1.8))))


def _places(taken: float, depth: float, lengths: tuple[float, float]) -> tuple[DartPlace, ...]:
    if taken < NARROWEST:
        return ()
    if taken <= WIDEST_ALONE:
        return (DartPlace(0.48, lengths[0] * depth, 1.0),)
    return (DartPlace(0.36, lengths[0] * depth, 0.5), DartPlace(0.68, lengths[1] * depth, 0.5))


@dataclass(frozen=True)
class _Half:
    """Front or back, x from the centre towards the side, y up from the hip.

    Attributes:
        name: `front` or `back`.
        quarter: of the hip, mm.
        side: the side seam above the hip.
        waist: drawn from (0, 0).
    """

    name: str
    quarter: float
    side: Curve
    waist: DartedWaist

    @property
    def rise(self) -> float:
        """By which the drawn waist is to be moved up."""
        return float(self.side.end[1] - self.waist.end[1])

    @property
    def centre(self) -> float:
        """Of the waist at the centre, mm above the hip."""
        return self.rise

    def panel(self, hem: float, depths: dict[str, float]) -> SkirtPanel:
        """The panel down to `hem` mm above the hip (below 0)."""
        up = Placement(y=self.rise)
        parts = tuple(curve.placed(up) for curve in self.waist.parts)
        parts = (*parts[:-1], parts[-1].ending_at(end=self.side.end))
        legs = tuple((down.placed(up), back.placed(up)) for down, back in self.waist.darts)
        straight = Curve.straight((self.quarter, hem), (self.quarter, 0.0))
        drawn = SkirtPanel(
            "SKB",
            "Skirt back",
            front=straight.joined(self.side),
            back=Curve.straight((0.0, hem), (0.0, self.centre)),
            waist=tuple(curve.reversed() for curve in parts[::-1]),
            hem=Curve.straight((0.0, hem), (self.quarter, hem)),
            levels={
                WAIST: parts,
                TOP_HIP: self._across(legs, depths[HIP] - depths[TOP_HIP]),
                HIP: (Curve.straight((0.0, 0.0), (self.quarter, 0.0)),),
            },
            darts=tuple(
                SkirtDart(*self._named(len(legs) - k), back.reversed(), down.reversed())
                for k, (down, back) in enumerate(legs[::-1])
            ),
            along_back=True,
        )
        return drawn if self.name == "back" else _turned(drawn)

    def _named(self, number: int) -> tuple[str, str]:
        outer = number > 1
        return (
            f"{self.name}-waist-{'outer-' if outer else ''}dart",
            f"{self.name.capitalize()} waist dart{', outer' if outer else ''}",
        )

    def _across(self, legs: tuple[tuple[Curve, Curve], ...], arc: float) -> tuple[Curve, ...]:
        """A level line across it at a place of the side seam, left out where a dart is open."""
        end = self.side.point(arc)
        height = float(end[1])
        places = [np.array([0.0, height])]
        for pair in legs:
            for leg in pair:
                low, high = sorted((leg.start, leg.end), key=lambda point: float(point[1]))
                if low[1] < height < high[1]:
                    places.append(low + (height - low[1]) / (high[1] - low[1]) * (high - low))
        places.append(end)
        return tuple(Curve.straight(a, b) for a, b in zip(places[::2], places[1::2], strict=True))


def _turned(panel: SkirtPanel) -> SkirtPanel:
    """A back turned over into a front: its centre is on the right."""

    def over(curve: Curve) -> Curve:
        return curve.placed(MIRROR)

    return replace(
        panel,
        id="SKF",
        label="Skirt front",
        front=over(panel.back),
        back=over(panel.front),
        waist=tuple(over(curve).reversed() for curve in panel.waist[::-1]),
        hem=over(panel.hem).reversed(),
        levels={id: tuple(over(curve).reversed() for curve in parts[::-1]) for id, parts in panel.levels.items()},
        darts=tuple(
            replace(dart, down=over(dart.up).reversed(), up=over(dart.down).reversed()) for dart in panel.darts[::-1]
        ),
        along_back=False,
    )
