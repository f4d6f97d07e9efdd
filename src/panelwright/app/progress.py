"""Progress: how long work tells where it stands, and how a person stops it."""

from collections.abc import Callable

# (done, total, what comes next); may raise CancelledError to stop the work.
Progress = Callable[[int, int, str], None]


def unheard(done: int, total: int, what: str) -> None:
    """Tells nobody."""


def part_of(progress: Progress, before: int, whole: int) -> Progress:
    """For one part of longer work: `before` steps are done when it begins, of `whole` in all."""

    def told(done: int, _total: int, what: str) -> None:
        progress(min(before + done, whole), whole, what)

    return told
