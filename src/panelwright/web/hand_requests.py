"""Requests for sheets to draw a design by hand, for one learner or a class."""

from datetime import date

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from panelwright.app.paper import PaperChoice
from panelwright.app.progress import Progress
from panelwright.app.workroom_hand import HandAsked, workroom_hand
from panelwright.errors import InputError
from panelwright.web.answers import PDF, answer, told
from panelwright.web.body import read_object, text_of
from panelwright.web.job import Made
from panelwright.web.jobs import Jobs
from panelwright.web.studio import Studio


def hand_routes(studio: Studio, jobs: Jobs) -> list[BaseRoute]:
    """The route that begins the work; how far it is, is asked of `/api/jobs`."""

    async def begin(request: Request) -> Response:
        asked = _asked(request.path_params["ref"], await read_object(request))

        def work(progress: Progress) -> Made:
            pages, count = workroom_hand(studio.room, studio.garments, asked, progress)
            return Made({"pages": count}, {asked.file_name: (pages, PDF)})

        return answer(jobs.begin(work).facts(), 202)

    return [Route("/api/designs/{ref:str}/hand", told(begin), methods=["POST"])]


def _asked(design: str, fields: dict[str, object]) -> HandAsked:
    paper, units = (text_of({name: usual, **fields}, name) for name, usual in (("paper", "a4"), ("units", "cm")))
    return HandAsked(
        design,
        text_of(fields, "wearer"),
        PaperChoice.named(paper, units, made_on=date.today()),
        named=fields.get("audience") is not True,
        learners=_count(fields, "learners", None),
        spares=_count(fields, "spares", 0) or 0,
        wearers=_names(fields, "wearers"),
    )


def _names(fields: dict[str, object], name: str) -> tuple[str, ...]:
    value = fields.get(name, [])
    if not isinstance(value, list) or not all(isinstance(each, str) for each in value):
        raise InputError(f"{name} must be a list of references", name)
    return tuple(value)


def _count(fields: dict[str, object], name: str, usual: int | None) -> int | None:
    value = fields.get(name, usual)
    if value is not None and (isinstance(value, bool) or not isinstance(value, int)):
        raise InputError(f"{name} must be a whole number", name)
    return value
