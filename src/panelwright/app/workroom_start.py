"""Opening a workroom; a new one gets the demo's wearers and designs, so that nobody begins before an empty page."""

import json
from pathlib import Path
from typing import Final

from panelwright.app.demo.troupe import designs, troupe
from panelwright.body.measurement_file import measurement_document
from panelwright.body.size_table import SIZES, size
from panelwright.store.version import Kind
from panelwright.store.workroom import Workroom

STAND: Final = "size-88"
SIZE_REFS: Final = {f"size-{bust}": bust for bust in SIZES}


def open_workroom(path: Path) -> Workroom:
    """The workroom in a file, made and filled if it is not there.

    Raises:
        StoreError: if the file is no workroom or cannot be opened.
    """
    room = Workroom(path)
    try:
        if not room.history("wearer", STAND):
            _fill(room)
    except BaseException:
        room.close()
        raise
    return room


def size_text(ref: str) -> str | None:
    """The measurement document of a size of our table by its reference, `size-88`; None for any other reference."""
    bust = SIZE_REFS.get(ref)
    return None if bust is None else json.dumps(measurement_document(size(bust)), indent=2)


def _fill(room: Workroom) -> None:
    """The stand comes last: a workroom without it was not filled to the end, and what it lacks is put in."""
    for dancer in troupe():
        _put_in(room, "wearer", dancer.wearer.ref, dancer.text)
    for cut in designs():
        _put_in(room, "design", cut.design.ref, cut.text)
    _put_in(room, "wearer", STAND, size_text(STAND))


def _put_in(room: Workroom, kind: Kind, ref: str, text: str | None) -> None:
    if not room.history(kind, ref):
        room.save(kind, ref, text, "put in with a new workroom")
