"""Blocks that were made, kept for as long as they are used: one takes seconds, a design on it hundredths."""

from collections import OrderedDict
from collections.abc import Callable
from threading import Lock
from typing import Final, Generic, TypeVar

from panelwright.app.paper_block import PaperBlock, paper_block
from panelwright.app.trace_file import read_trace, traced_pattern
from panelwright.blocks.block import Block
from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions
from panelwright.body.measurement_file import read_measurements
from panelwright.body.measurements import Measurements
from panelwright.body.units import Unit
from panelwright.body.worded_length import worded_in
from panelwright.fitting.fitted_block import fitted_as_far
from panelwright.fitting.fitting import Fitting

KEPT: Final = 32
Key = TypeVar("Key")
Made = TypeVar("Made")


class BlockShelf:
    """The last blocks, by wearer and options, and the last traced ones; several threads may use one shelf."""

    def __init__(self, kept: int = KEPT) -> None:
        """An empty shelf; beyond `kept` blocks of a sort the one that was longest not asked for goes."""
        self._blocks = _Kept[tuple[Measurements, BlockOptions, tuple[Fitting, Unit] | None], Block](kept)
        self._traced = _Kept[tuple[str, str | None, bool, Unit], PaperBlock](kept)

    def block(
        self, wearer: Measurements, options: BlockOptions, fitting: Fitting | None = None, unit: Unit = Unit.CM
    ) -> Block:
        """The block of a wearer, made where the shelf has none, with the fitting notes that it can take.

        Args:
            unit: of the lengths in the words of the notes.

        Raises:
            BlockError: if these measurements and options give none.
        """
        plain = self._blocks.found((wearer, options, None), lambda: make_block(wearer, options))
        if fitting is None:
            return plain

        def made() -> Block:
            with worded_in(unit):
                return fitted_as_far(plain, fitting)

        return self._blocks.found((wearer, options, (fitting, unit)), made)

    def traced(self, trace: str, wearer: str | None, true: bool, unit: Unit) -> PaperBlock:
        """A traced block, made where the shelf has none.

        Args:
            trace: text of its document.
            wearer: text of the measurements that it is held against, or None.
            true: whether it is trued.
            unit: of its findings.

        Raises:
            InputError: if it is not traced to the end, or its pieces make no pattern.
        """

        def made() -> PaperBlock:
            worn_by = None if wearer is None else read_measurements(wearer)
            return paper_block(traced_pattern(read_trace(trace)), worn_by, true, unit)

        return self._traced.found((trace, wearer, true, unit), made)


class _Kept(Generic[Key, Made]):
    """The last results of one sort."""

    def __init__(self, kept: int) -> None:
        self._kept = kept
        self._results: OrderedDict[Key, Made] = OrderedDict()
        self._looking, self._making = Lock(), Lock()

    def found(self, key: Key, make: Callable[[], Made]) -> Made:
        """The result of a key, made where none is kept."""
        known = self._known(key)
        if known is not None:
            return known
        with self._making:  # who waited may find it made meanwhile
            made = self._known(key) or make()
        with self._looking:
            self._results[key] = made
            while len(self._results) > self._kept:
                self._results.popitem(last=False)
        return made

    def _known(self, key: Key) -> Made | None:
        with self._looking:
            known = self._results.get(key)
            if known is not None:
                self._results.move_to_end(key)
            return known
