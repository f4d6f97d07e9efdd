"""The long work of one server: begun, asked after, stopped; the last results are kept until somebody fetches them."""

import asyncio
from secrets import token_hex
from typing import Final

from panelwright.app.workroom_faults import NotThereError
from panelwright.errors import CancelledError, InputError
from panelwright.web.answers import sentence
from panelwright.web.job import Job, Work
from panelwright.web.studio import Studio

MOST_WAITING: Final = 4
KEPT: Final = 4


class Jobs:
    """Jobs by their ids. They are carried out one after another."""

    def __init__(self, studio: Studio) -> None:
        """None yet."""
        self._studio = studio
        self._jobs: dict[str, Job] = {}
        self._tasks: set[asyncio.Task[None]] = set()

    def begin(self, work: Work) -> Job:
        """Begin work; it is carried out as soon as its turn comes.

        Raises:
            InputError: if too much waits already.
        """
        if sum(not job.ended for job in self._jobs.values()) >= MOST_WAITING:
            raise InputError("too much is being made already: wait for it, or stop some of it", "job")
        for id in [id for id, job in self._jobs.items() if job.ended][: -KEPT + 1 or None]:
            del self._jobs[id]
        job = Job(token_hex(8), work)
        self._jobs[job.id] = job
        task = asyncio.get_running_loop().create_task(self._run(job))
        self._tasks.add(task)
        task.add_done_callback(self._tasks.discard)
        return job

    def job(self, id: str) -> Job:
        """The job of an id.

        Raises:
            NotThereError: if there is none, or its result was let go.
        """
        if id not in self._jobs:
            raise NotThereError("this is no longer kept: make it again", "job")
        return self._jobs[id]

    async def _run(self, job: Job) -> None:
        try:
            await self._studio.at_length(job.carry_out)
        except CancelledError:
            job.state = "stopped"
        except asyncio.CancelledError:  # the server ends, and would wait for the thread
            job.stop()
            raise
        except Exception as error:
            job.message, job.where = sentence(error)
            job.state = "refused"
