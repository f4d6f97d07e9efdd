"""What a wearer and a maker are told before they sew and wear a garment: the page of the sign-off prints it.

Tightness, breath, fainting, reflux, numbness, bruises, exercise, pain: press pages on tight bodices. Pregnancy and
surgery: from memory (MEM). None of it is medical advice, and nothing here says that a garment is safe.
"""

from typing import Final

from panelwright.checks.wearer_pressure import (
    BONED_PEAK,
    DISCOMFORT,
    FALLS_SHORT,
    MMHG_PER_KPA,
    is_boned,
    is_laced,
    waist_pressure,
)
from panelwright.checks.wearer_support import is_strapless
from panelwright.checks.wearing import Wearing
from panelwright.pattern.level import UNDERBUST, UPPER_BUST, WAIST
from panelwright.pattern.pattern import Pattern

_CLOSE: Final = (UPPER_BUST, UNDERBUST, WAIST)  # levels where a garment that has no ease holds breath and belly

PAIN: Final = (
    "Pain, short breath, dizziness, numbness or tingling mean: loosen it at once and take it off. No number on these "
    "sheets says otherwise."
)
TIGHT: Final = (
    "A tight bodice makes breath shallow; it can bring on fainting and heartburn, numb the skin and leave bruises. "
    "Sit, bend, reach and breathe deeply in it at the fitting, and wear it for a short time first."
)
EXERCISE: Final = (
    "It is not for exercise: for dancing give ease at ribs and waist, and rehearse in it before the evening."
)
NOT_FOR: Final = (
    "Do not wear it tight in pregnancy, after an operation, or with an illness of lungs, heart, stomach or skin, "
    "unless a doctor has agreed."
)
LACING: Final = (
    "Lace up slowly, from both ends to the waist, with someone beside who can undo it quickly; nobody who wears it for "
    "the first time should be left alone in it."
)
BONES: Final = (
    "Cap or file both ends of every bone and stitch its channel shut: an end that works through the cloth hurts. Look "
    "over the channels before each wearing."
)
STRAPLESS: Final = "A strapless top may slip: try every movement at the fitting, and carry straps that can be put on."
SKIN: Final = (
    "Wash cloth before cutting where it can be washed, and keep rough edges, dyes that come off and metal with nickel "
    "from bare skin; take it off where the skin reddens or itches."
)
TOOLS: Final = (
    "Blades, irons, needles and pins hurt: cut away from the hand, count pins out of the garment before it is tried "
    "on, wear glasses when you cut steel, and let learners work beside a teacher."
)
WHO_DECIDES: Final = (
    "What these sheets reckon is no fitting and no medical advice: the fitter, the teacher and a doctor know better."
)


def cautions(pattern: Pattern, wearing: Wearing) -> tuple[str, ...]:
    """The cautions that fit a garment, the most urgent first, each a text of one to three sentences.

    What concerns tightness comes for every garment that has no ease somewhere from upper bust to waist, or is boned,
    laced or strapless; the number of a tight waist only where it is one.
    """
    boned, laced, strapless = is_boned(pattern, wearing), is_laced(pattern), is_strapless(pattern)
    close = any(level.id in _CLOSE and level.ease < 0 for level in pattern.levels)
    found = [PAIN]
    if boned or laced or strapless or close:
        found += [TIGHT, EXERCISE, NOT_FOR]
    found += [pressure] if (pressure := _pressure(pattern, wearing)) else []
    found += [text for text, told in ((LACING, laced), (BONES, boned), (STRAPLESS, strapless)) if told]
    return (*found, SKIN, TOOLS, WHO_DECIDES)


def _pressure(pattern: Pattern, wearing: Wearing) -> str | None:
    """The order of magnitude of the pressure on a tight waist, with its limits."""
    found = waist_pressure(pattern, wearing)
    if found is None:
        return None
    return (
        f"The waist is drawn in by {found.reduction:.0%}: as a band on a cylinder that is about {found.words} of "
        f"pressure, an order of magnitude only. Measured pressures lay up to {FALLS_SHORT:.0%} lower, the formula does "
        f"not hold at the waist, people complain from about {DISCOMFORT:g} kPa ({DISCOMFORT * MMHG_PER_KPA:.0f} mmHg), "
        f"and boned garments 10 to 20 % under the waist peaked at about {BONED_PEAK:g} kPa."
    )
