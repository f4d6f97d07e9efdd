"""The arm that a sleeve is cut for."""

from typing import Final

from panelwright.body.terms import OF_THE_ARM
from panelwright.errors import DesignError
from panelwright.pattern.arm import Arm
from panelwright.pattern.level import BUST
from panelwright.pattern.pattern import Pattern

# Where the block is nobody's, from memory, unverified: an arm is 58 cm long, the upper arm .32 and the wrist .18 of the
# bust.
LENGTH: Final = 580.0
UPPER_ARM_SHARE: Final = 0.32
WRIST_SHARE: Final = 0.18


def arm_under(block: Pattern) -> Arm:
    """The arm of the block's wearer; of a block that is nobody's, what is usual with its bust.

    Raises:
        DesignError: if the block knows neither.
    """
    if block.arm is not None:
        return block.arm
    if not block.has_level(BUST):
        raise DesignError(
            "the block is nobody's and has no bust to estimate an arm from; have it drawn for a wearer, or name its "
            "bust level"
        )
    bust = block.level(BUST).body_girth
    return Arm(LENGTH, UPPER_ARM_SHARE * bust, WRIST_SHARE * bust, OF_THE_ARM)
