"""Requests with a photo or file of paper pieces, read or reviewed; and the reference sheet that photos need."""

import math
from typing import Final

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from panelwright.app.paper_reading import PaperAnswers
from panelwright.app.photo_trace import photo_trace
from panelwright.app.progress import Progress
from panelwright.app.sign_off import page_of
from panelwright.app.workroom_item import found_item
from panelwright.app.workroom_review import Learners, workroom_review
from panelwright.drawing.reference_sheet import TITLE, reference_sheet
from panelwright.errors import InputError
from panelwright.intake.drawing_limits import MOST_BYTES
from panelwright.output.pdf import pdf_bytes
from panelwright.web.answers import PDF, answer, pdf, told
from panelwright.web.body import read_bytes
from panelwright.web.job import Made
from panelwright.web.jobs import Jobs
from panelwright.web.picture_requests import SVG, asked_of, paper_choice
from panelwright.web.studio import Studio

SMALLER: Final = "send one photo, or the pattern's pieces alone"
PICTURE: Final = "table.png"
FEEDBACK: Final = "feedback.pdf"
SHEET: Final = "reference-sheet.pdf"
LONGEST_NAME: Final = 120
_SCALES: Final = {"quarter": 4.0, "full": 1.0}
_MOST: Final = {"allowance_mm": 60.0, "square_mm": 200.0}


def paper_in_routes(studio: Studio, jobs: Jobs) -> list[BaseRoute]:
    """The route of `/api/reference-sheet.pdf`, and those that begin work; how far it is, is asked of `/api/jobs`."""

    async def sheet(request: Request) -> Response:
        choice = paper_choice(request)
        paper = page_of(choice.paper).name
        page = await studio.on_paper(lambda: pdf_bytes([reference_sheet(paper)], TITLE, choice.made_on))
        return pdf(page, SHEET)

    async def photo(request: Request) -> Response:
        ref, square = request.path_params["ref"], _number(request, "square_mm")
        await studio.in_store(lambda: found_item(studio.room, "trace", ref))
        content = await read_bytes(request, MOST_BYTES, SMALLER)

        def work(progress: Progress) -> Made:
            progress(0, 1, "the photo")
            read = photo_trace(content, square)
            return Made({"trace": read.trace, "doubts": list(read.doubts)}, {PICTURE: (read.picture, "image/png")})

        return answer(jobs.begin(work).facts(), 202)

    async def review(request: Request) -> Response:
        (design, wearer), choice = asked_of(request), paper_choice(request)
        name = request.query_params.get("name", "")[:LONGEST_NAME] or "the file"
        learners = Learners(name, await read_bytes(request, MOST_BYTES, SMALLER), _answers(request))

        def work(progress: Progress) -> Made:
            made = workroom_review(studio.garments, design, wearer, choice, learners, progress)
            pages = {f"page-{k}.svg": (page.encode(), SVG) for k, page in enumerate(made.pages, 1)}
            return Made(made.facts, {FEEDBACK: (made.pdf, PDF), **pages})

        return answer(jobs.begin(work).facts(), 202)

    return [
        Route(f"/api/{SHEET}", told(sheet)),
        Route("/api/traces/{ref:str}/photo", told(photo), methods=["POST"]),
        Route("/api/designs/{ref:str}/review", told(review), methods=["POST"]),
    ]


def _answers(request: Request) -> PaperAnswers:
    scale = request.query_params.get("scale")
    if scale is not None and scale not in _SCALES:
        raise InputError(f"scale is one of {', '.join(_SCALES)}", "scale")
    centimetre = request.query_params.get("centimetre")
    if centimetre not in (None, "garment", "paper"):
        raise InputError("centimetre is garment or paper", "centimetre")
    return PaperAnswers(
        scale=_SCALES[scale] if scale else None,
        allowance=_number(request, "allowance_mm"),
        centimetre="paper" if centimetre == "paper" else "garment" if centimetre else None,
        square=_number(request, "square_mm"),
    )


def _number(request: Request, name: str) -> float | None:
    text = request.query_params.get(name)
    if text is None:
        return None
    try:
        value = float(text)
    except ValueError:
        value = math.nan
    if not 0.0 <= value <= _MOST[name]:
        raise InputError(f"{name} is 0 to {_MOST[name]:g} mm", name)
    return value
