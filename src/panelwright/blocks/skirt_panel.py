"""A panel of a skirt: its four sides and its level lines, as it is drawn."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Self

import numpy as np

from panelwright.geometry.curve import Curve
from panelwright.geometry.placement import Placement


@dataclass(frozen=True)
class SkirtDart:
    """A dart that opens into the waist: its two legs, down from the mouth to the point and up again."""

    line: str
    label: str
    down: Curve
    up: Curve


@dataclass(frozen=True)
class SkirtPanel:
    """One panel, drawn with its front line on the right.

    Attributes:
        id, label: of its piece.
        front, back: its upright sides, upwards.
        waist: from front to back, in parts where darts lie between them.
        hem: from back to front.
        levels: level id -> its line from back to front, in parts where a dart opens into it.
        darts: between the parts of the waist.
        along_back: whether its grain runs along its centre back, as it does along a fold, and not square to its waist.
    """

    id: str
    label: str
    front: Curve
    back: Curve
    waist: tuple[Curve, ...]
    hem: Curve
    levels: Mapping[str, tuple[Curve, ...]]
    darts: tuple[SkirtDart, ...] = ()
    along_back: bool = False

    @property
    def right(self) -> float:
        """x of its rightmost place, mm."""
        return float(max(curve.polyline()[:, 0].max() for curve in self._sides))

    @property
    def left(self) -> float:
        """x of its leftmost place, mm."""
        return float(min(curve.polyline()[:, 0].min() for curve in self._sides))

    @property
    def _sides(self) -> tuple[Curve, ...]:
        return self.front, self.back, self.hem, *self.waist

    def moved(self, x: float, y: float = 0.0) -> Self:
        """The panel elsewhere on the paper."""
        by = Placement(x=x, y=y)
        return replace(
            self,
            front=self.front.placed(by),
            back=self.back.placed(by),
            waist=tuple(curve.placed(by) for curve in self.waist),
            hem=self.hem.placed(by),
            levels={id: tuple(curve.placed(by) for curve in parts) for id, parts in self.levels.items()},
            darts=tuple(replace(dart, down=dart.down.placed(by), up=dart.up.placed(by)) for dart in self.darts),
        )

    def girth(self, level: str) -> float:
        """What the panel measures along a level, mm."""
        return float(np.sum([curve.length for curve in self.levels[level]]))
