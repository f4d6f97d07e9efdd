"""What a torso is made from: the heights and girths of a wearer at the levels of a block."""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from panelwright.body.measurements import Measurements
from panelwright.body.term import TermId
from panelwright.errors import BlockError

BELOW_UNDERARM = 0.05  # of the back length, about 20 mm: how far the upper bust level lies below the underarm
LEAST_BETWEEN = 12.0  # mm: levels nearer than this cannot be told apart on a block
GIRTHS: Final[Mapping[str, TermId]] = {
    "upper-bust": "upper_bust_girth",
    "bust": "bust_girth",
    "underbust": "underbust_girth",
    "waist": "waist_girth",
    "top-hip": "top_hip_girth",
    "hip": "hip_girth",
}


@dataclass(frozen=True, repr=False)
class TorsoShape:
    """Heights and girths, mm; heights are above the waist.

    Attributes:
        heights: level -> height; the seven levels of a block.
        girths: level -> tape girth at upper-bust, bust, underbust, waist, top-hip and hip.
        bust_point_span: distance between the bust points.
        back_length: back neck point to waist.

    Raises:
        BlockError: if two neighbouring levels are less than 12 mm apart or out of order.
    """

    heights: Mapping[str, float]
    girths: Mapping[str, float]
    bust_point_span: float
    back_length: float

    def __post_init__(self) -> None:
        for (upper, high), (lower, low) in pairwise(self.heights.items()):
            if high - low < LEAST_BETWEEN:
                raise BlockError(
                    f"the {upper} level lies {(high - low) / 10:.1f} cm above the {lower} level; a block needs "
                    f"{LEAST_BETWEEN / 10:g} cm or more between them: measure their heights again"
                )

    @classmethod
    def of(cls, wearer: Measurements) -> "TorsoShape":
        """The shape of a measured wearer."""
        bust = wearer["bust_height"]
        top_hip = wearer["waist_to_top_hip"]
        heights = {
            "upper-bust": wearer["underarm_to_waist"] - BELOW_UNDERARM * wearer["back_neck_to_waist"],
            "bust": bust,
            "underbust": bust - wearer["bust_point_to_underbust"],
            "waist": 0.0,
            "lower-waist": -top_hip / 2,
            "top-hip": -top_hip,
            "hip": -wearer["waist_to_hip"],
        }
        girths = {level: wearer[term] for level, term in GIRTHS.items()}
        return cls(heights, girths, wearer["bust_point_span"], wearer["back_neck_to_waist"])
