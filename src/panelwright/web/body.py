"""Bodies of requests, read up to a limit."""

from typing import Final

from starlette.requests import Request

from panelwright.errors import InputError
from panelwright.json_text import parse_object
from panelwright.store.change import NONE_YET

MOST_DOCUMENT: Final = 1_000_000


async def read_bytes(request: Request, most: int, remedy: str = "send a document of one garment") -> bytes:
    """The body.

    Raises:
        InputError: if it is larger than `most` bytes; no more than that is kept.
    """
    parts: list[bytes] = []
    size = 0
    async for part in request.stream():
        size += len(part)
        if size > most:
            raise InputError(f"what was sent is larger than {most / 1e6:g} MB: {remedy}", "body")
        parts.append(part)
    return b"".join(parts)


async def read_object(request: Request) -> dict[str, object]:
    """The one JSON object that a body of at most 1 MB holds.

    Raises:
        InputError: if it is larger, no text, or no JSON object.
    """
    return as_object(await read_bytes(request, MOST_DOCUMENT))


def as_object(content: bytes | str) -> dict[str, object]:
    """The one JSON object in a text.

    Raises:
        InputError: if it is no text, no JSON, names a field twice or holds NaN.
    """
    try:
        text = content.decode("utf-8-sig") if isinstance(content, bytes) else content
    except UnicodeDecodeError as error:
        raise InputError("what was sent is not text in UTF-8: send plain JSON", "body") from error
    return parse_object(text)


def text_of(fields: dict[str, object], name: str) -> str:
    """A text field.

    Raises:
        InputError: if it is missing or no text.
    """
    value = fields.get(name)
    if not isinstance(value, str):
        raise InputError(f"{name} must be a text in quotes", name)
    return value


def object_of(fields: dict[str, object], name: str) -> dict[str, object]:
    """A field that holds named values.

    Raises:
        InputError: if it is missing or holds something else.
    """
    value = fields.get(name)
    if not isinstance(value, dict):
        raise InputError(f"{name} must hold named values in braces {{ }}", name)
    return value


def version_of(fields: dict[str, object]) -> int | None:
    """The number in `based_on`; None where there is no such field, and `NONE_YET` where it is null.

    Raises:
        InputError: if it is neither null nor a whole number.
    """
    if "based_on" not in fields:
        return None
    value = fields["based_on"]
    if value is None:
        return NONE_YET
    if isinstance(value, int) and not isinstance(value, bool) and NONE_YET < value < 2**63:
        return value
    raise InputError("based_on must be the number of a version, or null where there is none yet", "based_on")
