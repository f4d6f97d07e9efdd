"""Requests for the lays of a design, cloth by cloth: told, drawn, looked for, moved by hand."""

from collections.abc import Callable
from typing import Final

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from panelwright.app.board_piece import Document
from panelwright.app.cloth_lays import ClothLays
from panelwright.app.lay_search import USUAL_SECONDS
from panelwright.app.workroom_paper import workroom_lays
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
        Route(f"{one}/hand", told(own.hand), methods=["GET", "PUT", "DELETE"]),
    ]


class _LayRequests:
    """One method for each address."""

    def __init__(self, studio: Studio) -> None:
        self._studio = studio

    async def lays(self, request: Request) -> Response:
        """All lays, and what is too wide for its cloth."""
        made = self._lays(request)
        return answer(await self._studio.on_paper(lambda: made().document()))

    async def picture(self, request: Request) -> Response:
        """One lay, drawn."""
        made, number = self._lays(request), request.path_params["number"]
        return Response(await self._studio.on_paper(lambda: made().picture(number)), media_type=SVG)

    async def search(self, request: Request) -> Response:
        """One lay, while a shorter one is looked for."""
        made, number, searches = self._lays(request), request.path_params["number"], self._studio.searches
        seconds = given_seconds(await read_bytes(request, MOST_DOCUMENT)) if request.method == "POST" else None

        def work() -> Document:
            if seconds is not None:
                made().look(number, searches, seconds)
            elif request.method == "DELETE":
                searches.stop()
            return made().laid(number)

        return answer(await self._studio.on_paper(work))

    async def hand(self, request: Request) -> Response:
        """One lay, as a hand has moved its pieces."""
        made, number, hands = self._lays(request), request.path_params["number"], self._studio.hands
        body = await read_bytes(request, MOST_DOCUMENT)

        def work() -> Document:
            lays = made()
            if request.method == "DELETE":
                lays.begin_anew(number, hands)
            own = lays.by_hand(number, hands, moving=request.method == "PUT")
            if request.method == "PUT":
                own.put(body.decode(errors="replace"))
            return own.document()

        return answer(await self._studio.on_paper(work))

    def _lays(self, request: Request) -> Callable[[], ClothLays]:
        """How the lays that a request asks for are made; it refuses at once what names no wearer or no such unit."""
        (design, wearer), unit = asked_of(request), paper_choice(request).unit
        return lambda: workroom_lays(self._studio.garments, self._studio.searches, design, wearer, unit)


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
