"""The line that a facing ends at inside."""

from typing import Final

from panelwright.pattern.line import BLOCK, Line

FACING_EDGE: Final = Line("facing-edge", "Facing edge", BLOCK)
