"""Requests for the lays of a design, cloth by cloth, for its order of work and its sign-off page."""

from typing import Final

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from panelwright.app.board_piece import Document
from panelwright.app.lay_search import USUAL_SECONDS
from panelwright.app.workroom_paper import workroom_lays, workroom_order, workroom_sign_off
from panelwright.errors import InputError
from panelwright.json_text import parse_object
from panelwright.web.address_number import COUNT
from panelwright.web.answers import answer, told
from panelwright.web.body import MOST_DOCUMENT, read_bytes
from panelwright.web.picture_requests import SVG, asked_of, is_named, paper_choice
from panelwright.web.studio import Studio

MOST_SECONDS: Final = 600.0


def paper_routes(studio: Studio) -> list[BaseRoute]:
    """The routes of lays, order of work and sign-off page, with `?wearer=REF`."""
    garments, searches = studio.garments, studio.searches

    async def lays(request: Request) -> Response:
        (design, wearer), unit = asked_of(request), paper_choice(request).unit
        return answer(await studio.on_paper(lambda: workroom_lays(garments, searches, design, wearer, unit).document()))

    async def lay(request: Request) -> Response:
        (design, wearer), unit = asked_of(request), paper_choice(request).unit
        number = request.path_params["number"]
        drawn = await studio.on_paper(lambda: workroom_lays(garments, searches, design, wearer, unit).picture(number))
        return Response(drawn, media_type=SVG)

    async def search(request: Request) -> Response:
        (design, wearer), unit = asked_of(request), paper_choice(request).unit
        number = request.path_params["number"]
        seconds = given_seconds(await read_bytes(request, MOST_DOCUMENT)) if request.method == "POST" else None

        def work() -> Document:
            if seconds is not None:
                workroom_lays(garments, searches, design, wearer, unit).look(number, searches, seconds)
            elif request.method == "DELETE":
                searches.stop()
            return workroom_lays(garments, searches, design, wearer, unit).laid(number)

        return answer(await studio.on_paper(work))

    async def hand(request: Request) -> Response:
        (design, wearer), unit = asked_of(request), paper_choice(request).unit
        number, body = request.path_params["number"], await read_bytes(request, MOST_DOCUMENT)

        def work() -> Document:
            lays = workroom_lays(garments, searches, design, wearer, unit)
            if request.method == "DELETE":
                lays.begin_anew(number, studio.hands)
            own = lays.by_hand(number, studio.hands, moving=request.method == "PUT")
            if request.method == "PUT":
                own.put(body.decode(errors="replace"))
            return own.document()

        return answer(await studio.on_paper(work))

    async def sign_off(request: Request) -> Response:
        (design, wearer), choice = asked_of(request), paper_choice(request)
        page = await studio.on_paper(lambda: workroom_sign_off(garments, searches, design, wearer, choice))
        return _pdf(page, f"{design}-{wearer}-sign-off-private.pdf")

    async def order(request: Request) -> Response:
        (design, wearer), choice, named = asked_of(request), paper_choice(request), is_named(request)
        pages = await studio.on_paper(lambda: workroom_order(garments, design, wearer, choice, named))
        return _pdf(pages, f"{design}-{wearer}-order-of-work.pdf" if named else f"{design}-order-of-work.pdf")

    return [
        Route("/api/designs/{ref:str}/lays", told(lays)),
        Route(f"/api/designs/{{ref:str}}/lays/{{number:{COUNT}}}.svg", told(lay)),
        Route(
            f"/api/designs/{{ref:str}}/lays/{{number:{COUNT}}}/search",
            told(search),
            methods=["GET", "POST", "DELETE"],
        ),
        Route(f"/api/designs/{{ref:str}}/lays/{{number:{COUNT}}}/hand", told(hand), methods=["GET", "PUT", "DELETE"]),
        Route("/api/designs/{ref:str}/order-of-work.pdf", told(order)),
        Route("/api/designs/{ref:str}/sign-off.pdf", told(sign_off)),
    ]


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


def _pdf(pages: bytes, name: str) -> Response:
    return Response(pages, media_type="application/pdf", headers={"Content-Disposition": f'inline; filename="{name}"'})
