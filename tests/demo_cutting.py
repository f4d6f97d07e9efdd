"""The demo's garments ready to cut, without their checks and sheets: what the tests of drawing files share."""

from functools import cache

from panelwright.app.demo.troupe import DANCED, designs, troupe
from panelwright.blocks.make_block import make_block
from panelwright.design.replay import replay
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.finish.finishing import finish

GARMENTS = [(design, wearer) for design, wearers in DANCED.items() for wearer in wearers]


@cache
def demo_cutting(design: str, wearer: str) -> CuttingPattern:
    """A design of the demo for one of its dancers."""
    (asked,) = (each.design for each in designs() if each.design.ref == design)
    (dancer,) = (each.wearer for each in troupe() if each.wearer.ref == wearer)
    made = replay(asked.design, make_block(dancer, asked.block_options).pattern)
    return finish(made.pattern, asked.finish)
