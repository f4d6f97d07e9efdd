"""Where seams lie now is where a design puts them."""

from itertools import pairwise

import pytest

from panelwright.app.seam_places import seam_places
from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import PLANS, BlockOptions, SeamPlace
from panelwright.body.size_table import size
from panelwright.pattern.level import LEVELS

WEARER = size(88)


def test_a_seam_that_a_design_puts_somewhere_lies_there() -> None:
    asked = (SeamPlace("front-princess", "waist", 70.0), SeamPlace("back-princess", "top-hip", 75.0))
    block = make_block(WEARER, BlockOptions(seams=asked))
    found = {(line, level): distance for line, level, distance in seam_places(block, 4)}
    for place in asked:
        assert found[place.line, place.level] == pytest.approx(place.distance, abs=1.0)


@pytest.mark.parametrize("panels", sorted(PLANS))
def test_every_seam_is_told_at_every_level_and_they_lie_in_their_order(panels: int) -> None:
    """From both centres together they go once over the half: girth and ease, as the level states them."""
    block = make_block(WEARER, BlockOptions(panels=panels))
    found = {(line, level): distance for line, level, distance in seam_places(block, panels)}
    order = [line for line, _ in PLANS[panels].lines]
    assert {level for _, level in found} == {level.id for level in block.pattern.levels} <= set(LEVELS)
    for level in block.pattern.levels:
        half = level.finished_girth / 2
        from_front = [half - found[line, level.id] if "back" in line else found[line, level.id] for line in order]
        assert all(one < other for one, other in pairwise([0.0, *from_front, half]))
