"""Stretches of a lay: a lay longer than a page goes on in another strip."""

from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np

from panelwright.drawing.lay_strip import cloth_length
from panelwright.lay.lay import Lay

# Where a lay goes on in another strip, this much of it is shown in both, mm of cloth.
OVERLAP: Final = 50.0
# A strip may end this share of its room early, where fewer pieces cross its end.
EARLY: Final = 0.35


@dataclass(frozen=True)
class Stretch:
    """A stretch of a lay, from `low` to `high` mm along the cloth."""

    low: float
    high: float

    @property
    def length(self) -> float:
        """How much cloth it shows, mm."""
        return self.high - self.low


def whole_lay(lay: Lay) -> Stretch:
    """All of it."""
    return Stretch(0.0, cloth_length(lay))


def stretches(lay: Lay, room: float) -> tuple[Stretch, ...]:
    """Stretches of at most `room` mm that show all of the cloth; each ends where few pieces cross its end."""
    whole = cloth_length(lay)
    ends = [0.0]
    while whole - ends[-1] > room - (OVERLAP if len(ends) > 1 else 0.0):
        most = ends[-1] + room - (OVERLAP if len(ends) > 1 else 0.0)
        ends.append(_break(lay, ends[-1] + (most - ends[-1]) * (1 - EARLY), most))
    ends.append(whole)
    return tuple(Stretch(max(0.0, low - OVERLAP), high) for low, high in pairwise(ends))


def _break(lay: Lay, low: float, high: float) -> float:
    """The place between two where the fewest pieces lie across the cloth, the farther along the better."""
    spans = np.array([(laid.outline[:, 0].min(), laid.outline[:, 0].max()) for laid in lay.laid]).reshape(-1, 2)
    places = np.arange(high, low, -5.0)
    crossing = ((spans[:, :1] < places) & (places < spans[:, 1:])).sum(axis=0)
    return float(places[int(crossing.argmin())])
