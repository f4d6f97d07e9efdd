"""Searches for short lays that go on beside other work: watched, stopped, and their best lay kept."""

import hashlib
from collections import OrderedDict
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from threading import Lock, Thread
from typing import Final

import numpy as np

from panelwright.lay.cloth import Cloth
from panelwright.lay.fault import lay_faults
from panelwright.lay.lay import Lay
from panelwright.lay.piece_to_cut import PieceToCut
from panelwright.lay.planned_lay import LayPlan
from panelwright.lay.search.budget import Budget
from panelwright.lay.search.search import EndSearch, shortest_lay
from panelwright.lay.search.task import Found

KEPT: Final = 24
USUAL_SECONDS: Final = 60.0
# A lay is shorter if it is by more than this, mm.
_SHORTER: Final = 0.05


@dataclass(eq=False)
class LaySearch:
    """One search.

    Attributes:
        first: the lay that it began with.
        best: the shortest so far; proved.
        seconds: of computing time that it may take.
        share: of them used, 0 … 1.
        revision: how often a shorter lay was found.
        going_on: whether it still looks.
        wanted: False once somebody has stopped it.
    """

    first: Lay
    best: Lay
    seconds: float
    share: float = 0.0
    revision: int = 0
    going_on: bool = True
    wanted: bool = True

    def told(self, plan: LayPlan, pieces: Sequence[PieceToCut], share: float, found: Found) -> None:
        """Hear from the search: keep a shorter lay whose outlines prove it.

        Raises:
            EndSearch: once it is not wanted any more.
        """
        self.share = min(share, 1.0)
        if found.length < self.best.length - _SHORTER:
            lay = replace(self.best, laid=plan.laid(found))
            if not lay_faults(lay, pieces):
                self.best, self.revision = lay, self.revision + 1
        if not self.wanted:
            raise EndSearch


@dataclass(eq=False)
class LaySearches:
    """The searches of one program: one looks at a time, what the last ones found is kept. Several threads may ask."""

    _own: OrderedDict[str, LaySearch] = field(default_factory=OrderedDict)
    _lock: Lock = field(default_factory=Lock)

    def found(self, lay: Lay, pieces: Sequence[PieceToCut]) -> LaySearch | None:
        """The search for these pieces on this cloth, if there was one."""
        with self._lock:
            return self._own.get(lay_key(lay.cloth, lay.folded, pieces))

    def start(self, lay: Lay, pieces: Sequence[PieceToCut], seconds: float = USUAL_SECONDS) -> LaySearch:
        """Look for a shorter lay, beginning with what was found before; whatever else is looked for is stopped.

        Args:
            lay: the one that there is.
            pieces: what it lays, as the pattern has them.
            seconds: of computing time.

        Raises:
            InputError: if there can be no such time.
        """
        budget = Budget(seconds)
        own = list(pieces) if lay.folded else [piece.spread() for piece in pieces]
        plan = LayPlan.of(own, lay.width, lay.folded, lay.cloth.one_way, lay.spacing)
        before = self.found(lay, pieces)
        with self._lock:
            for other in self._own.values():
                other.wanted = False
            search = LaySearch(lay, lay, seconds)
            if before is not None:
                search = LaySearch(before.first, before.best, seconds, revision=before.revision)
            key = lay_key(lay.cloth, lay.folded, pieces)
            self._own[key] = search
            self._own.move_to_end(key)
            while len(self._own) > KEPT:
                self._own.popitem(last=False)
        seed = 1 + search.revision
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
        search.going_on = False


def lay_key(cloth: Cloth, folded: bool, pieces: Sequence[PieceToCut]) -> str:
    """The same for the same pieces on the same cloth, whoever drew them in whatever unit."""
    digest = hashlib.sha256(repr((cloth.width, folded, cloth.one_way)).encode())
    for piece in pieces:
        digest.update(repr((piece.id, piece.face_up, piece.face_down, piece.fold is not None)).encode())
        digest.update(np.ascontiguousarray(piece.outline).tobytes())
        digest.update(np.ascontiguousarray(piece.grain).tobytes())
    return digest.hexdigest()
