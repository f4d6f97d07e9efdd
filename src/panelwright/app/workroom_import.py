"""Bringing files into a workroom: one document, or a ZIP of them. All of them are saved, or none."""

from collections.abc import Iterator
from typing import Final

from panelwright.app.design_file import FORMAT as DESIGN_FORMAT
from panelwright.app.fitting_file import FORMAT as FITTING_FORMAT
from panelwright.app.kept_group import FORMAT as GROUP_FORMAT
from panelwright.app.lays_file import FORMAT as LAYS_FORMAT
from panelwright.app.plain_zip import files_in, is_zip
from panelwright.app.trace_record import FORMAT as TRACE_FORMAT
from panelwright.app.workroom_arrivals import Arrivals, BroughtIn, Imported
from panelwright.app.workroom_export import README
from panelwright.app.workroom_faults import ChangedElsewhereError
from panelwright.app.workroom_item import checked_text, lay_ref
from panelwright.body.measurement_file import FORMAT as WEARER_FORMAT
from panelwright.errors import InputError
from panelwright.json_text import parse_object
from panelwright.quotation import quoted
from panelwright.store.change import StaleError
from panelwright.store.version import Kind
from panelwright.store.workroom import Workroom

KINDS: Final[dict[str, Kind]] = {
    WEARER_FORMAT: "wearer",
    DESIGN_FORMAT: "design",
    TRACE_FORMAT: "trace",
    FITTING_FORMAT: "fitting",
    LAYS_FORMAT: "lay",
    GROUP_FORMAT: "group",
}
# What has no reference of its own.
_OF_OTHERS: Final = ("fitting", "lay")
# What computers put beside people's files by themselves.
_LEFT_BEHIND: Final = ("__MACOSX", ".DS_Store", "Thumbs.db", "desktop.ini")


def bring_in(room: Workroom, content: bytes) -> Imported:
    """Save every document of a file as a version of its own item. A wearer or group whose reference somebody else has
    here comes in under a free one: measurements are never put in the place of another person's.

    Args:
        content: of a ZIP, as the export makes it, or of one JSON document.

    Raises:
        InputError: if any of it cannot be used, with the name of the file in the sentence; nothing is saved then.
        ChangedElsewhereError: if another page has changed one of the items meanwhile; nothing is saved then.
    """
    brought = tuple(_documents(content))
    if not brought:
        raise InputError("there is no design and no wearer in the file: send one as the export makes it", "file")
    _refuse_twice(brought)
    wearers, groups = ({each.ref for each in brought if each.kind == kind} for kind in ("wearer", "group"))
    arrivals = Arrivals(room, wearers, groups)
    for each in sorted(brought, key=arrivals.turn):
        arrivals.take(each)
    try:
        room.save_all(arrivals.changes)
    except StaleError as error:
        raise ChangedElsewhereError(
            f"{quoted(error.where)} was changed on another page meanwhile, so nothing was brought in: try again", "ref"
        ) from error
    return arrivals.imported()


def _documents(content: bytes) -> Iterator[BroughtIn]:
    if not is_zip(content):
        yield _document(content)
        return
    for name, inside in files_in(content).items():
        if _is_ours(name):
            try:
                yield _document(inside)
            except InputError as error:
                raise InputError(f"{quoted(name)}: {error}", error.where) from error


def _is_ours(name: str) -> bool:
    """Whether a file of a ZIP is to be read; the export's own page of words is not.

    Raises:
        InputError: if it is none that an export has.
    """
    *folders, own = name.split("/")
    if own == README or own in _LEFT_BEHIND or _LEFT_BEHIND[0] in folders:
        return False
    if own.lower().endswith(".json"):
        return True
    raise InputError(f"the ZIP holds {quoted(name)}, which is no design and no wearer: take it out", quoted(name))


def _document(content: bytes) -> BroughtIn:
    """The document in the text of a file, checked."""
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise InputError("the file is no ZIP and no text in UTF-8: send a design, a wearer or a ZIP", "file") from error
    document = parse_object(text)
    kind = KINDS.get(str(document.get("format")))
    if kind is None:
        *first, last = (quoted(known) for known in KINDS)
        raise InputError(f"format must be {', '.join(first)} or {last}", "format")
    ref = _ref(kind, document)
    if not isinstance(ref, str):
        raise InputError("ref must be a reference in quotes, like lantern-01 or w-07", "ref")
    checked_text(kind, ref, document)
    return BroughtIn(kind, ref, document)


def _ref(kind: Kind, document: dict[str, object]) -> object:
    """What a document is known by; not yet checked."""
    if kind == "lay":
        return lay_ref(str(document.get("design")), str(document.get("wearer")))
    return document.get("wearer" if kind == "fitting" else "ref")


def _refuse_twice(brought: tuple[BroughtIn, ...]) -> None:
    seen = set[tuple[Kind, str]]()
    for each in brought:
        if (each.kind, each.ref) in seen:
            remedy = "keep one" if each.kind in _OF_OTHERS else "keep one, or give it another ref"
            raise InputError(f"{each.kind} {quoted(each.ref)} is in two files: {remedy}", "ref")
        seen.add((each.kind, each.ref))
