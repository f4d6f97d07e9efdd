"""A pen, and the pens of a pattern: each kind of line has its own, told apart without any colour."""

from dataclasses import dataclass
from typing import Final

from panelwright.errors import GeometryError


@dataclass(frozen=True)
class Pen:
    """How a line is drawn on paper. Weights are of the paper: they stay the same at every drawing scale.

    Attributes:
        width: mm.
        dash: lengths drawn and left out in turn, mm; () is an unbroken line.
        shade: 0 is black, 1 is the paper.
    """

    width: float
    dash: tuple[float, ...] = ()
    shade: float = 0.0

    def __post_init__(self) -> None:
        if not self.width > 0 or not 0.0 <= self.shade <= 1.0 or any(length < 0 for length in self.dash):
            raise GeometryError("a pen has a width above 0, a shade from 0 to 1 and no dash below 0")


CUT: Final = Pen(0.55)
STITCH: Final = Pen(0.25)
FOLD: Final = Pen(0.4, (5.0, 1.4, 0.8, 1.4))
LEVEL: Final = Pen(0.16, (1.8, 1.2), 0.2)
GUIDE: Final = Pen(0.16, (0.8, 1.2), 0.35)
INSIDE_STITCH: Final = Pen(0.3, (3.2, 1.0))
GRAIN: Final = Pen(0.3)
NOTCH: Final = Pen(0.45)
SYMBOL: Final = Pen(0.25)
OLD: Final = Pen(0.22, (0.25, 0.95), 0.5)
RULE: Final = Pen(0.25)
HAIRLINE: Final = Pen(0.12, (), 0.35)
