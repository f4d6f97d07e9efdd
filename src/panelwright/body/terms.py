"""The measurements that Panelwright knows, in the order in which they are asked for.

Clauses are of ISO 8559-1:2017. Heights are taken at the side, upright, from the waist tape.
"""

import difflib
import math
from collections.abc import Mapping
from types import MappingProxyType

from panelwright.body.term import Bounds, Term, TermId
from panelwright.errors import InputError
from panelwright.quotation import quoted

_REQUIRED = (
    Term(
        "bust_girth",
        "bust girth",
        "Round the fullest part of the bust, tape level all round, breathing normally.",
        possible=Bounds(500, 2000),
        likely=Bounds(700, 1500),
        note="Over the undergarment that will be worn. The tape lies at the level of the bust points.",
        required=True,
        clause="5.3.4",
    ),
    Term(
        "underbust_girth",
        "underbust girth",
        "Round the rib cage directly under the bust, tape level and close.",
        possible=Bounds(400, 1900),
        likely=Bounds(550, 1350),
        required=True,
    ),
    Term(
        "waist_girth",
        "waist girth",
        "Round the waist, midway between the lowest rib and the top of the hip bone; take it first.",
        possible=Bounds(300, 2000),
        likely=Bounds(500, 1400),
        note="Leave a tape or elastic there: every height is taken from it.",
        required=True,
        clause="5.3.10",
    ),
    Term(
        "hip_girth",
        "hip girth",
        "Round the fullest part of the seat, tape level, feet together.",
        possible=Bounds(400, 2400),
        likely=Bounds(750, 1600),
        required=True,
        clause="5.3.13",
    ),
    Term(
        "back_neck_to_waist",
        "back neck point to waist",
        "From the bone at the base of the neck down the middle of the back to the waist tape.",
        possible=Bounds(250, 600),
        likely=Bounds(330, 480),
        note="Bend the head forward to find the bone, then straighten up. The tape follows the back.",
        required=True,
        clause="5.4.5",
    ),
)

_OPTIONAL = (
    Term(
        "upper_bust_girth",
        "upper bust girth",
        "Round the body high under the arms and above the fullness of the bust.",
        possible=Bounds(400, 2200),
        likely=Bounds(650, 1450),
        note="Lower the arms before reading the tape.",
    ),
    Term(
        "bust_point_to_underbust",
        "bust point to underbust",
        "Straight down from the level of the bust points to the underbust tape.",
        possible=Bounds(20, 200),
        likely=Bounds(35, 120),
        note="A drop between two levels: hold the tape upright, don't follow the body.",
    ),
    Term(
        "side_neck_to_bust_point",
        "side neck point to bust point",
        "From where neck and shoulder seam meet, straight to the bust point.",
        possible=Bounds(100, 600),
        likely=Bounds(200, 420),
    ),
    Term(
        "bust_point_span",
        "bust point span",
        "From one bust point straight across to the other.",
        possible=Bounds(80, 700),
        likely=Bounds(140, 310),
    ),
    Term(
        "bust_height",
        "bust height",
        "Straight up from the waist tape to the level of the bust points.",
        possible=Bounds(40, 380),
        likely=Bounds(100, 220),
    ),
    Term(
        "underarm_to_waist",
        "underarm to waist",
        "From a ruler held close under the arm straight down the side to the waist tape.",
        possible=Bounds(80, 520),
        likely=Bounds(140, 270),
        note="Arm hanging; the ruler's upper edge touches without pushing up.",
    ),
    Term(
        "top_hip_girth",
        "top hip girth",
        "Round the body over the hip bones, tape level.",
        possible=Bounds(300, 2400),
        likely=Bounds(600, 1550),
        clause="5.3.12",
    ),
    Term(
        "waist_to_top_hip",
        "waist to top hip",
        "From the waist tape down the side to the top hip level.",
        possible=Bounds(25, 220),
        likely=Bounds(60, 140),
    ),
    Term(
        "waist_to_hip",
        "waist to hip",
        "From the waist tape down the side to the hip level.",
        possible=Bounds(50, 400),
        likely=Bounds(140, 270),
    ),
    Term(
        "neck_base_girth",
        "neck base girth",
        "Round the base of the neck, over the back neck bone and both side neck points.",
        possible=Bounds(250, 650),
        likely=Bounds(310, 500),
        note="A fine chain lies where the tape should.",
        clause="5.3.3",
    ),
    Term(
        "shoulder_length",
        "shoulder length",
        "From the side neck point along the shoulder to the bone at its end.",
        possible=Bounds(60, 220),
        likely=Bounds(95, 170),
    ),
    Term(
        "shoulder_slope",
        "shoulder slope",
        "The angle by which the shoulder falls below level, read with a slope gauge or on a photograph.",
        possible=Bounds(0, math.radians(50)),
        likely=Bounds(math.radians(14), math.radians(35)),
        note="Likely bounds: two surveys of Hiroshima University, 1970 and 1979.",
        quantity="angle",
    ),
    Term(
        "across_front",
        "across front",
        "Across the chest from arm crease to arm crease, midway between shoulder end and underarm.",
        possible=Bounds(120, 900),
        likely=Bounds(250, 480),
    ),
    Term(
        "across_back",
        "across back",
        "Across the back from arm crease to arm crease, midway between shoulder end and underarm.",
        possible=Bounds(120, 1000),
        likely=Bounds(270, 520),
    ),
    Term(
        "arm_length",
        "arm length",
        "From the bone at the end of the shoulder over the elbow to the wrist bone, elbow bent.",
        possible=Bounds(300, 900),
        likely=Bounds(500, 690),
        note="The hand rests on the hip; the tape follows the outside of the arm.",
    ),
    Term(
        "upper_arm_girth",
        "upper arm girth",
        "Round the fullest part of the upper arm, near the armpit, arm hanging loosely.",
        possible=Bounds(120, 800),
        likely=Bounds(210, 460),
        note="Let the tape slide: a sleeve needs room to bend the arm.",
    ),
    Term(
        "wrist_girth",
        "wrist girth",
        "Round the wrist over the wrist bone.",
        possible=Bounds(90, 350),
        likely=Bounds(130, 210),
    ),
    Term(
        "stature",
        "stature",
        "Height from the floor to the top of the head, without shoes, standing straight.",
        possible=Bounds(1000, 2300),
        likely=Bounds(1400, 1950),
    ),
)

TERMS: Mapping[TermId, Term] = MappingProxyType({term.id: term for term in _REQUIRED + _OPTIONAL})
# Those that only sleeves ask for.
OF_THE_ARM: tuple[TermId, ...] = ("arm_length", "upper_arm_girth", "wrist_girth")
REQUIRED: tuple[TermId, ...] = tuple(term.id for term in _REQUIRED)


def find_term(name: str) -> Term:
    """The term with this id.

    Raises:
        InputError: if there is none; the message names the nearest one.
    """
    for id, term in TERMS.items():
        if id == name:
            return term
    near = difflib.get_close_matches(name[:80].lower(), TERMS, n=1, cutoff=0.5)
    remedy = f"did you mean {near[0]}?" if near else f"the terms are {', '.join(TERMS)}"
    raise InputError(f"{quoted(name)} is not a measurement; {remedy}", quoted(name))
