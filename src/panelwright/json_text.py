"""JSON that a person may have written: read whole or refused, with the name of the file in the sentence."""

import json
from pathlib import Path
from typing import Final

from panelwright.errors import InputError
from panelwright.quotation import quoted

MOST_BYTES: Final = 1_000_000


def read_text(path: Path, wanted: str) -> str:
    """The text of a file in UTF-8, of at most 1 MB; `wanted` says in a refusal what should have been given.

    Raises:
        InputError: if it cannot be read, is no text, or is larger than 1 MB.
    """
    name = quoted(path.name or str(path))
    try:
        with path.open("rb") as file:
            content = file.read(MOST_BYTES + 1)
    except OSError as error:
        raise InputError(f"{name} cannot be read: {error.strerror or 'no such file'}", name) from error
    except ValueError as error:  # a null character in the path
        raise InputError(f"{name} is not the name of a file", name) from error
    if len(content) > MOST_BYTES:
        raise InputError(f"{name} is larger than {MOST_BYTES / 1e6:g} MB: {wanted}", name)
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise InputError(f"{name} is not text in UTF-8: save it as plain JSON", name) from error


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
        place = f"line {error.lineno}, column {error.colno}"
        raise InputError(f"the file is not JSON: {error.msg.lower()} in {place}", "file") from error
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
