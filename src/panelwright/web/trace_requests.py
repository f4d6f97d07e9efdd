"""Requests for what a traced block becomes: its table of points, the checked and trued pieces, sheets."""

from collections.abc import Callable

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from panelwright.app.own_block import OwnBlock
from panelwright.app.paper import file_name
from panelwright.app.trace_file import read_trace
from panelwright.app.trace_record import TraceRecord
from panelwright.app.traced_block import own_block_of, table_text, traced_facts, traced_pdf
from panelwright.app.workroom_item import found_item
from panelwright.web.answers import answer, named_file, pdf, told
from panelwright.web.picture_requests import paper_choice, scale_of
from panelwright.web.studio import Studio

_TRACE = "/api/traces/{ref:str}"


def trace_routes(studio: Studio) -> list[BaseRoute]:
    """The routes below one traced block; `?wearer=REF` and `true=1` where it is checked or printed."""

    def asked(request: Request) -> Callable[[], tuple[TraceRecord, OwnBlock]]:
        ref, wearer, unit = request.path_params["ref"], request.query_params.get("wearer"), paper_choice(request).unit
        true = request.query_params.get("true") == "1"

        def made() -> tuple[TraceRecord, OwnBlock]:
            trace = read_trace(found_item(studio.room, "trace", ref).text)
            worn_by = found_item(studio.room, "wearer", wearer).text if wearer else None
            return trace, own_block_of(trace, worn_by, true, unit)

        return made

    async def table(request: Request) -> Response:
        ref = request.path_params["ref"]
        text = await studio.in_store(lambda: table_text(found_item(studio.room, "trace", ref).text))
        return named_file(text.encode(), "application/json", f"{ref}.json", "attachment")

    async def own(request: Request) -> Response:
        made = asked(request)
        # Not on paper: there it would wait behind the pictures of the start page.
        return answer(await studio.by_hand(lambda: traced_facts(*made())))

    async def print(request: Request) -> Response:
        made, choice, scale = asked(request), paper_choice(request), scale_of(request)
        pages = await studio.on_paper(lambda: traced_pdf(made()[1], scale, choice))
        return pdf(pages, f"{request.path_params['ref']}-{file_name(scale, choice.paper)}")

    return [
        Route(f"{_TRACE}/table.json", told(table)),
        Route(f"{_TRACE}/own", told(own)),
        Route(f"{_TRACE}/print.pdf", told(print)),
    ]
