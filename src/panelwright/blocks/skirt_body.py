"""What a skirt asks of its wearer: girths with their ease, and how far down they lie."""

from dataclasses import dataclass
from typing import Final, Self

from panelwright.blocks.options import BlockOptions
from panelwright.body.measurements import Measurements
from panelwright.body.term import TermId
from panelwright.body.worded_length import length_words
from panelwright.errors import BlockError
from panelwright.pattern.level import HIP, TOP_HIP, WAIST

USED: Final[tuple[TermId, ...]] = ("waist_girth", "top_hip_girth", "hip_girth", "waist_to_top_hip", "waist_to_hip")
BELOW_HIP = 50.0  # mm of a gored or straight skirt below the hip, at least


@dataclass(frozen=True, repr=False)
class SkirtBody:
    """Girths and depths, mm.

    Attributes:
        waist, top_hip, hip: whole girths with the ease that was chosen.
        depths: level -> how far below the waist it lies on the body.
        bare: level -> the body's own girth.
    """

    waist: float
    top_hip: float
    hip: float
    depths: dict[str, float]
    bare: dict[str, float]

    @classmethod
    def of(cls, wearer: Measurements, options: BlockOptions) -> Self:
        """The wearer with the options' ease."""
        return cls(
            waist=wearer["waist_girth"] + (options.ease.at(WAIST) or 0.0),
            top_hip=wearer["top_hip_girth"] + (options.ease.at(TOP_HIP) or 0.0),
            hip=wearer["hip_girth"] + (options.ease.at(HIP) or 0.0),
            depths={WAIST: 0.0, TOP_HIP: wearer["waist_to_top_hip"], HIP: wearer["waist_to_hip"]},
            bare={WAIST: wearer["waist_girth"], TOP_HIP: wearer["top_hip_girth"], HIP: wearer["hip_girth"]},
        )

    def refuse_short(self, length: float, garment: str) -> None:
        """Refuse a skirt that ends above the hip or just below it.

        Raises:
            BlockError: in one sentence.
        """
        least = self.depths[HIP] + BELOW_HIP
        if length < least:
            raise BlockError(
                f"{garment} of {length_words(length)} ends less than {length_words(BELOW_HIP)} below the hip, which "
                f"lies {length_words(self.depths[HIP])} below the waist; make it {length_words(least)} long or more, "
                "or choose a circle skirt"
            )
