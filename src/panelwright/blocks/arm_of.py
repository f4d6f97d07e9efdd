"""The arm of a wearer, as sleeves ask for it."""

from panelwright.body.measurements import Measurements
from panelwright.body.terms import OF_THE_ARM
from panelwright.pattern.arm import Arm


def arm_of(wearer: Measurements) -> Arm:
    """Length and girths, and which of them are estimates."""
    length, upper_arm, wrist = (wearer[term] for term in OF_THE_ARM)
    return Arm(length, upper_arm, wrist, tuple(term for term in OF_THE_ARM if term in wearer.estimated))
