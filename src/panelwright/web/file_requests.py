"""Requests for everything as plain files, and for bringing such files in."""

from datetime import UTC, datetime

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from panelwright.app.plain_zip import MOST_ZIP
from panelwright.app.workroom_export import export_zip
from panelwright.app.workroom_import import bring_in
from panelwright.web.answers import answer, named_file, told
from panelwright.web.body import read_bytes
from panelwright.web.studio import Studio


def file_routes(studio: Studio) -> list[BaseRoute]:
    """The routes of `/api/export` and `/api/import`."""

    async def export(request: Request) -> Response:
        names = request.query_params.get("names") == "1"
        content = await studio.in_store(lambda: export_zip(studio.room, names))
        return named_file(content, "application/zip", f"panelwright-{datetime.now(UTC):%Y-%m-%d}.zip", "attachment")

    async def bring(request: Request) -> Response:
        content = await read_bytes(request, MOST_ZIP, "send fewer files at a time")
        imported = await studio.in_store(lambda: bring_in(studio.room, content))
        for kind, ref in imported.saved:
            await studio.tell_of(kind, ref)
        return answer(imported.facts())

    return [
        Route("/api/export", told(export), methods=["GET"]),
        Route("/api/import", told(bring), methods=["POST"]),
    ]
