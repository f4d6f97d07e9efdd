"""How long a search may take: by moves, which repeats exactly, or by time, computed or by the clock."""

import os
import time
from dataclasses import dataclass

from panelwright.errors import InputError

MOST_SECONDS = 24 * 3600.0
MOST_MOVES = 10**12
AMPLE_SECONDS, AMPLE_MOVES = 0.006, 50  # for each piece, measured
QUICK_SECONDS = 0.42  # of each core, for a lay while somebody waits, making ready included
QUICK_CLOCK = 0.44  # by the clock, whatever else the machine does; proving the last lay comes after it
USUAL_CORES = 2
MOST_CORES = 64


def usable_cores() -> int:
    """How many cores this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


@dataclass(frozen=True)
class Budget:
    """At least one of seconds and moves; what is used up first ends the search.

    Attributes:
        seconds: of computing time, of all threads together.
        moves: how often a piece is put in another place.
        clock: seconds by the clock, for a search that somebody waits for on a machine that may be busy.

    Raises:
        InputError: if neither seconds nor moves are given, or one is not above 0.
    """

    seconds: float | None = None
    moves: int | None = None
    clock: float | None = None

    def __post_init__(self) -> None:
        if self.seconds is None and self.moves is None:
            raise InputError("give the search a time or a number of moves", "seconds")
        if self.seconds is not None and not 0.0 < self.seconds <= MOST_SECONDS:
            raise InputError(
                f"the search takes {self.seconds:g} seconds; give more than 0 and at most a day", "seconds"
            )
        if self.clock is not None and not 0.0 < self.clock <= MOST_SECONDS:
            raise InputError(
                f"the search takes {self.clock:g} seconds by the clock; give more than 0 and at most a day", "clock"
            )
        if self.moves is not None and not 0 < self.moves <= MOST_MOVES:
            raise InputError(f"the search takes {self.moves} moves; give at least 1", "moves")

    def divided(self, parts: int, used: float = 0.0, gone: float = 0.0) -> "Budget | None":
        """One of so many equal parts, to be used at once, of what is left, or nothing if nothing is.

        Args:
            parts: how many.
            used: computing time so far, s.
            gone: by the clock so far, s.
        """
        seconds = None if self.seconds is None else (self.seconds - used) / parts
        clock = None if self.clock is None else self.clock - gone
        if (seconds is not None and seconds <= 0.0) or (clock is not None and clock <= 0.0):
            return None
        return Budget(seconds, None if self.moves is None else max(1, self.moves // parts), clock)

    def in_turn(self, parts: int) -> "Budget":
        """One of so many equal parts, to be used one after another."""
        seconds, clock = (None if whole is None else whole / parts for whole in (self.seconds, self.clock))
        return Budget(seconds, None if self.moves is None else max(1, self.moves // parts), clock)

    def is_ample(self, pieces: int) -> bool:
        """Whether there is time to sort out so many pieces that lie at random."""
        seconds = self.seconds is None or self.seconds >= AMPLE_SECONDS * pieces
        return seconds and (self.moves is None or self.moves >= AMPLE_MOVES * pieces)

    def begun(self) -> "Meter":
        """A meter that starts now."""
        return Meter(self, time.thread_time(), time.monotonic())


@dataclass(eq=False)
class Meter:
    """How much of a budget is used.

    Attributes:
        budget: of which.
        start: this thread's computing time when it began, s.
        clock_start: the clock then, s.
        moves: made so far.
    """

    budget: Budget
    start: float
    clock_start: float
    moves: int = 0

    @property
    def seconds(self) -> float:
        """Computing time so far."""
        return time.thread_time() - self.start

    @property
    def elapsed(self) -> float:
        """By the clock so far, s."""
        return time.monotonic() - self.clock_start

    @property
    def share(self) -> float:
        """Used so far, 0 … 1 and more."""
        by_time = self.seconds / self.budget.seconds if self.budget.seconds else 0.0
        by_moves = self.moves / self.budget.moves if self.budget.moves else 0.0
        by_clock = self.elapsed / self.budget.clock if self.budget.clock else 0.0
        return max(by_time, by_moves, by_clock)
