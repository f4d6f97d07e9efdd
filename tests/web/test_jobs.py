"""Long work of a server that ends."""

import asyncio
from threading import Event
from time import monotonic

from panelwright.app.progress import Progress
from panelwright.errors import CancelledError
from panelwright.store.workroom import Workroom
from panelwright.web.job import Job, Made
from panelwright.web.jobs import Jobs
from panelwright.web.studio import Studio

LONGEST_S = 60.0


def test_work_is_stopped_with_its_server(room: Workroom) -> None:
    """Its thread would keep the program from ending."""
    begun, stopped = Event(), Event()

    def work(progress: Progress) -> Made:
        begun.set()
        latest = monotonic() + LONGEST_S
        try:
            while monotonic() < latest:
                progress(0, 1, "turning")
        except CancelledError:
            stopped.set()
            raise
        return Made({}, {})

    async def server() -> Job:
        job = Jobs(Studio(room)).begin(work)
        await asyncio.to_thread(begun.wait, LONGEST_S)
        return job

    job = asyncio.run(server())
    assert stopped.wait(LONGEST_S)
    assert job.state == "stopped"
