"""Requests for the fitting notes of a wearer beside a design."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from panelwright.app.wearer_fitting import fitting_facts
from panelwright.web.answers import answer, told
from panelwright.web.picture_requests import paper_choice
from panelwright.web.studio import Studio


def fitting_routes(studio: Studio) -> list[BaseRoute]:
    """The route of `/api/designs/REF/fitting?wearer=REF`."""

    async def notes(request: Request) -> Response:
        ref, wearer = request.path_params["ref"], request.query_params.get("wearer", "")
        unit = paper_choice(request).unit
        return answer(await studio.in_store(lambda: fitting_facts(studio.room, wearer, ref, unit)))

    return [Route("/api/designs/{ref:str}/fitting", told(notes))]
