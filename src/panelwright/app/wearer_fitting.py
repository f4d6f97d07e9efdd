"""The fitting notes that the workroom keeps with a wearer, and what a page is told of them."""

from panelwright.app.design_file import read_design
from panelwright.app.fitting_file import read_fitting
from panelwright.app.fitting_words import note_kinds
from panelwright.app.workroom_item import Item, found_item
from panelwright.app.worn_item import fitting_text
from panelwright.blocks.options import PLANS
from panelwright.body.units import Unit
from panelwright.body.worded_length import worded_in
from panelwright.fitting.fitting import Fitting
from panelwright.pattern import line as lines
from panelwright.store.workroom import Workroom


def fitting_facts(room: Workroom, wearer: str, design: str, unit: Unit) -> dict[str, object]:
    """A wearer's notes as a page shows them beside a design: the document, its version, each note in words, and the
    seams of this design's block that can be pinned; a skirt and a traced block take no notes, and have no kinds.

    Raises:
        NotThereError: if there is no such wearer or design.
    """
    found_item(room, "wearer", wearer)
    own = read_design(found_item(room, "design", design).text)
    fits, options = own.traced is None and not own.block.is_skirt, own.block
    seams = [*PLANS[options.panels].lines, (lines.CENTRE_BACK, "Centre back")] if fits else []
    if fits and (options.centre_back == "fold" or options.centre_back_shape == "straight"):
        seams.pop()
    text = fitting_text(room, wearer)
    saved = room.found("fitting", wearer)
    item = None if saved is None else Item("fitting", wearer, text, saved.number, saved.can_undo, saved.can_redo)
    fitting = read_fitting(text) if text else Fitting(wearer)
    with worded_in(unit):
        labels = {note.uid: note.label for note in fitting.notes}
    return {
        "document": item.document if item is not None and text else None,
        "version": 0 if item is None else item.version,
        "can_undo": item is not None and item.can_undo,
        "can_redo": item is not None and item.can_redo,
        "labels": labels,
        "seams": [{"id": id, "label": label} for id, label in seams],
        "kinds": note_kinds(seams) if fits else [],
    }
