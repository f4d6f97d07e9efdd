"""Searches for short lays that go on beside other work: watched, stopped, and their best lay kept."""

import time
from collections import OrderedDict
from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass, field, replace
from threading import Lock, Thread
from typing import Final

from panelwright.errors import PanelwrightError
from panelwright.lay.fault import lay_faults
from panelwright.lay.lay import Lay
from panelwright.lay.piece_to_cut import PieceToCut, as_laid
from panelwright.lay.planned_lay import LayPlan
from panelwright.lay.search.budget import Budget
from panelwright.lay.search.search import EndSearch, shortest_lay
from panelwright.lay.search.task import Found

KEPT: Final = 24
USUAL_SECONDS: Final = 60.0
# A lay is shorter if it is by more than this, mm.
SHORTER: Final = 0.05
# What is found is kept at most so often, s: at first a better lay is found every few hundredths of a second.
_KEEP_EVERY: Final = 1.0

Keep = Callable[[Lay], None]


def _unkept(lay: Lay) -> None:
    """Keeps nothing."""


@dataclass(eq=False)
class LaySearch:
    """One search.

    Attributes:
        best: the shortest lay so far; proved.
        seconds: of computing time that it may take.
        keep: takes each better lay, so that it outlives the program; hears of one in a second, and of the last.
        share: of the seconds used, 0 … 1.
        found: how many shorter ones it has found.
        going_on: whether it still looks.
        wanted: False once somebody has stopped it.
        fault: why a lay could not be kept, or nothing.
    """

    best: Lay
    seconds: float
    keep: Keep = _unkept
    share: float = 0.0
    found: int = 0
    going_on: bool = True
    wanted: bool = True
    fault: str = ""
    _begun: float = field(default_factory=time.monotonic)
    _took: float | None = None
    _kept: tuple[float, int] = (-_KEEP_EVERY, 0)  # when by the clock, how many were found

    @property
    def elapsed(self) -> float:
        """How long it has looked, or did look, by the clock, s: longer than it computed on a busy machine."""
        return time.monotonic() - self._begun if self._took is None else self._took

    def told(self, plan: LayPlan, pieces: Sequence[PieceToCut], share: float, found: Found) -> None:
        """Hear from the search: take a shorter lay whose outlines prove it.

        Raises:
            EndSearch: once it is not wanted any more.
        """
        self.share = min(share, 1.0)
        if found.length < self.best.length - SHORTER:
            lay = replace(self.best, laid=plan.laid(found))
            if not lay_faults(lay, pieces):
                self.best, self.found = lay, self.found + 1
        if self.found and self.elapsed - self._kept[0] >= _KEEP_EVERY:
            self.keep_best()
        if not self.wanted:
            raise EndSearch

    def keep_best(self) -> None:
        """Have the best lay kept, unless it is; a workroom that cannot be written is told with the search."""
        if self.found == self._kept[1]:
            return
        self._kept = (self.elapsed, self.found)
        try:
            self.keep(self.best)
            self.fault = ""
        except PanelwrightError as error:
            self.fault = str(error)

    def end(self) -> None:
        """It looks no more."""
        self.keep_best()
        self._took, self.going_on = self.elapsed, False


@dataclass(eq=False)
class LaySearches:
    """The searches of one program: one looks at a time, the last ones are remembered. Several threads may ask."""

    _own: OrderedDict[Hashable, LaySearch] = field(default_factory=OrderedDict)
    _lock: Lock = field(default_factory=Lock)

    def last(self, of: Hashable) -> LaySearch | None:
        """The last search for this, if there was one."""
        with self._lock:
            return self._own.get(of)

    def start(
        self,
        of: Hashable,
        lay: Lay,
        pieces: Sequence[PieceToCut],
        seconds: float = USUAL_SECONDS,
        seed: int = 1,
        keep: Keep = _unkept,
    ) -> LaySearch:
        """Look for a shorter lay; whatever else is looked for is stopped.

        Args:
            of: what the search is remembered by.
            lay: the shortest that there is.
            pieces: what it lays, as the pattern has them.
            seconds: of computing time.
            seed: another one gives another search.
            keep: takes better lays, see `LaySearch`.

        Raises:
            InputError: if there can be no such time.
        """
        budget = Budget(seconds)
        own = as_laid(pieces, lay.folded)
        plan = LayPlan.of(own, lay.width, lay.folded, lay.cloth.one_way, lay.spacing)
        search = LaySearch(lay, seconds, keep)
        with self._lock:
            for other in self._own.values():
                other.wanted = False
            self._own[of] = search
            self._own.move_to_end(of)
            while len(self._own) > KEPT:
                self._own.popitem(last=False)
        Thread(target=_look, args=(search, plan, own, budget, seed), name="lay search", daemon=True).start()
        return search

    def stop(self) -> None:
        """Nobody looks any more; what was found stays."""
        with self._lock:
            for search in self._own.values():
                search.wanted = False


def _look(search: LaySearch, plan: LayPlan, pieces: Sequence[PieceToCut], budget: Budget, seed: int) -> None:
    try:
        shortest_lay(plan.task, budget, seed, lambda share, found: search.told(plan, pieces, share, found))
        search.share = 1.0 if search.wanted else search.share
    finally:
        search.end()
