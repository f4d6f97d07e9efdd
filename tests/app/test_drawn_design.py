"""A design drawn as far as it can be, and never more silently than it was asked for."""

from dataclasses import replace

import pytest

from panelwright.app.demo.troupe import designs, troupe
from panelwright.app.drawn_design import draw_design, sketch_design
from panelwright.app.garment import make_garment
from panelwright.app.garment_design import GarmentDesign
from panelwright.blocks.block import Block
from panelwright.blocks.make_block import make_block
from panelwright.errors import DesignError


@pytest.fixture(scope="module")
def lantern() -> GarmentDesign:
    return next(iter(designs())).design


@pytest.fixture(scope="module")
def block(lantern: GarmentDesign) -> Block:
    return make_block(next(troupe()).wearer, lantern.block_options)


def test_a_whole_design_is_the_garment_that_the_command_line_makes(lantern: GarmentDesign, block: Block) -> None:
    drawn = draw_design(lantern, block)
    garment = make_garment(block.wearer, lantern, block=block)
    assert drawn.complete
    assert drawn.cutting.pattern == garment.cutting.pattern
    assert drawn.findings == garment.findings


def test_a_sketch_has_the_same_outer_pieces_and_no_others(lantern: GarmentDesign, block: Block) -> None:
    drawn, sketch = draw_design(lantern, block), sketch_design(lantern, block)
    outer = [piece for piece in drawn.cutting.pattern.pieces if piece.layer == "outer"]
    assert list(sketch.cutting.pattern.pieces) == outer
    for piece in outer:
        ours, whole = sketch.cutting.cut[piece.id], drawn.cutting.cut[piece.id]
        assert ours.cut_line.tolist() == whole.cut_line.tolist()
    assert sketch.findings == ()


def test_every_start_of_a_design_can_be_drawn(lantern: GarmentDesign, block: Block) -> None:
    for number, step in enumerate(lantern.design.steps, 1):
        drawn = draw_design(lantern, block, upto=step.uid)
        assert [outcome.step for outcome in drawn.outcomes] == [each.uid for each in lantern.design.steps[:number]]
    with pytest.raises(DesignError, match="no step 'none'"):
        draw_design(lantern, block, upto="none")


def test_an_allowance_for_a_line_that_is_not_there_is_told_and_the_pieces_are_drawn(
    lantern: GarmentDesign, block: Block
) -> None:
    design = replace(lantern, finish=replace(lantern.finish, lines={"sleeve": 15.0}))
    drawn = draw_design(design, block)
    assert len(sketch_design(design, block).cutting.pieces) == 4
    told = [finding for finding in drawn.findings if finding.code == "finish-not-possible"]
    assert len(told) == 1
    assert told[0].severity == "error"
    assert "sleeve" in told[0].message
    assert {piece.id for piece in drawn.cutting.pattern.pieces} >= {"CF", "SF", "SB", "CB"}
    assert all(finding.code != "finish-not-possible" for finding in draw_design(lantern, block).findings)
