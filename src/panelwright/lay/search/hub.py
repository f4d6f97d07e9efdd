"""What searches in several threads know of each other: the best lay, and that they should stop."""

from dataclasses import dataclass, field
from threading import Lock

from panelwright.lay.search.task import Found


@dataclass(eq=False)
class Hub:
    """Between the searches for one lay.

    Attributes:
        best: the shortest lay that any of them has found.
        is_shared: whether each goes on from the best of all. Which one that is depends on which thread is faster, so
            a search that must repeat exactly goes on from its own.
        stopped: they should end.
    """

    best: Found
    is_shared: bool
    stopped: bool = False
    lock: Lock = field(default_factory=Lock)

    def offer(self, found: Found) -> None:
        """Keep a lay if it is the shortest."""
        with self.lock:
            if found.length < self.best.length:
                self.best = found
