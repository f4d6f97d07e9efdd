"""A wearer of the workroom with the fitting notes that a garment is drawn on."""

from dataclasses import replace

from panelwright.app.fitting_file import read_fitting
from panelwright.app.workroom_item import Item, found_item
from panelwright.body.measurement_file import read_measurements
from panelwright.body.measurements import Measurements
from panelwright.fitting.fitting import Fitting
from panelwright.store.workroom import Workroom


def worn_item(room: Workroom, wearer: str) -> Item:
    """The wearer, with the text of the notes.

    Raises:
        NotThereError: if there is no such wearer.
    """
    return replace(found_item(room, "wearer", wearer), notes=fitting_text(room, wearer))


def person(worn: Item) -> tuple[Measurements, Fitting | None]:
    """(measurements, fitting notes) of a wearer with the text of the notes.

    Raises:
        InputError: if one of them cannot be read.
    """
    return read_measurements(worn.text), read_fitting(worn.notes) if worn.notes else None


def fitting_text(room: Workroom, wearer: str) -> str:
    """The text of a wearer's fitting notes; empty where there are none."""
    found = room.found("fitting", wearer)
    return (found.document or "") if found is not None else ""
