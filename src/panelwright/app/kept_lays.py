"""The lays that a workroom keeps with its garments: on the disk before a call returns."""

from collections.abc import Callable, Iterator
from threading import RLock
from typing import Final

from panelwright.app.laid_for import LaidFor
from panelwright.app.lays_file import LayRecord, LaysRecord, lays_text, read_lays
from panelwright.app.workroom_item import found_item, lay_ref
from panelwright.store.workroom import Workroom

# Lays of one cloth, for other widths or other pieces, that come back when these do.
MOST_OF_A_CLOTH: Final = 6
WHAT: Final = "a lay"


class KeptLays:
    """By design and wearer. Several threads may ask."""

    def __init__(self, room: Workroom) -> None:
        """Whatever the workroom holds."""
        self._room, self._lock = room, RLock()

    def of(self, design: str, wearer: str) -> tuple[LayRecord, ...]:
        """The lays of a garment, the newest first."""
        found = self._room.found("lay", lay_ref(design, wearer))
        return () if found is None or found.document is None else read_lays(found.document).lays

    def change(
        self, design: str, wearer: str, of: LaidFor, length: float, change: Callable[[LayRecord], LayRecord]
    ) -> LayRecord:
        """Keep a lay changed, as the newest; one that is not there yet is begun.

        Args:
            of: what it is for.
            length: of the lay, mm, where it is begun.
            change: what becomes of it.

        Raises:
            NotThereError: if the garment's design or wearer is not there any more: nothing is kept then.
            StoreError: if it cannot be written.
        """
        with self._lock:
            lays = self.of(design, wearer)
            begun = LayRecord(
                cloth=of.cloth,
                width_mm=of.width,
                folded=of.folded,
                one_way=of.one_way,
                pieces=of.pieces,
                length_mm=length,
            )
            before = next((lay for lay in lays if lay.laid_for == of), begun)
            own = change(before)
            if own == before:
                return own
            self._keep(design, wearer, (own, *(lay for lay in lays if lay.laid_for != of)))
            return own

    def forget_others(self, design: str, wearer: str, of: LaidFor) -> None:
        """Forget the lays of a cloth that are for other pieces, or for the cloth as it was; raises as `change` does."""
        with self._lock:
            lays = self.of(design, wearer)
            self._keep(design, wearer, tuple(lay for lay in lays if lay.cloth != of.cloth or lay.laid_for == of))

    def _keep(self, design: str, wearer: str, lays: tuple[LayRecord, ...]) -> None:
        found_item(self._room, "design", design)
        found_item(self._room, "wearer", wearer)
        record = LaysRecord(design=design, wearer=wearer, lays=tuple(_few(lays)))
        self._room.keep("lay", lay_ref(design, wearer), lays_text(record), WHAT)


def _few(lays: tuple[LayRecord, ...]) -> Iterator[LayRecord]:
    """The newest of each cloth."""
    count: dict[str, int] = {}
    for lay in lays:
        count[lay.cloth] = count.get(lay.cloth, 0) + 1
        if count[lay.cloth] <= MOST_OF_A_CLOTH:
            yield lay
