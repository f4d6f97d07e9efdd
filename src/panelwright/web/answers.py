"""Answers as JSON, and what becomes of errors: one sentence for the page, no measurement for any log."""

import json
import sys
from collections.abc import Awaitable, Callable
from typing import Final, Literal

from starlette.requests import Request
from starlette.responses import Response

from panelwright.app.our_fault import our_fault
from panelwright.app.workroom_faults import ChangedElsewhereError, NotThereError
from panelwright.errors import InputError, PanelwrightError
from panelwright.file_words import without_file_words

PDF: Final = "application/pdf"
Endpoint = Callable[[Request], Awaitable[Response]]


def answer(facts: object, status: int = 200, headers: dict[str, str] | None = None) -> Response:
    """`facts` as JSON."""
    return Response(json_text(facts), status, headers, "application/json")


def pdf(pages: bytes, name: str) -> Response:
    """Pages that a browser shows, under the name that they are saved by."""
    return named_file(pages, PDF, name, "inline")


def named_file(content: bytes, media_type: str, name: str, how: Literal["inline", "attachment"]) -> Response:
    """A file that a browser shows, or saves at once as an attachment."""
    return Response(content, media_type=media_type, headers={"Content-Disposition": f'{how}; filename="{name}"'})


def json_text(facts: object) -> str:
    """Compact JSON; a number that is not finite is an error of ours."""
    return json.dumps(facts, ensure_ascii=False, allow_nan=False, separators=(",", ":"))


def refusal(status: int, message: str, where: str = "") -> Response:
    """A refusal: one sentence and the field that it is about."""
    return answer({"message": message, "where": where}, status)


def told(endpoint: Endpoint) -> Endpoint:
    """The endpoint with every error turned into a refusal."""

    async def careful(request: Request) -> Response:
        try:
            return await endpoint(request)
        except Exception as error:
            return refused(error)

    return careful


def refused(error: Exception) -> Response:
    """The refusal for an error."""
    return refusal(_status(error), *sentence(error))


def sentence(error: Exception) -> tuple[str, str]:
    """(one sentence, the field that it is about); a fault of our own is told on standard error, without its words."""
    if isinstance(error, PanelwrightError):
        return without_file_words(str(error)), error.where if isinstance(error, InputError) else ""
    told_of = our_fault(error)
    sys.stderr.write(f"panelwright: {told_of}\n")
    return told_of, ""


def _status(error: Exception) -> int:
    match error:
        case NotThereError():
            return 404
        case ChangedElsewhereError():
            return 409
        case PanelwrightError():
            return 400
        case _:
            return 500
