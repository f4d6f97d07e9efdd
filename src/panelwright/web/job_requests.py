"""Requests about long work: how far it is, its files, and to stop it."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from panelwright.app.workroom_faults import NotThereError
from panelwright.web.answers import PDF, answer, named_file, told
from panelwright.web.jobs import Jobs


def job_routes(jobs: Jobs) -> list[BaseRoute]:
    """The routes of `/api/jobs`."""

    async def look(request: Request) -> Response:
        return answer(jobs.job(request.path_params["id"]).facts())

    async def stop(request: Request) -> Response:
        jobs.job(request.path_params["id"]).stop()
        return Response(status_code=204)

    async def file(request: Request) -> Response:
        made, name = jobs.job(request.path_params["id"]).made, request.path_params["name"]
        if made is None or name not in made.files:
            raise NotThereError("this file is not made, or no longer kept: make it again", "job")
        content, media_type = made.files[name]
        return named_file(content, media_type, name, "attachment" if media_type == PDF else "inline")

    return [
        Route("/api/jobs/{id:str}", told(look), methods=["GET"]),
        Route("/api/jobs/{id:str}", told(stop), methods=["DELETE"]),
        Route("/api/jobs/{id:str}/files/{name:str}", told(file), methods=["GET"]),
    ]
