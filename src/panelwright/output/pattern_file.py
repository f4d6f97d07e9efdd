"""Writing and reading `pattern.json`: the project's contract with the outside, docs/pattern-file.md.

save:  write_pattern(cutting, findings, Path("pattern.json"))
load:  read_pattern(Path("pattern.json"))
"""

import json
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from panelwright.errors import GeometryError, InputError, OutputError
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.json_fault import syntax_fault
from panelwright.json_text import kind_of, read_content
from panelwright.output.pattern_document import pattern_to_json
from panelwright.output.pattern_reading import cutting_pattern
from panelwright.output.pattern_record import PatternRecord
from panelwright.quotation import quoted
from panelwright.saved_file import save

__all__ = ["pattern_to_json", "read_pattern", "write_pattern"]

MOST_BYTES = 32_000_000  # a garment of a hundred pieces is some 5 MB
TOO_LARGE = "that is no pattern file"
SEE = "docs/pattern-file.md says what the file holds"


def write_pattern(cutting: CuttingPattern, findings: Iterable[Finding], path: Path) -> None:
    """Write a pattern file; it is there whole or not at all.

    Raises:
        OutputError: if it cannot be written, or the pattern holds a number that is not finite.
    """
    document = pattern_to_json(cutting, findings)
    try:
        text = json.dumps(document, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
    except ValueError as error:
        raise OutputError(
            f"{quoted(path.name)} is not written: the pattern holds a number that is not finite; check it first"
        ) from error
    save(path, text.encode())


def read_pattern(source: Path | bytes) -> CuttingPattern:
    """The cutting pattern in a pattern file or in its bytes; its findings are left: check it anew.

    What was written by `write_pattern` comes back equal. A file that holds the contract's own fields only
    can be read as well: see "Fields of ours" in docs/pattern-file.md for what is put in their place.

    Raises:
        InputError: if it cannot be read, is larger than 32 MB, is not of this format, or describes a
            pattern that cannot be; one sentence, with the file's name and the place in it.
    """
    name = "the pattern file" if isinstance(source, bytes) else quoted(source.name)
    content = source if isinstance(source, bytes) else read_content(source, MOST_BYTES, TOO_LARGE)
    if len(content) > MOST_BYTES:
        raise InputError(f"{name} is larger than {MOST_BYTES // 1_000_000} MB: {TOO_LARGE}", name)
    try:
        document = _document(content, name)
    except InputError:
        if isinstance(source, bytes) or b"{" in content[:10]:
            raise
        raise InputError(f"{name} is not a pattern: give the pattern.json beside it", name) from None
    _refuse_other_file(document, name)
    try:
        return cutting_pattern(PatternRecord.model_validate_json(json.dumps(document)))
    except ValidationError as error:
        raise InputError(f"{name}: {_sentence(error, document)}; {SEE}", name) from error
    except GeometryError as error:
        raise InputError(f"{name}: {error}", name) from error
    except InputError as error:
        raise InputError(f"{name}: {error}", error.where) from error


def _document(content: bytes, name: str) -> dict[str, Any]:
    """The file's JSON object: no field twice, no NaN."""

    def once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        fields = dict(pairs)
        if len(fields) < len(pairs):
            names = [field for field, _ in pairs]
            twice = next(field for field in names if names.count(field) > 1)
            raise InputError(f"{name}: {quoted(twice)} stands twice in one object: keep one", name)
        return fields

    def refuse(constant: str) -> float:
        raise InputError(f"{name} holds {constant}, which is not a number; {SEE}", name)

    try:
        document = json.loads(content.decode("utf-8-sig"), object_pairs_hook=once, parse_constant=refuse)
    except InputError:
        raise
    except UnicodeDecodeError as error:
        raise InputError(f"{name} is not text in UTF-8: save it as plain JSON", name) from error
    except json.JSONDecodeError as error:
        raise InputError(f"{name}: {syntax_fault(error)}", name) from error
    except (ValueError, RecursionError) as error:
        raise InputError(f"{name} is not usable JSON: a number is too long or it is nested too deep", name) from error
    if not isinstance(document, dict):
        raise InputError(f"{name} must hold one object in braces {{ }}; {SEE}", name)
    return document


def _refuse_other_file(document: dict[str, Any], name: str) -> None:
    """Refuse measurements and designs, and say how a pattern is made of them."""
    kind = kind_of(document)
    if kind in ("measurements", "a design"):
        make = "`panelwright make MEASUREMENTS.json DESIGN.json`"
        raise InputError(f"{name} holds {kind}: make a pattern first, with {make}", name)


def _sentence(error: ValidationError, document: Any) -> str:
    """The first fault as `pieces[1] (SF).grain is missing`."""
    fault = error.errors(include_url=False)[0]
    where, here = "", document
    for step in fault["loc"]:
        where += f"[{step}]" if isinstance(step, int) else f".{step}" if where else step
        here = _inside(here, step)
        if isinstance(step, int) and isinstance(here, dict) and isinstance(here.get("id"), str):
            where += f" ({quoted(here['id'])[1:-1]})"
    if fault["type"] == "missing":
        return f"{where} is missing"
    message = fault["msg"].replace("Input should", "should")
    return f"{where or 'the file'} {message[0].lower()}{message[1:]}"


def _inside(value: Any, step: int | str) -> Any:
    try:
        return value[step]
    except (KeyError, IndexError, TypeError):
        return None
