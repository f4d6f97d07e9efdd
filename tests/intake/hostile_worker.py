"""Reads hostile files in a process of its own, with a limit on its memory and on the time for each file."""

import multiprocessing
import time
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass
from multiprocessing.connection import Connection

MOST_MEMORY = 1 << 30
# Of computing, so that a busy machine does not fail a file; and of waiting, after which a worker is ended.
MOST_SECONDS = 10.0
_TO_WAIT = 90.0


@dataclass(frozen=True)
class Outcome:
    """What came of a file: `read`, `refused`, or a fault, in words."""

    seed: int
    name: str
    what: str
    seconds: float
    said: str = ""

    @property
    def is_fault(self) -> bool:
        return self.what not in ("read", "refused")


def _work(pipe: Connection) -> None:
    import warnings

    from intake.hostile_drawing import hostile

    from panelwright.errors import InputError
    from panelwright.intake.drawing_file import read_drawing

    warnings.simplefilter("error")
    with suppress(ImportError):  # Windows has no such limit
        import resource

        resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))
    while (seed := pipe.recv()) is not None:
        name, content = hostile(seed)
        pipe.send(name)
        begun = time.process_time()
        what, said = "read", ""
        try:
            read_drawing(content, name)
        except InputError as error:
            what, said = "refused", str(error)
        except BaseException as error:  # any other is what is looked for
            what, said = type(error).__name__, str(error)[:300]
        del content
        pipe.send((what, said, time.process_time() - begun))


def read_all(seeds: Iterable[int]) -> list[Outcome]:
    """Read the files of some seeds; one that takes too long ends its worker, and the next file has a new one."""
    context = multiprocessing.get_context("spawn")
    outcomes: list[Outcome] = []
    worker, pipe = None, None
    for seed in seeds:
        if worker is None or pipe is None:
            pipe, other = context.Pipe()
            worker = context.Process(target=_work, args=(other,), daemon=True)
            worker.start()
            other.close()
        name, what, said, seconds = "", "died", "", 0.0
        try:
            pipe.send(seed)
            if pipe.poll(_TO_WAIT):
                name = pipe.recv()
                what, seconds = "took too long", _TO_WAIT
                if pipe.poll(_TO_WAIT):
                    what, said, seconds = pipe.recv()
                    what = what if seconds <= MOST_SECONDS else "took too long"
        except (EOFError, OSError):
            what = "died"
        outcomes.append(Outcome(seed, name, what, seconds, said))
        if what == "died" or seconds >= _TO_WAIT:
            worker.kill()
            worker.join()
            worker = None
    if worker is not None and pipe is not None:
        pipe.send(None)
        worker.join()
    return outcomes
