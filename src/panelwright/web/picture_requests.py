"""Requests for what is made of a design on a wearer: pictures, sheets, the walked seam, the worn garment."""

from datetime import date
from typing import Final

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from panelwright.app.paper import SCALES, PaperChoice, file_name
from panelwright.errors import InputError
from panelwright.web.address_number import COUNT
from panelwright.web.answers import answer, pdf, told
from panelwright.web.studio import Studio

SVG: Final = "image/svg+xml"
_DESIGN: Final = "/api/designs/{ref:str}"


def picture_routes(studio: Studio) -> list[BaseRoute]:
    """The routes below one design that need a wearer, all given as `?wearer=REF`."""
    asked = _PictureRequests(studio)
    return [
        Route(f"{_DESIGN}/picture.svg", told(asked.picture)),
        Route(f"{_DESIGN}/sheets", told(asked.sheets)),
        Route(f"{_DESIGN}/sheets/{{number:{COUNT}}}.svg", told(asked.sheet)),
        Route(f"{_DESIGN}/print.pdf", told(asked.print)),
        Route(f"{_DESIGN}/joined", told(asked.joined)),
        Route(f"{_DESIGN}/body", told(asked.body)),
    ]


class _PictureRequests:
    """They share the garments that are drawn already."""

    def __init__(self, studio: Studio) -> None:
        self._studio, self._garments = studio, studio.garments

    async def picture(self, request: Request) -> Response:
        """A small picture, with large names where it is asked for an audience."""
        design, wearer = asked_of(request)
        large = request.query_params.get("names") == "large"
        drawn = await self._studio.in_store(lambda: self._garments.kept_picture(design, wearer, large))
        if drawn is None:
            drawn = await self._studio.on_paper(lambda: self._garments.picture(design, wearer, large))
        return Response(drawn, media_type=SVG)

    async def sheets(self, request: Request) -> Response:
        """What sheets there are."""
        (design, wearer), choice, scale = asked_of(request), paper_choice(request), scale_of(request)
        named = is_named(request)
        sheets = await self._studio.on_paper(lambda: self._garments.sheets(design, wearer, scale, choice, named))
        facts = [
            {"number": number, "width": sheet.width, "height": sheet.height, "title": sheet.name}
            for number, sheet in enumerate(sheets, 1)
        ]
        return answer({"sheets": facts})

    async def sheet(self, request: Request) -> Response:
        """One sheet."""
        (design, wearer), choice, scale = asked_of(request), paper_choice(request), scale_of(request)
        number, named = request.path_params["number"], is_named(request)
        drawn = await self._studio.on_paper(lambda: self._garments.sheet(design, wearer, scale, choice, number, named))
        return Response(drawn, media_type=SVG)

    async def print(self, request: Request) -> Response:
        """All sheets of a scale."""
        (design, wearer), choice, scale = asked_of(request), paper_choice(request), scale_of(request)
        named = is_named(request)
        drawn = await self._studio.on_paper(lambda: self._garments.pdf(design, wearer, scale, choice, named))
        name = f"{design}-{wearer if named else 'sheets'}-{file_name(scale, choice.paper)}"
        return pdf(drawn, name)

    async def joined(self, request: Request) -> Response:
        """A seam walked."""
        (design, wearer), seam = asked_of(request), _query(request, "seam")
        return answer(await self._studio.on_paper(lambda: self._garments.joined(design, wearer, seam)))

    async def body(self, request: Request) -> Response:
        """The pieces on the wearer."""
        design, wearer = asked_of(request)
        return answer(await self._studio.on_paper(lambda: self._garments.body(design, wearer)))


def asked_of(request: Request) -> tuple[str, str]:
    """(design, wearer) of a request.

    Raises:
        InputError: if it names no wearer.
    """
    return request.path_params["ref"], _query(request, "wearer")


def _query(request: Request, name: str) -> str:
    value = request.query_params.get(name)
    if not value:
        raise InputError(f"the address needs ?{name}= with its id", name)
    return value


def scale_of(request: Request) -> str:
    """The scale that a request names, quarter scale where it names none.

    Raises:
        InputError: if it is none of `SCALES`.
    """
    scale = request.query_params.get("scale", "quarter")
    if scale not in SCALES:
        raise InputError(f"scale is one of {', '.join(SCALES)}", "scale")
    return scale


def is_named(request: Request) -> bool:
    """Whether sheets may say whom they are for: not with `?audience=1`."""
    return request.query_params.get("audience") != "1"


def paper_choice(request: Request) -> PaperChoice:
    """The paper and units that a request names; A4 and centimetres where it names none.

    Raises:
        InputError: if one of them is not known.
    """
    asked = request.query_params
    return PaperChoice.named(asked.get("paper", "a4"), asked.get("units", "cm"), made_on=date.today())
