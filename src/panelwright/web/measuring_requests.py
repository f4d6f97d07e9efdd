"""Requests for how a wearer is measured: a picture for each measurement, and a blank chart to print."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from panelwright.app.measuring_chart import TITLE, measuring_chart
from panelwright.app.measuring_picture import measuring_picture
from panelwright.app.sign_off import page_of
from panelwright.output.pdf import pdf_bytes
from panelwright.web.answers import pdf, told
from panelwright.web.picture_requests import SVG, paper_choice
from panelwright.web.studio import Studio


def measuring_routes(studio: Studio) -> list[BaseRoute]:
    """The routes of `/api/measurements/NAME.svg` and `/api/chart.pdf`."""

    async def picture(request: Request) -> Response:
        name = request.path_params["name"]
        # Not on paper: there it would wait behind the pictures of the start page.
        return Response(await studio.in_store(lambda: measuring_picture(name)), media_type=SVG)

    async def chart(request: Request) -> Response:
        choice = paper_choice(request)
        pages = await studio.on_paper(lambda: measuring_chart(choice.unit, page_of(choice.paper)))
        printed = await studio.on_paper(lambda: pdf_bytes(pages, TITLE))
        return pdf(printed, "measuring-chart.pdf")

    return [
        Route("/api/measurements/{name:str}.svg", told(picture)),
        Route("/api/chart.pdf", told(chart)),
    ]
