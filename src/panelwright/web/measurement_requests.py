"""Requests about words and measurements that need no saved work."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from panelwright.app.plausible import checked_measurements
from panelwright.app.vocabulary import vocabulary
from panelwright.web.answers import answer, told
from panelwright.web.body import read_object
from panelwright.web.studio import Studio


def measurement_routes(studio: Studio) -> list[BaseRoute]:
    """The routes of `/api/vocabulary` and `/api/wearers/check`."""

    async def words(_request: Request) -> Response:
        return answer(await studio.in_store(vocabulary))

    async def check(request: Request) -> Response:
        document = await read_object(request)
        return answer(await studio.in_store(lambda: checked_measurements(document)))

    return [
        Route("/api/vocabulary", told(words)),
        Route("/api/wearers/check", told(check), methods=["POST"]),
    ]
