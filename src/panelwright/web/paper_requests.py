"""Requests for the lays of a design, cloth by cloth, for its order of work and its sign-off page."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from panelwright.app.workroom_paper import workroom_lays, workroom_order, workroom_sign_off
from panelwright.web.address_number import COUNT
from panelwright.web.answers import answer, told
from panelwright.web.picture_requests import SVG, asked_of, is_named, paper_choice
from panelwright.web.studio import Studio


def paper_routes(studio: Studio) -> list[BaseRoute]:
    """The routes of lays, order of work and sign-off page, with `?wearer=REF`."""
    garments = studio.garments

    async def lays(request: Request) -> Response:
        (design, wearer), unit = asked_of(request), paper_choice(request).unit
        return answer(await studio.on_paper(lambda: workroom_lays(garments, design, wearer, unit).document()))

    async def lay(request: Request) -> Response:
        (design, wearer), unit = asked_of(request), paper_choice(request).unit
        number = request.path_params["number"]
        drawn = await studio.on_paper(lambda: workroom_lays(garments, design, wearer, unit).picture(number))
        return Response(drawn, media_type=SVG)

    async def sign_off(request: Request) -> Response:
        (design, wearer), choice = asked_of(request), paper_choice(request)
        page = await studio.on_paper(lambda: workroom_sign_off(garments, design, wearer, choice))
        return _pdf(page, f"{design}-{wearer}-sign-off-private.pdf")

    async def order(request: Request) -> Response:
        (design, wearer), choice, named = asked_of(request), paper_choice(request), is_named(request)
        pages = await studio.on_paper(lambda: workroom_order(garments, design, wearer, choice, named))
        return _pdf(pages, f"{design}-{wearer}-order-of-work.pdf" if named else f"{design}-order-of-work.pdf")

    return [
        Route("/api/designs/{ref:str}/lays", told(lays)),
        Route(f"/api/designs/{{ref:str}}/lays/{{number:{COUNT}}}.svg", told(lay)),
        Route("/api/designs/{ref:str}/order-of-work.pdf", told(order)),
        Route("/api/designs/{ref:str}/sign-off.pdf", told(sign_off)),
    ]


def _pdf(pages: bytes, name: str) -> Response:
    return Response(pages, media_type="application/pdf", headers={"Content-Disposition": f'inline; filename="{name}"'})
