"""How a garment is worn: what a pattern does not say but the checks of the wearer's side need to know."""

from dataclasses import dataclass
from typing import Literal

from panelwright.body.units import Unit


@dataclass(frozen=True)
class Wearing:
    """The cloth, what holds the garment up, and the wording.

    Attributes:
        cloth: `woven` does not give; `knit` does, and then tightness and putting on are left to the fitting.
        boned: whether bones hold the bodice up.
        unit: what girths and lengths are worded in.
    """

    cloth: Literal["woven", "knit"] = "woven"
    boned: bool = False
    unit: Unit = Unit.CM
