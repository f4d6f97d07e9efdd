"""Measurements that were not taken, estimated from those that were.

Every estimate gives way to a tape. Sources: *model bodies* are the means of 24 adult bodies of one open
parametric body model; *survey* is the US Army survey of 2012, women; *from memory* is unverified.
Where a formula would put two levels closer than a block can have them, the estimate gives way: the bust
level moves between what the taken underarm and drop leave free, the underarm rises above the bust level,
the drop ends short of the waist; an upper arm keeps to shares of the bust, a wrist is no thicker than the arm.
Within the usual domain (bust 70 to 150 cm, back 33 to 48 cm) none does.
"""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from panelwright.body.relations import (
    BUST_ABOVE_UNDERBUST,
    BUST_BELOW_UNDERARM,
    HIGHEST_BUST,
    HIP_BELOW_TOP_HIP,
    UNDERBUST_ABOVE_WAIST,
)
from panelwright.body.term import TermId

Known = Mapping[TermId, float]

SIDE_NECK_ABOVE_NAPE = 10.0  # mm, from memory
ARM_OF_BUST = 0.2, 0.6  # the estimated upper arm is no less and no more of the bust girth (own choice)
BUST_BEFORE_SIDE_NECK = 0.1  # of the bust girth, forwards and outwards together, from memory


@dataclass(frozen=True)
class Estimate:
    """One formula.

    Attributes:
        term: what it estimates.
        formula: the working in words, to be shown to a maker.
        source: where it comes from.
        amount: the estimate, mm or radians, from what is known by then (taken, or estimated before it).
    """

    term: TermId
    formula: str
    source: str
    amount: Callable[[Known], float]


def usual_upper_bust(known: Known) -> float:
    """Upper bust girth from bust and underbust girth, mm; it may exceed a small bust."""
    return known["underbust_girth"] + 39 + 0.7 * cup(known)


def cup(known: Known) -> float:
    """Bust girth less underbust girth, mm."""
    return known["bust_girth"] - known["underbust_girth"]


def bust_height_from_side_neck(known: Known, side_neck_to_bust_point: float) -> float:
    """Height of the bust level above the waist that a tape from the side neck point implies, mm.

    The side neck point lies 10 mm above the back neck point, whose height is the back length; the bust point
    lies a tenth of the bust girth in front of it and to its side; the tape runs straight (from memory). A
    tape shorter than that tenth gives the height of the side neck point.
    """
    before = BUST_BEFORE_SIDE_NECK * known["bust_girth"]
    drop = math.sqrt(max(side_neck_to_bust_point**2 - before**2, 0.0))
    return known["back_neck_to_waist"] + SIDE_NECK_ABOVE_NAPE - drop


def _side_neck_to_bust_point(known: Known) -> float:
    drop = known["back_neck_to_waist"] + SIDE_NECK_ABOVE_NAPE - known["bust_height"]
    return min(math.hypot(drop, BUST_BEFORE_SIDE_NECK * known["bust_girth"]), known["back_neck_to_waist"])


def _bust_height(known: Known) -> float:
    back = known["back_neck_to_waist"]
    wanted = 0.375 * back
    if "side_neck_to_bust_point" in known:
        wanted = bust_height_from_side_neck(known, known["side_neck_to_bust_point"])
    least = known.get("bust_point_to_underbust", BUST_ABOVE_UNDERBUST) + UNDERBUST_ABOVE_WAIST
    most = HIGHEST_BUST * back
    if "underarm_to_waist" in known:
        most = min(most, known["underarm_to_waist"] - BUST_BELOW_UNDERARM)
    return min(max(wanted, least), most)


def _underarm_to_waist(known: Known) -> float:
    return max(0.552 * known["back_neck_to_waist"], known["bust_height"] + BUST_BELOW_UNDERARM)


def _bust_point_to_underbust(known: Known) -> float:
    return min(36 + 0.2 * cup(known), known["bust_height"] - UNDERBUST_ABOVE_WAIST)


def _waist_to_hip(known: Known) -> float:
    return max(0.5 * known["back_neck_to_waist"], known.get("waist_to_top_hip", 0.0) + HIP_BELOW_TOP_HIP)


def _upper_arm_girth(known: Known) -> float:
    least, most = (share * known["bust_girth"] for share in ARM_OF_BUST)
    return min(max(0.358 * known["upper_bust_girth"] - 27, least), most)


def _wrist_girth(known: Known) -> float:
    return min(75 + 0.088 * known["upper_bust_girth"], known["upper_arm_girth"])


# In the order of reckoning: a later one may use an earlier one.
ESTIMATES: tuple[Estimate, ...] = (
    Estimate(
        "stature",
        "163 cm + 1.23 × (back neck point to waist − 40 cm)",
        "slope from the survey's spreads and regressions; 40 cm of back to 163 cm of stature from memory",
        lambda known: 1630 + 1.23 * (known["back_neck_to_waist"] - 400),
    ),
    Estimate(
        "upper_bust_girth",
        "underbust + 3.9 cm + 0.7 × (bust − underbust)",
        "model bodies; may exceed a small bust",
        usual_upper_bust,
    ),
    Estimate("bust_point_span", "0.207 × bust", "model bodies", lambda known: 0.207 * known["bust_girth"]),
    Estimate(
        "bust_height",
        "0.375 × back neck point to waist; from side neck point to bust point where that was taken",
        "model bodies; the way from the side neck point from memory",
        _bust_height,
    ),
    Estimate("underarm_to_waist", "0.552 × back neck point to waist", "model bodies", _underarm_to_waist),
    Estimate(
        "bust_point_to_underbust",
        "3.6 cm + 0.2 × (bust − underbust)",
        "model bodies",
        _bust_point_to_underbust,
    ),
    Estimate(
        "side_neck_to_bust_point",
        "straight from 1 cm above the back neck point to the bust level, a tenth of the bust further forward",
        "from memory",
        _side_neck_to_bust_point,
    ),
    Estimate(
        "top_hip_girth",
        "waist + 0.65 × (hip − waist)",
        "from memory; the navel girths of 260 women (Heinz et al. 2003) lie at 0.54",
        lambda known: known["waist_girth"] + 0.65 * (known["hip_girth"] - known["waist_girth"]),
    ),
    Estimate(
        "waist_to_hip",
        "half of back neck point to waist",
        "common practice, from memory",
        _waist_to_hip,
    ),
    Estimate(
        "waist_to_top_hip",
        "half of waist to hip",
        "common practice, from memory",
        lambda known: 0.5 * known["waist_to_hip"],
    ),
    Estimate(
        "neck_base_girth",
        "18.5 cm + 0.2 × bust",
        "a straight line through sizes 0 to 20 of ASTM D5585-11e1, within 3.5 mm of each",
        lambda known: 185 + 0.2 * known["bust_girth"],
    ),
    Estimate(
        "shoulder_length",
        "3.1 cm + 0.0032 × bust + 0.0623 × stature",
        "survey, residual SD 9.4 mm",
        lambda known: 31.0 + 0.0032 * known["bust_girth"] + 0.0623 * known["stature"],
    ),
    Estimate("shoulder_slope", "22.6°", "model bodies", lambda _: math.radians(22.6)),
    Estimate(
        "across_front",
        "0.355 × upper bust",
        "from memory",
        lambda known: 0.355 * known["upper_bust_girth"],
    ),
    Estimate(
        "across_back",
        "0.385 × upper bust",
        "from memory",
        lambda known: 0.385 * known["upper_bust_girth"],
    ),
    Estimate(
        "arm_length",
        "0.356 × stature",
        "from memory: 58 cm at a stature of 163 cm",
        lambda known: 0.356 * known["stature"],
    ),
    Estimate(
        "upper_arm_girth",
        "0.358 × upper bust − 2.7 cm",
        "a straight line through the bent upper arms of 260 women (Heinz et al. 2003), residual SD 16 mm; a hanging "
        "arm is a little less",
        _upper_arm_girth,
    ),
    Estimate(
        "wrist_girth",
        "7.5 cm + 0.088 × upper bust",
        "a straight line through the wrists of 260 women (Heinz et al. 2003), residual SD 6.5 mm",
        _wrist_girth,
    ),
)


def complete(taken: Known) -> dict[TermId, float]:
    """The taken measurements and an estimate of every other, mm and radians.

    `taken` must hold all the required terms and agree with `RELATIONS`.
    """
    known = dict(taken)
    for estimate in ESTIMATES:
        if estimate.term not in known:
            known[estimate.term] = estimate.amount(known)
    return known


def as_far_as_known(taken: Known) -> dict[TermId, float]:
    """The taken measurements, which need not be all the required ones, and every estimate that they are enough for."""
    known = dict(taken)
    for estimate in ESTIMATES:
        if estimate.term not in known:
            try:
                known[estimate.term] = estimate.amount(known)
            except KeyError:  # the formula asks for what is not known yet
                continue
    return known
