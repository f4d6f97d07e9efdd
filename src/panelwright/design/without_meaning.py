"""Steps that have no meaning on a block."""

from typing import Final

from panelwright.design.step import Step
from panelwright.errors import DesignError
from panelwright.file_words import in_file
from panelwright.pattern.pattern import Pattern

_UPPER_EDGE: Final = "the upper edge of a skirt is its waist, and the block has drawn it"
_NO_BODY_ABOVE: Final = "a skirt ends at the waist and reaches no shoulder"
_ON_A_SKIRT: Final = {
    "top-edge": _UPPER_EDGE,
    "bodice-top": _NO_BODY_ABOVE,
    "strap": _NO_BODY_ABOVE,
    "sleeve": _NO_BODY_ABOVE,
    "skirt": "the block is a skirt already",
    "bones": "bones stand in a bodice, and a skirt hangs from its waist",
}


def is_skirt(block: Pattern) -> bool:
    """Whether a block has levels, and none of them lies above the waist."""
    return bool(block.levels) and all(level.height <= 0 for level in block.levels)


def refuse_without_meaning(step: Step, block: Pattern) -> None:
    """Refuse a step that means nothing on this block.

    Raises:
        DesignError: in one sentence.
    """
    reason = _ON_A_SKIRT.get(step.kind) if is_skirt(block) else None
    if reason is not None:
        raise DesignError(
            f"{step.label}: {reason}; leave this step out, or start from a bodice{in_file('block.type, princess')}",
            f"step {step.uid}",
        )
