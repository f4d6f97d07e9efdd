"""Requests for the versions of a wearer or design."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from panelwright.app.workroom_history import earlier_item, history_facts
from panelwright.store.version import Kind
from panelwright.web.address_number import COUNT
from panelwright.web.answers import Endpoint, answer, told
from panelwright.web.item_requests import PLACES
from panelwright.web.picture_requests import paper_choice
from panelwright.web.studio import Studio


def history_routes(studio: Studio) -> list[BaseRoute]:
    """The routes of `/api/wearers/REF/versions`, `/api/designs/REF/versions` and each of them by its number."""
    routes: list[BaseRoute] = []
    for kind, place in PLACES.items():
        path = f"/api/{place}/{{ref:str}}/versions"
        routes += [
            Route(path, told(_list(studio, kind)), methods=["GET"]),
            Route(f"{path}/{{number:{COUNT}}}", told(_one(studio, kind)), methods=["GET"]),
        ]
    return routes


def _list(studio: Studio, kind: Kind) -> Endpoint:
    async def get(request: Request) -> Response:
        ref, unit = request.path_params["ref"], paper_choice(request).unit
        return answer(await studio.in_store(lambda: history_facts(studio.room, kind, ref, unit)))

    return get


def _one(studio: Studio, kind: Kind) -> Endpoint:
    async def get(request: Request) -> Response:
        ref, number = request.path_params["ref"], request.path_params["number"]
        item = await studio.in_store(lambda: earlier_item(studio.room, kind, ref, number))
        return answer({"document": item.document, "version": item.version})

    return get
