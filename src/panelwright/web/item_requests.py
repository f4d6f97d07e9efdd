"""Requests about the wearers, designs and traced blocks of the workroom."""

from collections.abc import Callable
from typing import Final

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from panelwright.app.workroom_item import (
    Item,
    found_item,
    redone_item,
    removed_item,
    saved_item,
    undone_item,
)
from panelwright.app.workroom_list import workroom_facts
from panelwright.store.version import Kind
from panelwright.store.workroom import Workroom
from panelwright.web.answers import Endpoint, answer, told
from panelwright.web.body import object_of, read_object, text_of, version_of
from panelwright.web.studio import Studio

# Lays are changed by searches and hands alone: `lay_requests`.
PLACES: Final[dict[Kind, str]] = {
    "wearer": "wearers",
    "design": "designs",
    "trace": "traces",
    "fitting": "fittings",
    "group": "groups",
}


def item_routes(studio: Studio) -> list[BaseRoute]:
    """The routes of `/api/workroom`, `/api/wearers`, `/api/designs`, `/api/traces`, `/api/fittings` and
    `/api/groups`."""
    routes: list[BaseRoute] = [Route("/api/workroom", told(_workroom(studio)))]
    for kind, place in PLACES.items():
        item, path = _ItemRequests(studio, kind), f"/api/{place}/{{ref:str}}"
        routes += [
            Route(path, told(item.get), methods=["GET"]),
            Route(path, told(item.put), methods=["PUT"]),
            Route(path, told(item.delete), methods=["DELETE"]),
            Route(f"{path}/undo", told(item.undo), methods=["POST"]),
            Route(f"{path}/redo", told(item.redo), methods=["POST"]),
        ]
    return routes


def _workroom(studio: Studio) -> Endpoint:
    async def get(_request: Request) -> Response:
        return answer(await studio.in_store(lambda: workroom_facts(studio.room)))

    return get


class _ItemRequests:
    """Requests about one item of a kind."""

    def __init__(self, studio: Studio, kind: Kind) -> None:
        self._studio, self._kind = studio, kind

    async def get(self, request: Request) -> Response:
        """The document and its version."""
        ref = request.path_params["ref"]
        item = await self._studio.in_store(lambda: found_item(self._studio.room, self._kind, ref))
        return answer(item.facts())

    async def put(self, request: Request) -> Response:
        """Save a version."""
        ref, fields = request.path_params["ref"], await read_object(request)
        document, what, based_on = object_of(fields, "document"), text_of(fields, "what"), version_of(fields)
        return await self._changed(
            ref, lambda: saved_item(self._studio.room, self._kind, ref, document, what, based_on)
        )

    async def delete(self, request: Request) -> Response:
        """Take it off the list."""
        ref = request.path_params["ref"]
        await self._studio.in_store(lambda: removed_item(self._studio.room, self._kind, ref))
        await self._studio.in_store(self._studio.garments.tidy_pictures)
        await self._studio.tell_of(self._kind, ref)
        if self._kind == "wearer":  # whose garments have left them
            await self._studio.tell_of("group", "")
        return Response(status_code=204)

    async def undo(self, request: Request) -> Response:
        """One version back."""
        return await self._move(request, undone_item)

    async def redo(self, request: Request) -> Response:
        """One version on."""
        return await self._move(request, redone_item)

    async def _move(self, request: Request, move: Callable[[Workroom, Kind, str], Item]) -> Response:
        ref = request.path_params["ref"]
        return await self._changed(ref, lambda: move(self._studio.room, self._kind, ref))

    async def _changed(self, ref: str, work: Callable[[], Item]) -> Response:
        item = await self._studio.in_store(work)
        await self._studio.tell_of(self._kind, ref)
        return answer(item.facts())
