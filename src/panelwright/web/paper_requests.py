"""Requests for the lays of a design, its order of work and its sign-off page, to print."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from panelwright.app.workroom_paper import workroom_lay_sheets, workroom_order, workroom_sign_off
from panelwright.web.answers import pdf, told
from panelwright.web.picture_requests import asked_of, is_named, paper_choice
from panelwright.web.studio import Studio


def paper_routes(studio: Studio) -> list[BaseRoute]:
    """The routes of lays, order of work and sign-off page, with `?wearer=REF`."""
    garments, lays = studio.garments, studio.lays

    async def sign_off(request: Request) -> Response:
        (design, wearer), choice = asked_of(request), paper_choice(request)
        page = await studio.on_paper(lambda: workroom_sign_off(garments, lays, design, wearer, choice))
        return pdf(page, f"{design}-{wearer}-sign-off-private.pdf")

    async def laid(request: Request) -> Response:
        (design, wearer), choice, named = asked_of(request), paper_choice(request), is_named(request)
        pages = await studio.on_paper(lambda: workroom_lay_sheets(garments, lays, design, wearer, choice, named))
        return pdf(pages, f"{design}-{wearer if named else 'sheets'}-lays.pdf")

    async def order(request: Request) -> Response:
        (design, wearer), choice, named = asked_of(request), paper_choice(request), is_named(request)
        pages = await studio.on_paper(lambda: workroom_order(garments, design, wearer, choice, named))
        return pdf(pages, f"{design}-{wearer}-order-of-work.pdf" if named else f"{design}-order-of-work.pdf")

    return [
        Route("/api/designs/{ref:str}/lays.pdf", told(laid)),
        Route("/api/designs/{ref:str}/order-of-work.pdf", told(order)),
        Route("/api/designs/{ref:str}/sign-off.pdf", told(sign_off)),
    ]
