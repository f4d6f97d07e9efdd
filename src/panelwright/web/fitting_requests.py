"""Requests for the fitting notes of a wearer beside a design."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from panelwright.app.toile import FITTING, PRINTS
from panelwright.app.wearer_fitting import fitting_facts
from panelwright.errors import InputError
from panelwright.web.answers import answer, pdf, told
from panelwright.web.picture_requests import asked_of, is_named, paper_choice
from panelwright.web.studio import Studio


def fitting_routes(studio: Studio) -> list[BaseRoute]:
    """The routes of `/api/designs/REF/fitting` and `/api/designs/REF/toile.pdf`, both with `?wearer=REF`."""

    async def notes(request: Request) -> Response:
        ref, wearer = request.path_params["ref"], request.query_params.get("wearer", "")
        unit = paper_choice(request).unit
        return answer(await studio.in_store(lambda: fitting_facts(studio.room, wearer, ref, unit)))

    async def toile(request: Request) -> Response:
        (design, wearer), choice, named = asked_of(request), paper_choice(request), is_named(request)
        which = request.query_params.get("sheets", FITTING)
        if which not in PRINTS:
            raise InputError(f"sheets of a toile are one of {', '.join(PRINTS)}", "sheets")
        drawn = await studio.on_paper(lambda: studio.garments.toile_pdf(design, wearer, which, choice, named))
        name = f"{design}-{wearer if named else 'sheets'}-toile-{which}.pdf"
        return pdf(drawn, name)

    return [
        Route("/api/designs/{ref:str}/fitting", told(notes)),
        Route("/api/designs/{ref:str}/toile.pdf", told(toile)),
    ]
