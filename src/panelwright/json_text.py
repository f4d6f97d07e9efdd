"""JSON that a person may have written: read whole or refused, with the name of the file in the sentence."""

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Final

from panelwright.errors import InputError
from panelwright.json_fault import syntax_fault
from panelwright.quotation import quoted

MOST_BYTES: Final = 1_000_000
_KINDS: Final = {
    "panelwright-measurements/1": "measurements",
    "panelwright-sizes/1": "a table of sizes",
    "panelwright-design/1": "a design",
    "panelwright-pattern/1": "a pattern",
    "panelwright-drawn/1": "pieces read off paper",
    "garment-lay/1": "a lay to plan",
    "panelwright-fitting/1": "fitting notes",
    "panelwright-group/1": "a group",
    "panelwright-workroom-group/1": "a group of a workroom",
    "panelwright-trace/1": "a block that is being traced",
    "panelwright-lays/1": "the lays of a garment",
}


def read_text(path: Path, wanted: str) -> str:
    """The text of a file in UTF-8, of at most 1 MB; `wanted` says in a refusal what should have been given.

    Raises:
        InputError: if it cannot be read, is no text, or is larger than 1 MB.
    """
    content = read_content(path, MOST_BYTES, wanted)
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        name = quoted(path.name)
        raise InputError(f"{name} is not text in UTF-8: save it as plain JSON", name) from error


def read_content(path: Path, most_bytes: int, wanted: str) -> bytes:
    """The bytes of a file; `wanted` ends the refusal of a larger one.

    Raises:
        InputError: if it cannot be read or is larger than `most_bytes`.
    """
    name = quoted(path.name or str(path))
    try:
        with path.open("rb") as file:
            content = file.read(most_bytes + 1)
    except FileNotFoundError as error:
        raise InputError(not_there(path), name) from error
    except OSError as error:
        raise InputError(f"{name} cannot be read: {error.strerror or 'unknown reason'}", name) from error
    except ValueError as error:  # a null character in the path
        raise InputError(f"{name} is not the name of a file", name) from error
    if len(content) > most_bytes:
        raise InputError(f"{name} is larger than {most_bytes / 1e6:g} MB: {wanted}", name)
    return content


def not_there(path: Path) -> str:
    """The sentence for a file that is not there: where it was looked for, and what to do."""
    if path.parent == Path():
        return f"there is no file {quoted(path.name)} in this folder: check its name, or give its folder too"
    folder = quoted(path.parent.name or str(path.parent))
    return f"there is no file {quoted(path.name)} in the folder {folder}: check both names"


def kind_of(document: Mapping[str, object]) -> str | None:
    """What another file of ours is, by its format: `measurements`, `a design`, `a pattern`, …; None if it is none."""
    return _KINDS.get(str(document.get("format")))


def refuse_other_format(document: Mapping[str, object], wanted: str, first: str) -> None:
    """Refuse a document that is not of the wanted format.

    Args:
        document: what was read.
        wanted: its `format`.
        first: what to do when the file is another one of ours.

    Raises:
        InputError: if it is of another format; files in the wrong order are told by what they hold.
    """
    if document.get("format") == wanted:
        return
    kind = kind_of(document)
    if kind is not None:
        raise InputError(f"the file holds {kind}, not {_KINDS[wanted]}: {first}", "format")
    raise InputError(f'format must be "{wanted}"', "format")


def parse_object(text: str) -> dict[str, object]:
    """The one JSON object in a text.

    Raises:
        InputError: if the text is not JSON, names a field twice, holds NaN or Infinity, or is no object.
    """
    try:
        document: object = json.loads(text, object_pairs_hook=_without_repeats, parse_constant=_refuse_constant)
    except InputError:
        raise
    except json.JSONDecodeError as error:
        raise InputError(syntax_fault(error), "file") from error
    except (ValueError, RecursionError) as error:
        message = "the file is not usable JSON: a number is too long or it is nested too deep"
        raise InputError(message, "file") from error
    if not isinstance(document, dict):
        raise InputError("the file must hold named values in braces { }", "file")
    return document


def _without_repeats(pairs: list[tuple[str, object]]) -> dict[str, object]:
    fields = dict(pairs)
    if len(fields) < len(pairs):
        names = [name for name, _ in pairs]
        twice = next(name for name in names if names.count(name) > 1)
        raise InputError(f"{quoted(twice)} stands twice in the file: keep one", quoted(twice))
    return fields


def _refuse_constant(name: str) -> object:
    raise InputError(f"the file holds {name}, which is not a number: give a length in figures", "file")
