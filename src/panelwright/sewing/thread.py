"""How much thread the order of work takes."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from math import ceil
from typing import Final

from panelwright.sewing.stitch import Sewing, Stitch
from panelwright.sewing.task import Task

WASTE: Final = 0.15  # ends, bobbins and seams sewn again (from memory)
REEL: Final = 100_000.0  # mm on a small reel, as they are commonly sold


@dataclass(frozen=True)
class Thread:
    """The thread of one type of stitch.

    Attributes:
        stitch: which.
        seam: length that is sewn with it, mm.
        needed: length of thread, waste included, mm.
    """

    stitch: Stitch
    seam: float
    needed: float


def thread_needed(tasks: Iterable[Task], sewing: Sewing) -> tuple[Thread, ...]:
    """The thread for each type of stitch, by number."""
    lengths: dict[Stitch, float] = defaultdict(float)
    for task in tasks:
        for sewn in task.sewn:
            lengths[sewn.stitch] += sewn.length
    found = sorted(lengths.items(), key=lambda entry: entry[0].number)
    return tuple(Thread(stitch, seam, seam * stitch.ratio(sewing) * (1 + WASTE)) for stitch, seam in found)


def reels(thread: float) -> int:
    """How many reels of 100 m a length of thread in one colour makes, mm."""
    return ceil(thread / REEL)
