"""A design document with one of its steps changed; everything else stays as its maker wrote it."""

from collections.abc import Mapping

from panelwright.app.garment_design import GarmentDesign
from panelwright.design.step import Step
from panelwright.design.step_file import steps_to_json

Document = dict[str, object]


def with_step(document: Mapping[str, object], design: GarmentDesign, step: Step) -> Document:
    """The document with `step` in place of the one with its uid; a default edge that was not written comes first.

    Args:
        document: of `design`.
    """
    (entry,) = steps_to_json((step,), design.off, design.notes)
    written = document.get("steps")
    entries = list(written) if isinstance(written, list) else steps_to_json(design.steps)
    uids = [own.uid for own in design.steps]
    if step.uid in uids:
        entries[uids.index(step.uid)] = entry
    else:
        entries.insert(0, entry)
    return {**document, "steps": entries}
