"""The application: what is answered where."""

from pathlib import Path

from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Mount, Route, WebSocketRoute
from starlette.websockets import WebSocket

from panelwright.app.block_shelf import BlockShelf
from panelwright.app.picture_shelf import PictureShelf
from panelwright.store.workroom import Workroom
from panelwright.web.answers import refusal
from panelwright.web.board_socket import BoardSocket
from panelwright.web.careful import Careful
from panelwright.web.file_requests import file_routes
from panelwright.web.fitting_requests import fitting_routes
from panelwright.web.group_requests import group_routes
from panelwright.web.guard import Guard
from panelwright.web.hand_requests import hand_routes
from panelwright.web.history_requests import history_routes
from panelwright.web.item_requests import item_routes
from panelwright.web.job_requests import job_routes
from panelwright.web.jobs import Jobs
from panelwright.web.lay_requests import lay_routes
from panelwright.web.measurement_requests import measurement_routes
from panelwright.web.measuring_requests import measuring_routes
from panelwright.web.page_files import PAGE, PageFiles
from panelwright.web.paper_in_requests import paper_in_routes
from panelwright.web.paper_requests import paper_routes
from panelwright.web.picture_requests import picture_routes
from panelwright.web.studio import Studio
from panelwright.web.trace_requests import trace_routes


def create_application(
    room: Workroom, page: Path = PAGE, shelf: BlockShelf | None = None, pictures: PictureShelf | None = None
) -> Starlette:
    """The board of a workroom.

    Args:
        room: open; whoever opened it closes it.
        page: folder of the built page, which need not be there.
        shelf: blocks that were made before; an empty one when left out.
        pictures: small pictures that were made before; none are kept when left out.
    """
    studio = Studio(room, shelf or BlockShelf(), pictures or PictureShelf())
    jobs = Jobs(studio)

    async def board(socket: WebSocket) -> None:
        await BoardSocket(socket, studio).serve()

    return Starlette(
        routes=[
            *measurement_routes(studio),
            *measuring_routes(studio),
            *item_routes(studio),
            *history_routes(studio),
            *file_routes(studio),
            *picture_routes(studio),
            *lay_routes(studio),
            *paper_routes(studio),
            *trace_routes(studio),
            *fitting_routes(studio),
            *hand_routes(studio, jobs),
            *group_routes(studio, jobs),
            *job_routes(jobs),
            *paper_in_routes(studio, jobs),
            WebSocketRoute("/api/board", board),
            Route("/api/{rest:path}", _unknown, methods=["GET", "POST", "PUT", "PATCH", "DELETE"]),
            Mount("/", PageFiles(page)),
        ],
        middleware=[Middleware(Guard), Middleware(Careful)],
    )


async def _unknown(_request: Request) -> Response:
    return refusal(404, "the board answers nothing at this address; go back to its start page")
