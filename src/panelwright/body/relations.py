"""How two measurements of one body bind each other.

A limit is `share` × the other measurement + `plus` mm. The possible limits are geometry, or so wide that
no adult is turned away; the likely ones are what the block was tried on, or from memory, and only question.
"""

from dataclasses import dataclass
from typing import NamedTuple

from panelwright.body.term import Bounds, TermId

# What a block needs between two of its levels, mm.
UNDERBUST_ABOVE_WAIST = 20.0
BUST_ABOVE_UNDERBUST = 20.0
BUST_BELOW_UNDERARM = 35.0  # the upper bust level runs 20 below the underarm and 15 above the bust
HIP_BELOW_TOP_HIP = 20.0
HIGHEST_BUST = 0.62  # of the back length
HIGHEST_UNDERARM = 0.85  # of the back length


class Limit(NamedTuple):
    """`share` × the other measurement + `plus` mm."""

    share: float
    plus: float = 0.0

    def of(self, other: float) -> float:
        """The limit for this size of the other measurement, mm."""
        return self.share * other + self.plus


@dataclass(frozen=True)
class Relation:
    """Limits for `subject` set by `other`; None where there is none on that side."""

    subject: TermId
    other: TermId
    least: Limit | None = None
    most: Limit | None = None
    likely_least: Limit | None = None
    likely_most: Limit | None = None

    def possible(self, other: float) -> Bounds:
        """Bounds of the subject, mm; infinite where there is no limit."""
        return _bounds(self.least, self.most, other)

    def likely(self, other: float) -> Bounds:
        """Bounds of the subject outside which it is questioned, mm; infinite where there is no limit."""
        return _bounds(self.likely_least, self.likely_most, other)


def _bounds(least: Limit | None, most: Limit | None, other: float) -> Bounds:
    return Bounds(least.of(other) if least else -float("inf"), most.of(other) if most else float("inf"))


_GIRTHS = (
    Relation("bust_girth", "underbust_girth", Limit(1), Limit(1, 450), Limit(1, 60), Limit(1, 240)),
    Relation("waist_girth", "underbust_girth", Limit(0.5), Limit(1, 400), Limit(1, -120), Limit(1, 60)),
    Relation("waist_girth", "bust_girth", most=Limit(1, 250)),
    Relation("hip_girth", "waist_girth", Limit(0.7), Limit(2.5), Limit(1, -50), Limit(1, 400)),
    Relation("upper_bust_girth", "underbust_girth", Limit(0.85), likely_least=Limit(1)),
    # How much more than the bust is likely hangs on the underbust too: `body.plausibility`.
    Relation("upper_bust_girth", "bust_girth", None, Limit(1, 150), Limit(1, -160)),
    Relation("top_hip_girth", "waist_girth", Limit(0.7), likely_least=Limit(1, -20)),
    Relation("top_hip_girth", "hip_girth", most=Limit(1.3), likely_most=Limit(1, 30)),
    Relation("neck_base_girth", "bust_girth", Limit(0.2), Limit(0.65), Limit(0.3), Limit(0.5)),
)
_WIDTHS = (
    Relation("bust_point_span", "bust_girth", Limit(0.08), Limit(0.33), Limit(0.15), Limit(0.27)),
    Relation("across_front", "upper_bust_girth", Limit(0.15), Limit(0.55), Limit(0.28), Limit(0.43)),
    Relation("across_back", "upper_bust_girth", Limit(0.15), Limit(0.6), Limit(0.3), Limit(0.47)),
)
_ARMS = (
    Relation("upper_arm_girth", "bust_girth", Limit(0.12), Limit(0.75), Limit(0.24), Limit(0.42)),
    Relation("wrist_girth", "upper_arm_girth", None, Limit(1), Limit(0.38), Limit(0.8)),
    Relation("arm_length", "stature", Limit(0.2), Limit(0.55), Limit(0.31), Limit(0.41)),
)
_HEIGHTS = (
    # The seat lies .345 of the stature below the nape (US Army survey of 2012): no waist is lower.
    Relation("back_neck_to_waist", "stature", Limit(0.15), Limit(0.345), Limit(0.2), Limit(0.29)),
    Relation("underarm_to_waist", "back_neck_to_waist", None, Limit(HIGHEST_UNDERARM), Limit(0.4), Limit(0.68)),
    Relation("bust_height", "back_neck_to_waist", None, Limit(HIGHEST_BUST), Limit(0.27), Limit(0.48)),
    Relation("bust_height", "underarm_to_waist", most=Limit(1, -BUST_BELOW_UNDERARM)),
    Relation("bust_point_to_underbust", "back_neck_to_waist", most=Limit(HIGHEST_BUST, -UNDERBUST_ABOVE_WAIST)),
    Relation(
        "bust_point_to_underbust",
        "underarm_to_waist",
        most=Limit(1, -BUST_BELOW_UNDERARM - UNDERBUST_ABOVE_WAIST),
    ),
    Relation("bust_point_to_underbust", "bust_height", most=Limit(1, -UNDERBUST_ABOVE_WAIST)),
    Relation("side_neck_to_bust_point", "back_neck_to_waist", Limit(0.3), Limit(1), Limit(0.5), Limit(0.85)),
    Relation("waist_to_top_hip", "waist_to_hip", most=Limit(1, -HIP_BELOW_TOP_HIP)),
)
RELATIONS = _GIRTHS + _WIDTHS + _ARMS + _HEIGHTS
