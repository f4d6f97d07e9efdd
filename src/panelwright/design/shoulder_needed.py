"""The block up to the shoulder, and what a step says that needs one where the block ends at the upper bust."""

from typing import Final

from panelwright.errors import DesignError
from panelwright.file_words import in_file
from panelwright.pattern import line as lines
from panelwright.pattern.pattern import Pattern

SHOULDER_NEEDED: Final = (
    f"it needs a block up to the shoulder, of 4 or 6 panels{in_file('block.top, shoulder, and block.panels')}"
)
BODY_NEEDED: Final = (
    "it needs the body under the block, up to the shoulder, and a block read off paper has none: draw the block up to "
    "the shoulder on paper and call its edges neckline, shoulder and armhole, or leave this step out"
)
_DRAWN: Final = (lines.NECKLINE, lines.SHOULDER, lines.ARMHOLE)


def reaches_shoulder(block: Pattern) -> bool:
    """Whether the block itself was drawn up to the shoulder, as paper blocks often are."""
    return all(block.pieces_on_line(line) for line in _DRAWN)


def block_to_shoulder(block: Pattern) -> Pattern:
    """The block up to neck, shoulder and armhole; the block itself where it was drawn so.

    Raises:
        DesignError: if there is none.
    """
    if block.to_shoulder is not None:
        return block.to_shoulder
    if reaches_shoulder(block):
        return block
    raise DesignError(SHOULDER_NEEDED if block.body else BODY_NEEDED, "block")
