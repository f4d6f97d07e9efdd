"""Reads hostile files in a process of its own, with a limit on its memory and on the time for each file."""

import multiprocessing
import sys
import time
from collections.abc import Callable, Iterable
from contextlib import suppress
from dataclasses import dataclass
from multiprocessing.connection import Connection
from pathlib import Path
from typing import Literal

MOST_MEMORY = 1 << 30
# Of computing, so that a busy machine does not fail a file; and of waiting, after which a worker is ended.
MOST_SECONDS = 10.0
_TO_WAIT = 90.0
Kind = Literal["drawing", "photo"]


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


def _reader(kind: Kind) -> tuple[Callable[[int], tuple[str, bytes]], Callable[[bytes, str], object]]:
    """(what makes the file of a seed, what reads it)."""
    if kind == "drawing":
        from intake import hostile_drawing

        from panelwright.intake.drawing_file import read_drawing

        return hostile_drawing.hostile, read_drawing
    from intake import hostile_photo

    from panelwright.intake.photo_pieces import read_photo

    return hostile_photo.hostile, lambda content, _: read_photo(content)


def _most_used() -> int:
    """The most memory that this process has had in use, bytes; 0 where the system does not tell.

    What `getrusage` tells of a process that another one has started counts that one's memory too, so Linux is asked
    otherwise.
    """
    with suppress(OSError):
        for line in Path("/proc/self/status").read_text(encoding="ascii").splitlines():
            if line.startswith("VmHWM:"):
                return int(line.split()[1]) * 1024
    try:
        import resource
    except ImportError:
        return 0
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * (1 if sys.platform == "darwin" else 1024)


def _work(pipe: Connection, kind: Kind) -> None:
    import warnings

    from panelwright.errors import InputError

    hostile, read = _reader(kind)
    warnings.simplefilter("error")
    with suppress(ImportError):  # Windows has no such limit
        import resource

        # OpenCV reserves half a gigabyte of addresses that it never uses: of photos the memory in use is measured.
        most = MOST_MEMORY if kind == "drawing" else 2 * MOST_MEMORY
        resource.setrlimit(resource.RLIMIT_AS, (most, most))
    while (seed := pipe.recv()) is not None:
        name, content = hostile(seed)
        pipe.send(name)
        begun = time.process_time()
        what, said = "read", ""
        try:
            read(content, name)
        except InputError as error:
            what, said = "refused", str(error)
        except BaseException as error:  # any other is what is looked for
            what, said = type(error).__name__, str(error)[:300]
        del content
        if _most_used() > MOST_MEMORY:
            what, said = "took too much memory", f"{_most_used() >> 20} MiB"
        pipe.send((what, said, time.process_time() - begun))


def read_all(seeds: Iterable[int], kind: Kind = "drawing") -> list[Outcome]:
    """Read the files of some seeds; one that takes too long ends its worker, and the next file has a new one."""
    context = multiprocessing.get_context("spawn")
    outcomes: list[Outcome] = []
    worker, pipe = None, None
    for seed in seeds:
        if worker is None or pipe is None:
            pipe, other = context.Pipe()
            worker = context.Process(target=_work, args=(other, kind), daemon=True)
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


def refusals(outcomes: list[Outcome]) -> list[Outcome]:
    """Those that were refused, each in one line of a sentence's length; none is a fault, and none took too long."""
    assert [outcome for outcome in outcomes if outcome.is_fault] == []
    assert max(outcome.seconds for outcome in outcomes) < MOST_SECONDS
    refused = [outcome for outcome in outcomes if outcome.what == "refused"]
    for outcome in refused:
        assert "\n" not in outcome.said, outcome
        assert 20 < len(outcome.said) < 400, outcome
    return refused
