"""What a maker chooses about a skirt."""

from dataclasses import dataclass
from typing import Final, Literal, get_args

from panelwright.body.worded_length import given_words, range_words
from panelwright.errors import InputError
from panelwright.quotation import quoted

CircleShare = Literal["full", "three-quarter", "half", "quarter"]
CentreFrontEdge = Literal["fold", "seam"]

SHARES: Final[dict[CircleShare, float]] = {"full": 1.0, "three-quarter": 0.75, "half": 0.5, "quarter": 0.25}
SKIRT_LENGTHS: Final = (200.0, 1300.0)
SKIRT_PANELS: Final = (1, 8)
CLOTH_WIDTHS: Final = (500.0, 4000.0)
GORES: Final = (4, 6, 8, 10, 12)
FLARES: Final = (0.0, 300.0)


@dataclass(frozen=True)
class SkirtOptions:
    """Everything about a skirt that is not the wearer. Ease at waist and hip stands with that of the block.

    Attributes:
        length: from the waist to the hem, along the centre front, mm.
        circle: how much of a circle a circle skirt is, laid flat.
        panels: of a circle skirt, pieces a half; None: as few as the cloth's width can take.
        cloth_width: usable width of the cloth that these pieces shall fit on, mm.
        gores: of a gored skirt, all round.
        flare: of a gored skirt, by which each gore's hem is wider on each side than straight down from the hip, mm.
        centre_front: on the `fold`, or a `seam`.

    Raises:
        InputError: if one of them cannot be.
    """

    length: float = 600.0
    circle: CircleShare = "half"
    panels: int | None = None
    cloth_width: float = 1400.0
    gores: int = 6
    flare: float = 50.0
    centre_front: CentreFrontEdge = "fold"

    def __post_init__(self) -> None:
        _between("the length of the skirt", self.length, SKIRT_LENGTHS, "length")
        _between("the width of its cloth", self.cloth_width, CLOTH_WIDTHS, "cloth_width")
        _between("the flare of a gore", self.flare, FLARES, "flare")
        if self.circle not in SHARES:
            raise InputError(f"a skirt cannot be a {quoted(self.circle)} circle; choose {', '.join(SHARES)}", "circle")
        least, most = SKIRT_PANELS
        if self.panels is not None and not least <= self.panels <= most:
            raise InputError(f"half a skirt has {self.panels} panels; choose {least} to {most}", "panels")
        if self.gores not in GORES:
            known = ", ".join(str(gores) for gores in GORES)
            raise InputError(f"a skirt has {self.gores} gores; choose one of {known}", "gores")
        if self.centre_front not in get_args(CentreFrontEdge):
            raise InputError(f"the centre front is {quoted(self.centre_front)}; choose fold or seam", "centre_front")


def _between(what: str, given: float, limits: tuple[float, float], where: str) -> None:
    if not limits[0] <= given <= limits[1]:
        raise InputError(f"{what} is {given_words(given)}; give between {range_words(*limits, 'and')}", where)
