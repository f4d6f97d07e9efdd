"""The block that a design of the workroom lies on: made from measurements, or traced from paper."""

from dataclasses import replace
from typing import Final

from panelwright.app.block_shelf import BlockShelf
from panelwright.app.garment_design import GarmentDesign
from panelwright.app.paper_block import PaperBlock
from panelwright.app.workroom_item import Item, found_item
from panelwright.app.workroom_start import STAND
from panelwright.app.worn_item import person
from panelwright.blocks.block import Block
from panelwright.body.units import Unit
from panelwright.store.workroom import Workroom

# Stands where the wearer's reference would, before an audience.
UNNAMED: Final = "not named"


def block_under(
    room: Workroom, shelf: BlockShelf, design: GarmentDesign, wearer: Item, unit: Unit, named: bool = True
) -> Block | PaperBlock:
    """The block of a design on a wearer.

    A traced block has the size that it was drawn in: on the stand, which is nobody's body, nothing is said about fit.

    Args:
        unit: of the lengths that people read.
        named: whether it may say whose it is.

    Raises:
        NotThereError: if the workroom has no such traced block.
        InputError, BlockError: if there is no block to be had.
    """
    if design.traced is None:
        measurements, fitting = person(wearer)
        block = shelf.block(measurements, design.block_options, fitting, unit)
        if named:
            return block
        # The words of the notes tell of a body as the measurements do; the shape keeps what they changed.
        pattern = block.pattern
        arm = pattern.arm and replace(pattern.arm, estimated=())
        return replace(block, pattern=replace(pattern, wearer=UNNAMED, estimated=(), fitting=(), arm=arm))
    trace = found_item(room, "trace", design.traced.ref)
    worn_by = None if wearer.ref == STAND or not named else wearer.text
    return shelf.traced(trace.text, worn_by, design.traced.true, unit)
