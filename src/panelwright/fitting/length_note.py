"""Lengthen or shorten the body of the block between two levels, across all panels."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal, get_args

import numpy as np

from panelwright.blocks.fit_panels import PanelFitter
from panelwright.body.worded_length import given_words, length_words
from panelwright.errors import InputError
from panelwright.fitting.note import checked, level_height
from panelwright.fitting.reshape import Reshape
from panelwright.fitting.worked_panel import WorkedPanel
from panelwright.geometry.arrays import Array
from panelwright.pattern import level as levels

Way = Literal["lengthen", "shorten"]
Place = Literal["above-waist", "below-waist", "above-bust", "below-bust"]
WAYS: Final[tuple[str, ...]] = get_args(Way)
PLACES: Final[dict[Place, tuple[str, str]]] = {
    "above-waist": (levels.WAIST, levels.UNDERBUST),
    "below-waist": (levels.TOP_HIP, levels.WAIST),
    "above-bust": (levels.BUST, levels.UPPER_BUST),
    "below-bust": (levels.UNDERBUST, levels.BUST),
}
MOST: Final = 60.0  # mm
MOST_SHORTER: Final = 0.4  # of the length that is there


@dataclass(frozen=True)
class LengthNote:
    """Lengthens (or shortens) every line up the body by one amount between two levels; girths stay.

    Attributes:
        uid: permanent name.
        way: `lengthen` or `shorten`.
        place: `above-waist` (waist to underbust), `below-waist` (waist to top hip), `above-bust` (bust to upper bust)
            or `below-bust` (bust to underbust).
        amount: mm, above 0.

    Raises:
        InputError: if it cannot be; one sentence.
    """

    uid: str
    way: Way
    place: Place
    amount: float

    def __post_init__(self) -> None:
        if self.way not in WAYS or self.place not in PLACES:
            raise InputError(f"a block is lengthened or shortened {', '.join(PLACES)}, not {self.place!r}", "place")
        checked(self.uid, self.way, amount=(self.amount, MOST))

    @property
    def kind(self) -> str:
        """What a fitting file calls it."""
        return self.way

    @property
    def label(self) -> str:
        """`Lengthen above the waist by 1 cm, all panels`."""
        return f"{self.way.capitalize()} {self.place.replace('-', ' the ')} by {given_words(self.amount)}, all panels"

    def reshape(self, panels: Sequence[WorkedPanel], fitter: PanelFitter) -> Reshape:
        """All that lies beyond moves up or down; lines between levels share the amount by their length."""
        low, high = (level_height(fitter, level) for level in PLACES[self.place])
        amount = self.amount if self.way == "lengthen" else -self.amount
        if -amount > MOST_SHORTER * (high - low):
            raise InputError(
                f"there are {length_words(high - low)} {self.place.replace('-', ' the ')} to shorten; take out at most "
                f"{length_words(MOST_SHORTER * (high - low))} there and the rest elsewhere",
                "amount",
            )
        rests = high if self.place == "below-waist" else low

        def wanted(_: int, panel: WorkedPanel) -> Array:
            movement = np.zeros_like(panel.flat.coefficients)
            movement[..., 1] = (amount * _ramp(panel.flat.heights.places, low, high, rests))[:, None]
            return movement

        lengths = {
            (line, span): amount * share
            for line in range(len(panels) + 1)
            for span, share in _shares(fitter, low, high).items()
        }
        return Reshape(lambda at: at, wanted, lengths=lengths)


def _ramp(z: Array, low: float, high: float, rests: float) -> Array:
    """Share of the amount by which heights move up; 0 at the height that rests."""
    share: Array = np.clip((z - low) / (high - low), 0.0, 1.0) - (rests - low) / (high - low)
    return share


def _shares(fitter: PanelFitter, low: float, high: float) -> dict[int, float]:
    """Span between two neighbouring levels -> its share of an amount between two levels."""
    return {
        span: float((fitter.z[span + 1] - fitter.z[span]) / (high - low))
        for span in range(len(fitter.z) - 1)
        if fitter.z[span] >= low - 1e-6 and fitter.z[span + 1] <= high + 1e-6
    }
