"""The lays that a workroom keeps with its garments: on the disk before a call returns."""

from collections.abc import Callable, Iterator
from typing import Final

from panelwright.app.laid_for import LaidFor
from panelwright.app.lays_file import LayRecord, LaysRecord, lays_text, readable_lays
from panelwright.app.workroom_item import found_item, lay_ref
from panelwright.store.workroom import Workroom

# Lays of one cloth, for other widths or other pieces, that come back when these do.
MOST_OF_A_CLOTH: Final = 6
WHAT: Final = "a lay"
UNREADABLE: Final = (
    "What was kept of this garment's lays cannot be read, so they are laid anew; "
    "the next lay that is found or moved by hand takes its place."
)


class KeptLays:
    """By design and wearer. Several threads may ask."""

    def __init__(self, room: Workroom) -> None:
        """Whatever the workroom holds."""
        self._room = room

    def of(self, design: str, wearer: str) -> tuple[LayRecord, ...]:
        """The lays of a garment, the newest first; none where what is kept cannot be read."""
        read = self._read(design, wearer)
        return () if read is None else read.lays

    def fault(self, design: str, wearer: str) -> str:
        """Why what is kept of a garment is not used; nothing where it is, or where nothing is kept."""
        return UNREADABLE if self._read(design, wearer) is None else ""

    def change(
        self, design: str, wearer: str, of: LaidFor, length: float, change: Callable[[LayRecord], LayRecord]
    ) -> LayRecord:
        """Keep a lay changed, as the newest; one that is not there yet is begun. Nobody changes the workroom between
        what is read and what is kept.

        Args:
            of: what it is for.
            length: of the lay, mm, where it is begun.
            change: what becomes of it.

        Raises:
            NotThereError: if the garment's design or wearer is not there any more: nothing is kept then.
            StoreError: if it cannot be written.
        """
        with self._room.as_one():
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
        with self._room.as_one():
            lays = self.of(design, wearer)
            self._keep(design, wearer, tuple(lay for lay in lays if lay.cloth != of.cloth or lay.laid_for == of))

    def _read(self, design: str, wearer: str) -> LaysRecord | None:
        found = self._room.found("lay", lay_ref(design, wearer))
        if found is None or found.document is None:
            return LaysRecord(design=design, wearer=wearer)
        return readable_lays(found.document)

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
