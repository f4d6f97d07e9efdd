"""What the workroom holds, as its first page lists it."""

from panelwright.app.design_file import read_design
from panelwright.app.kept_group import readable_group
from panelwright.app.trace_file import read_trace
from panelwright.app.workroom_start import SIZE_REFS, STAND
from panelwright.errors import InputError
from panelwright.store.version import Version
from panelwright.store.workroom import Workroom


def workroom_facts(room: Workroom) -> dict[str, object]:
    """Wearers, designs, traced blocks and groups by reference, and the stand, ready for JSON."""
    return {
        "wearers": [
            {"ref": wearer.ref, "version": wearer.number, "neutral": wearer.ref in SIZE_REFS}
            for wearer in room.items("wearer")
        ],
        "designs": [_design(version) for version in room.items("design")],
        "traces": [_trace(version) for version in room.items("trace")],
        "groups": [_group(version) for version in room.items("group")],
        "stand": STAND,
    }


def _design(version: Version) -> dict[str, object]:
    """One entry; a document that this program can no longer read is listed by its reference."""
    title, steps, traced = version.ref, 0, None
    try:
        design = read_design(version.document or "")
        title, steps = design.title, len(design.steps)
        traced = design.traced.ref if design.traced else None
    except InputError:
        pass
    return {"ref": version.ref, "title": title, "version": version.number, "steps": steps, "traced": traced}


def _trace(version: Version) -> dict[str, object]:
    """One entry, as for a design."""
    title, pieces = "", 0
    try:
        trace = read_trace(version.document or "")
        title, pieces = trace.title, len(trace.pieces)
    except InputError:
        pass
    return {"ref": version.ref, "title": title or version.ref, "version": version.number, "pieces": pieces}


def _group(version: Version) -> dict[str, object]:
    """One entry, as for a design."""
    group = readable_group(version.document or "")
    return {"ref": version.ref, "title": group.title if group else version.ref, "version": version.number}
