"""Sway back: a wedge taken out at the centre back just above the waist, running to nothing at the side."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from panelwright.blocks.fit_panels import PanelFitter
from panelwright.body.worded_length import given_words
from panelwright.fitting.note import checked, level_height
from panelwright.fitting.reshape import Reshape
from panelwright.fitting.tapered import raised, tapering
from panelwright.fitting.worked_panel import WorkedPanel
from panelwright.geometry.arrays import Array
from panelwright.pattern import level as levels

MOST: Final = 30.0  # mm


@dataclass(frozen=True)
class SwayBack:
    """Shortens the back above the waist: by the whole amount at centre back, by nothing at the side; girths stay.

    Attributes:
        uid: permanent name.
        amount: at the centre back, mm.

    Raises:
        InputError: if it cannot be; one sentence.
    """

    uid: str
    amount: float

    def __post_init__(self) -> None:
        checked(self.uid, "sway back", amount=(self.amount, MOST))

    @property
    def kind(self) -> str:
        """What a fitting file calls it."""
        return "sway-back"

    @property
    def label(self) -> str:
        """`Sway back: a wedge of 1 cm out at the centre back waist`."""
        return f"Sway back: a wedge of {given_words(self.amount)} out at the centre back waist, to nothing at the side"

    def reshape(self, panels: Sequence[WorkedPanel], fitter: PanelFitter) -> Reshape:
        """Between waist and underbust every line of the back is shorter by its share."""
        low, high = level_height(fitter, levels.WAIST), level_height(fitter, levels.UNDERBUST)
        shares = tapering(panels, fitter, low, len(panels))
        span = fitter.levels.index(levels.WAIST)

        def wanted(k: int, panel: WorkedPanel) -> Array:
            return raised(panel, -self.amount, low, high, (shares[k], shares[k + 1]))

        lengths = {(line, span): -self.amount * share for line, share in enumerate(shares)}
        return Reshape(lambda at: at, wanted, lengths=lengths)
