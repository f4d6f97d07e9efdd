"""Blocks that were made, kept for as long as they are used: one takes seconds, a design on it hundredths."""

from collections import OrderedDict
from threading import Lock
from typing import Final

from panelwright.blocks.block import Block
from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions
from panelwright.body.measurements import Measurements

KEPT: Final = 32


class BlockShelf:
    """The last blocks, by wearer and options; several threads may use one shelf."""

    def __init__(self, kept: int = KEPT) -> None:
        """An empty shelf; beyond `kept` blocks the one that was longest not asked for goes."""
        self._kept = kept
        self._blocks: OrderedDict[tuple[Measurements, BlockOptions], Block] = OrderedDict()
        self._looking, self._making = Lock(), Lock()

    def block(self, wearer: Measurements, options: BlockOptions) -> Block:
        """The block of a wearer, made where the shelf has none.

        Raises:
            BlockError: if these measurements and options give none.
        """
        key = (wearer, options)
        found = self._found(key)
        if found is not None:
            return found
        with self._making:  # who waited may find it made meanwhile
            block = self._found(key) or make_block(wearer, options)
        with self._looking:
            self._blocks[key] = block
            while len(self._blocks) > self._kept:
                self._blocks.popitem(last=False)
        return block

    def _found(self, key: tuple[Measurements, BlockOptions]) -> Block | None:
        with self._looking:
            block = self._blocks.get(key)
            if block is not None:
                self._blocks.move_to_end(key)
            return block
