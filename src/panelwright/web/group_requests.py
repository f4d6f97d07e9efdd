"""Requests for garments of the workroom to be bought and cut together."""

from datetime import date

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from panelwright.app.group_asked import group_asked
from panelwright.app.group_facts import GroupFacts
from panelwright.app.paper import PaperChoice
from panelwright.app.progress import Progress
from panelwright.app.workroom_group import workroom_group
from panelwright.web.answers import answer, told
from panelwright.web.body import read_object, text_of
from panelwright.web.job import Made
from panelwright.web.jobs import Jobs
from panelwright.web.studio import Studio


def group_routes(studio: Studio, jobs: Jobs) -> list[BaseRoute]:
    """The route that begins the work; how far it is, is asked of `/api/jobs`."""

    async def begin(request: Request) -> Response:
        fields = await read_object(request)
        choice = _choice(fields)
        asked = group_asked({name: value for name, value in fields.items() if name not in ("paper", "units")})

        def work(progress: Progress) -> Made:
            facts = GroupFacts(workroom_group(studio.room, studio.garments, asked, choice.unit, progress), choice)
            return Made(facts.document(), facts.files())

        return answer(jobs.begin(work).facts(), 202)

    return [Route("/api/group", told(begin), methods=["POST"])]


def _choice(fields: dict[str, object]) -> PaperChoice:
    paper, units = (text_of({name: usual, **fields}, name) for name, usual in (("paper", "a4"), ("units", "cm")))
    return PaperChoice.named(paper, units, made_on=date.today())
