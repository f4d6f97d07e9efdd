"""A garment that is ready to be laid and bought for, whoever made it."""

from typing import Protocol

from panelwright.app.garment_design import GarmentDesign
from panelwright.app.paper_block import PaperBlock
from panelwright.blocks.block import Block
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern


class MadeGarment(Protocol):
    """A `Garment` made of files, or a `DrawnDesign` of the workroom."""

    @property
    def design(self) -> GarmentDesign:
        """What was asked for."""

    @property
    def block(self) -> Block | PaperBlock:
        """What it lies on."""

    @property
    def cutting(self) -> CuttingPattern:
        """The pieces ready to cut."""

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Of the checks, errors first."""
