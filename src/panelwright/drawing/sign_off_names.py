"""Room to initial: maker, fitter, wearer, each with a date."""

from typing import Final

from panelwright.drawing.drawing import Drawing, Lettering, Sign, Stroke
from panelwright.drawing.page_flow import Strip
from panelwright.drawing.paragraph import SMALL
from panelwright.drawing.path import Path
from panelwright.drawing.pen import RULE

ROLES: Final = ("Maker", "Fitter", "Wearer")
HEIGHT: Final = 17.0
GAP: Final = 4.0
DATE_SHARE: Final = 0.42


def names_strip(width: float) -> Strip:
    """A box for each role, its left part for initials and its right part for the date."""
    wide = (width - GAP * (len(ROLES) - 1)) / len(ROLES)
    signs: list[Sign] = []
    for k, role in enumerate(ROLES):
        left = k * (wide + GAP)
        middle = left + (1 - DATE_SHARE) * wide
        signs += [
            Stroke(Path.box(left, -HEIGHT, wide, HEIGHT - 1.0), RULE, "sheet"),
            Stroke(Path.polyline([(middle, -HEIGHT), (middle, -1.0)]), RULE, "sheet"),
            Lettering(f"{role}, initials", (left + 1.5, -1.8 - SMALL), SMALL, "sheet"),
            Lettering("date", (middle + 1.5, -1.8 - SMALL), SMALL, "sheet"),
        ]
    return Strip(Drawing(tuple(signs)), HEIGHT + 1.0)
