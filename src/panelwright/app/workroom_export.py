"""Everything in a workroom as plain files in one ZIP, for keeping and for passing on."""

import io
import json
import re
import zipfile
from collections.abc import Iterable, Iterator, Mapping
from typing import Final

from panelwright.app.kept_group import for_wearers, readable_group
from panelwright.app.lays_file import readable_lays
from panelwright.app.workroom_start import SIZE_REFS
from panelwright.store.version import Version
from panelwright.store.workroom import Workroom

README: Final = "README.txt"
FOLDERS: Final = {
    "wearer": "wearers",
    "design": "designs",
    "trace": "traces",
    "fitting": "fittings",
    "lay": "lays",
    "group": "groups",
}
# A reference that says nothing of who it is.
_NUMBERED: Final = re.compile(r"w-[0-9]{1,6}")
_DATE: Final = (1980, 1, 1, 0, 0, 0)  # the same work gives the same bytes
_FILE: Final = 0o100644 << 16

_WORDS: Final = """\
This is saved work of Panelwright, as plain files.

designs   One file for each design: the block, the steps, how it is finished.
wearers   One file for each wearer: body measurements, and a reference instead of a name.
fittings  One file for each wearer whose toile was fitted: the fitting notes.
traces    One file for each block of your own that was traced on the board, without its picture.
lays      One file for each garment whose lays were found by a search or moved by hand: where the
          pieces lie on the cloth.
groups    One file for each group that is bought for together: who gets which design, and prices.

Each file is text (JSON) that you can read and change with any text editor. In a terminal

    panelwright make wearers/w-01.json designs/lantern-01.json

makes the sheets of a design for a wearer. To put everything back into a workroom, open its first
page and drop this ZIP, or single files of it, on it. The sizes of the table are not in here, only
what was fitted on them: every workroom has them.

Body measurements are private. Ask each wearer before you pass them on, or leave out the folders
"wearers" and "fittings".
{refs}
Titles of designs and groups and notes of designs are as they were written: look through them for
names before you pass them on.
"""
_NUMBERS: Final = "Wearers whose reference could tell a name have got a number instead."
_NAMES: Final = "References of wearers are as they were chosen, and may tell a name."


def export_zip(room: Workroom, names: bool = False) -> bytes:
    """The current version of everything in the workroom, and a page that says in plain words what it is.

    Args:
        names: True leaves every wearer's reference as it is; else those that are no plain number, and so might tell a
            name, are numbered.
    """
    written = io.BytesIO()
    sent = {}
    notes = {fitting.ref: fitting.document or "{}" for fitting in room.items("fitting")}
    with zipfile.ZipFile(written, "w", zipfile.ZIP_DEFLATED) as archive:
        _put(archive, README, _WORDS.format(refs=_NAMES if names else _NUMBERS))
        for wearer, ref in _wearers(room.items("wearer"), names):
            document = {**json.loads(wearer.document or "{}"), "ref": ref}
            _put(archive, f"{FOLDERS['wearer']}/{ref}.json", _text(document))
            sent[wearer.ref] = ref
            if wearer.ref in notes:
                document = {**json.loads(notes[wearer.ref]), "wearer": ref}
                _put(archive, f"{FOLDERS['fitting']}/{ref}.json", _text(document))
        for size in sorted(SIZE_REFS & notes.keys()):
            _put(archive, f"{FOLDERS['fitting']}/{size}.json", _text(json.loads(notes[size])))
        for design in room.items("design"):
            _put(archive, f"{FOLDERS['design']}/{design.ref}.json", _text(json.loads(design.document or "{}")))
        for trace in room.items("trace"):
            _put(archive, f"{FOLDERS['trace']}/{trace.ref}.json", _text(json.loads(trace.document or "{}")))
        sent |= {size: size for size in SIZE_REFS}
        for name, document in _lays(room, sent):
            _put(archive, f"{FOLDERS['lay']}/{name}.json", _text(document))
        for group, document in _groups(room, sent):
            _put(archive, f"{FOLDERS['group']}/{group}.json", _text(document))
    return written.getvalue()


def _wearers(wearers: Iterable[Version], names: bool) -> Iterator[tuple[Version, str]]:
    """Each wearer and the reference that goes out."""
    own = [wearer for wearer in wearers if wearer.ref not in SIZE_REFS]
    taken = {wearer.ref for wearer in own}
    for wearer in own:
        ref = wearer.ref if names or _NUMBERED.fullmatch(wearer.ref) else free_ref(taken)
        taken.add(ref)
        yield wearer, ref


def _lays(room: Workroom, sent: Mapping[str, str]) -> Iterator[tuple[str, dict[str, object]]]:
    """(name, document) of the lays of every garment whose design and wearer are sent, in a folder for each design; what
    cannot be read here could not be brought in elsewhere.
    """
    designs = {design.ref for design in room.items("design")}
    for lays in room.items("lay"):
        record = readable_lays(lays.document or "{}")
        if record is not None and record.design in designs and record.wearer in sent:
            wearer = sent[record.wearer]
            document: dict[str, object] = json.loads(lays.document or "{}")
            yield f"{record.design}/{wearer}", document | {"wearer": wearer}


def _groups(room: Workroom, sent: Mapping[str, str]) -> Iterator[tuple[str, dict[str, object]]]:
    """(reference, document) of every group that can be read here; garments go out with their design and wearer."""
    designs = {design.ref for design in room.items("design")}
    for group in room.items("group"):
        if readable_group(group.document or "{}") is not None:
            document = for_wearers(json.loads(group.document or "{}"), sent)
            garments = [own for own in document.get("garments", []) if own["design"] in designs]
            yield group.ref, document | ({"garments": garments} if "garments" in document else {})


def free_ref(taken: set[str]) -> str:
    """The first plain number that no wearer has."""
    return next(ref for number in range(1, len(taken) + 2) if (ref := f"w-{number:02}") not in taken)


def _text(document: object) -> str:
    return json.dumps(document, ensure_ascii=False, indent=2) + "\n"


def _put(archive: zipfile.ZipFile, name: str, text: str) -> None:
    entry = zipfile.ZipInfo(name, _DATE)
    entry.compress_type = zipfile.ZIP_DEFLATED
    entry.create_system, entry.external_attr = 3, _FILE
    archive.writestr(entry, text.encode())
