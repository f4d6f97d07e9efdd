"""Requests for the lays of a design, cloth by cloth: told, drawn, looked for, moved by hand."""

from collections.abc import Callable
from typing import Final

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from panelwright.app.board_piece import Document
from panelwright.app.lay_search import USUAL_SECONDS
from panelwright.app.workroom_item import lay_ref
from panelwright.app.workroom_lays import LayAsked
from panelwright.errors import InputError
from panelwright.json_text import parse_object
from panelwright.web.address_number import COUNT
from panelwright.web.answers import answer, told
from panelwright.web.body import MOST_DOCUMENT, read_bytes
from panelwright.web.picture_requests import SVG, asked_of, paper_choice
from panelwright.web.studio import Studio

MOST_SECONDS: Final = 600.0


def lay_routes(studio: Studio) -> list[BaseRoute]:
    """The routes of `/api/designs/REF/lays`, with `?wearer=REF`."""
    own = _LayRequests(studio)
    one = f"/api/designs/{{ref:str}}/lays/{{number:{COUNT}}}"
    return [
        Route("/api/designs/{ref:str}/lays", told(own.lays)),
        Route(f"{one}.svg", told(own.picture)),
        Route(f"{one}/search", told(own.search), methods=["GET", "POST", "DELETE"]),
        Route(f"{one}/hand", told(own.hand), methods=["GET", "POST", "DELETE"]),
        Route(f"{one}/hand/undo", told(own.undo), methods=["POST"]),
        Route(f"{one}/hand/redo", told(own.redo), methods=["POST"]),
        Route(f"{one}/earlier", told(own.forget_earlier), methods=["DELETE"]),
    ]


class _LayRequests:
    """One method for each address."""

    def __init__(self, studio: Studio) -> None:
        self._studio, self._lays = studio, studio.lays

    async def lays(self, request: Request) -> Response:
        """All lays, and what is too wide for its cloth."""
        asked = _asked(request)
        return answer(await self._studio.on_paper(lambda: self._lays.of(asked).document()))

    async def picture(self, request: Request) -> Response:
        """One lay, drawn."""
        asked = _asked(request)
        drawn = await self._studio.on_paper(lambda: self._lays.of(asked).picture(asked.number))
        return Response(drawn, media_type=SVG)

    async def search(self, request: Request) -> Response:
        """One lay, while a shorter one is looked for."""
        asked = _asked(request)
        if request.method == "POST":
            seconds = given_seconds(await read_bytes(request, MOST_DOCUMENT))
            return await self._changed(asked, lambda: self._lays.look(asked, seconds))
        if request.method == "DELETE":
            self._lays.stop()
        return answer(await self._studio.on_paper(lambda: self._lays.of(asked).laid(asked.number)))

    async def hand(self, request: Request) -> Response:
        """One lay, as a hand has moved its pieces."""
        asked, body = _asked(request), await read_bytes(request, MOST_DOCUMENT)
        if request.method == "POST":
            return await self._changed(asked, lambda: self._lays.move(asked, body.decode(errors="replace")))
        if request.method == "DELETE":
            return await self._changed(asked, lambda: self._lays.begin_anew(asked))
        return answer(await self._studio.on_paper(lambda: self._lays.by_hand(asked)))

    async def undo(self, request: Request) -> Response:
        """The last move taken back."""
        asked = _asked(request)
        return await self._changed(asked, lambda: self._lays.undo(asked))

    async def redo(self, request: Request) -> Response:
        """The move made again that was last taken back."""
        asked = _asked(request)
        return await self._changed(asked, lambda: self._lays.redo(asked))

    async def forget_earlier(self, request: Request) -> Response:
        """What was kept for an earlier state is let go."""
        asked = _asked(request)
        return await self._changed(asked, lambda: self._lays.forget_earlier(asked))

    async def _changed(self, asked: LayAsked, work: Callable[[], Document]) -> Response:
        """Do what changes a lay, and tell every page that shows the garment."""
        document = await self._studio.on_paper(work)
        await self._studio.tell_of("lay", lay_ref(asked.design, asked.wearer))
        return answer(document)


def _asked(request: Request) -> LayAsked:
    """Which lay a request asks for.

    Raises:
        InputError: if it names no wearer or no such unit.
    """
    design, wearer = asked_of(request)
    return LayAsked(design, wearer, paper_choice(request).unit, request.path_params.get("number", 1))


def given_seconds(body: bytes) -> float:
    """How long to look, from the body of a request: `{"seconds": 60}`; a minute where it is empty.

    Raises:
        InputError: if it holds anything else.
    """
    given = parse_object(body.decode(errors="replace")) if body else {}
    seconds = given.get("seconds", USUAL_SECONDS)
    if isinstance(seconds, bool) or not isinstance(seconds, int | float) or not 0 < seconds <= MOST_SECONDS:
        raise InputError(f"a search on the page takes more than 0 and at most {MOST_SECONDS:g} seconds", "seconds")
    return float(seconds)
