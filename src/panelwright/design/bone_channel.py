"""A bone's channel between two seams: where a maker wants it, and its beds on the pieces."""

from dataclasses import dataclass
from math import isfinite
from typing import Final

import numpy as np

from panelwright.body.worded_length import given_words, length_words
from panelwright.design.body_chart import BodyChart, half_chart
from panelwright.design.bone import SHORTEST, Bone, LaidBone, is_half
from panelwright.design.bone_bed import Bed, Stretch
from panelwright.design.position import Height, height_at, spoken
from panelwright.errors import DesignError
from panelwright.geometry.arrays import Array, unit
from panelwright.geometry.curve import Curve
from panelwright.pattern.level import WAIST
from panelwright.pattern.pattern import Pattern

BELOW: Final = 60.0  # mm by which the path runs on under the block, so that every hem cuts it


@dataclass(frozen=True)
class Channel:
    """A straight channel across one panel.

    Attributes:
        line, towards: the two neighbouring lines that it lies between.
        fraction: how far from `line` to `towards` it crosses the waist, 0 … 1.
        fraction_above: the same at the block's upper edge: the channel leans. None: it runs along the grain.
        over_bust_point: it may lie on the bust point.

    The fractions are kept to a millionth, so that what is saved and read again is the same.

    Raises:
        DesignError: if a fraction is not 0 … 1.
    """

    line: str
    towards: str
    fraction: float
    fraction_above: float | None = None
    over_bust_point: bool = False

    def __post_init__(self) -> None:
        for fraction in (self.fraction, self.fraction_above):
            if fraction is not None and not (isfinite(fraction) and 0.0 <= fraction <= 1.0):
                raise DesignError(
                    f"a channel lies 0 to 1 of the way from {spoken(self.line)} to {spoken(self.towards)}, not "
                    f"{fraction:g}",
                    self.line,
                )
        above = None if self.fraction_above is None else round(float(self.fraction_above), 6) + 0.0
        object.__setattr__(self, "fraction", round(float(self.fraction), 6) + 0.0)
        object.__setattr__(self, "fraction_above", above)

    @property
    def words(self) -> str:
        """`between front princess and side`."""
        return f"between {spoken(self.line)} and {spoken(self.towards)}"

    def path(self, block: Pattern, up_to: Height | None = None) -> tuple[str, Curve]:
        """(id of the block's panel, path on it from under the hem up to the block's upper edge, or to a height).

        Raises:
            DesignError: if the block lacks a line or level, the lines are not neighbours, or nothing is left below
                the height.
        """
        chart = half_chart(block)
        here, there = chart.index(self.line), chart.index(self.towards)
        if abs(here - there) != 1:
            raise DesignError(
                f"{spoken(self.line)} and {spoken(self.towards)} are not neighbours on this block; a channel lies "
                "between two lines with no other between them",
                self.line,
            )
        k = min(here, there)
        across = here + self.fraction * (there - here)
        waist = chart.rows[chart.row(WAIST)].height
        foot = _place(chart, k, across, waist)
        if self.fraction_above is None:
            way = unit(chart.panels[k].piece.grain.vector)
            way = way if way[1] > 0 else -way
        else:
            above = here + self.fraction_above * (there - here)
            way = unit(_place(chart, k, above, chart.rows[-1].height) - foot)
        highest = chart.rows[-1].height if up_to is None else height_at(chart, across, up_to)
        low, high = (float((_place(chart, k, across, z) - foot) @ way) for z in (chart.rows[0].height, highest))
        if high - low < BELOW:
            raise DesignError(
                f"the channel {self.words} would end at the block's hem; let bones reach higher", self.line
            )
        return chart.panels[k].piece.id, Curve.straight(foot + (low - BELOW) * way, foot + high * way)

    def bones(
        self, name: str, pattern: Pattern, block: Pattern, half_width: float, clearance: float, up_to: Height | None
    ) -> list[Bone]:
        """The bones of this channel, one for each piece that holds a part of its panel.

        Raises:
            DesignError: as `path`, or if the pieces have no room for it.
        """
        panel, path = self.path(block, up_to)
        beds = [
            Bed(piece, path.placed(region.placement), half_width, half_width)
            for piece in pattern.pieces
            if piece.layer == "outer"
            for region in piece.material
            if region.panel == panel
        ]
        stretches = [(bed, stretch) for bed in beds for stretch in bed.stretches(clearance)]
        longest = max((high - low for _, (low, high) in stretches), default=0.0)
        if longest < SHORTEST:
            raise DesignError(
                f"the channel {self.words} has room for {length_words(longest)}, {given_words(clearance)} away from "
                f"every stitched edge, and the shortest bone is {given_words(SHORTEST)}; move it nearer the middle "
                "of the panel",
                self.line,
            )
        place = f"in the {block.piece(panel).label.lower()}"
        fitting = [(bed, stretch) for bed, stretch in stretches if stretch[1] - stretch[0] >= SHORTEST]
        if len({id(bed) for bed, _ in fitting}) < len(fitting):
            raise DesignError(
                f"the channel {self.words} comes within {given_words(clearance)} of a seam half way and falls into "
                "two; move it nearer the middle of the panel",
                self.line,
            )
        return [
            self._bone(f"{name}-{k}" if k > 1 else name, place, bed, stretch)
            for k, (bed, stretch) in enumerate(fitting, 1)
        ]

    def _bone(self, name: str, place: str, bed: Bed, stretch: Stretch) -> Bone:
        low, high = bed.whole(sum(stretch) / 2)
        laid = LaidBone(bed, stretch, (-bed.left, bed.right))
        ends = stretch[0] - low, high - stretch[1]
        return Bone(name, place, 2 if is_half(bed.piece) else 1, high - low, *ends, (laid,), self.over_bust_point)


def _place(chart: BodyChart, panel: int, across: float, height: float) -> Array:
    found: Array = chart.surfaces[panel].points(np.array([across - panel]), np.array([height]))[0]
    return found
