"""One search: shorten the cloth a little, move apart what then lies in each other, and again.

Two parts. The first shortens by 2 % to 0.1 %, more after a step that went well and less after some that did not; then
it goes on from one of the attempts that came near, two large pieces exchanged. The second shortens the best lay by ever
less.
"""

from collections.abc import Callable
from typing import Final

import numpy as np
import shapely

from panelwright.lay.search.budget import Budget
from panelwright.lay.search.hub import Hub
from panelwright.lay.search.proof import flaws
from panelwright.lay.search.tables import Layout, Ready
from panelwright.lay.search.task import Found

FIRST_PART: Final = 0.8  # of the budget
STEPS: Final = (0.02, 0.001)  # of the first part: the largest and the least, as shares of the length
KEPT: Final = 200  # attempts to go on from
TRIES: Final = 2  # attempts that fail before the step is halved
UP: Final = 1.5  # a step after one that went well
LAST_STEPS: Final = (0.0005, 0.00001)
PATIENCE: Final = (150, 80)  # rounds in a row that may bring little, in both parts
TRIED: Final = (40, 20)  # places tried for a move: anywhere, and near
LOOSE: Final = 0.6  # use of the cloth that the first layout has
MOVES_AT_ONCE: Final = 300  # about; then the budget is looked at
LONGEST: Final = 0.2  # of the budget, for one attempt to move things apart


class Search:
    """A search at work, in its own thread.

    Attributes:
        best: the shortest lay that it has found or heard of.
    """

    def __init__(self, made: Ready, seed: int, budget: Budget, hub: Hub) -> None:
        self.made, self.budget, self.hub, self.best = made, budget, hub, hub.best
        self.generator = np.random.default_rng(seed)
        self.dice = np.array([self.generator.integers(1, 2**63)], np.uint64)
        self.count = len(made.task.pieces)
        areas = [shapely.Polygon(outline).area for outline in made.task.outlines]
        self.areas = np.array([areas[piece.shape] for piece in made.task.pieces])
        longest = [min(made.tables.rooms[row[row >= 0], :2].sum(axis=1)) for row in made.tables.allowed]
        self.least = max(made.task.bound, *longest)
        self.large = np.argsort(-self.areas, kind="stable")[: max(2, self.count // 2)]

    def run(self, told: Callable[[float], None]) -> Found:
        """Search until the budget is used up or it is stopped.

        Args:
            told: hears of every better lay and now and then how much of the budget is used; may raise to stop.
        """
        self.meter, self.told = self.budget.begun(), told
        self.shorten()
        self.press()
        return self.best

    def shorten(self) -> None:
        """The first part."""
        layout, target = self._first()
        step, failed, attempts = STEPS[0], 0, list[tuple[float, Layout]]()
        while self.meter.share < FIRST_PART and not self._is_over:
            loss, layout = self._apart(layout, target, PATIENCE[0], FIRST_PART)
            if loss <= 0.0 and self._better(layout):
                attempts, failed, step = [], 0, min(step * UP, STEPS[0])
            else:
                attempts = sorted([*attempts, (loss, layout)], key=lambda attempt: attempt[0])[:KEPT]
                layout = self._exchanged(self._near_best(attempts))
                failed += 1
                if failed % TRIES == 0:
                    step = max(step / 2, STEPS[1])
            if self._has_heard_of_a_better():
                layout, attempts = self.made.layout(self.best), []
            target = max(self.best.length * (1.0 - step), self.least)

    def press(self) -> None:
        """The second part."""
        start = self.meter.share
        while self.meter.share < 1.0 and not self._is_over:
            done = (self.meter.share - start) / max(1.0 - start, 1e-9)
            step = LAST_STEPS[0] * (LAST_STEPS[1] / LAST_STEPS[0]) ** done
            self._has_heard_of_a_better()
            layout = self.made.layout(self.best)
            gain = min(self.best.length * step, self.best.length - self.least)
            cut = self.generator.random() * self.best.length
            layout = layout._replace(xs=np.where(layout.xs > cut, layout.xs - gain, layout.xs))
            loss, layout = self._apart(layout, self.best.length - gain, PATIENCE[1], 1.0)
            if loss <= 0.0:
                self._better(layout)

    @property
    def _is_over(self) -> bool:
        """Whether no lay can be shorter, or somebody stopped it."""
        return self.hub.stopped or bool(self.best.length <= self.least * (1.0 + 1e-6))

    def _has_heard_of_a_better(self) -> bool:
        """Whether another search has found a shorter lay; this one goes on from it then."""
        if not self.hub.is_shared or self.hub.best.length >= self.best.length:
            return False
        self.best = self.hub.best
        return True

    def _first(self) -> tuple[Layout, float]:
        """A layout to begin with, and the length of its cloth: at random, or laid down where time is short."""
        if self.budget.is_ample(self.count):
            return self._scattered()
        from panelwright.lay.search.laid_down import laid_down  # compiled late: it takes seconds

        task, tables = self.made.task, self.made.tables
        order = np.lexsort((-self.areas, ~tables.pinned))
        poses, xs, ys = laid_down(tables, order, task.spacing, self.dice)
        back = np.argsort(order)
        layout = Layout(poses[back], xs[back], ys[back])
        self._better(layout)
        return layout, max(self.best.length * (1.0 - STEPS[0]), self.least)

    def _scattered(self) -> tuple[Layout, float]:
        """Everything at random on a cloth that has room to spare, and the cloth's length."""
        task, tables = self.made.task, self.made.tables
        length = max(min(task.bound / LOOSE, self.best.length * (1.0 - STEPS[1])), self.least)
        poses = np.array([self.generator.choice(row[row >= 0]) for row in tables.allowed])
        rooms = tables.rooms[poses]
        along, across = self.generator.random((2, self.count))
        xs = rooms[:, 0] + along * np.maximum(length - rooms[:, 1] - rooms[:, 0], 0.0)
        return Layout(poses, xs, rooms[:, 2] + across * (rooms[:, 3] - rooms[:, 2])), length

    def _apart(self, layout: Layout, length: float, patience: int, until: float) -> tuple[float, Layout]:
        """(what is still lost, the layout that loses least) after moving things apart on a cloth of a length."""
        from panelwright.lay.search import kernel  # compiled late: it takes seconds

        self.meter.moves += 1  # an attempt counts even if nothing is in the way
        layout = self.made.clamped(layout, length)
        best, weights = layout.copy(), np.ones((self.count, self.count))
        least, idle = kernel.FAR, 0
        until = min(until, self.meter.share + LONGEST)
        limits = (patience, max(1, MOVES_AT_ONCE // self.count), *TRIED)
        while True:
            least, idle, moves = kernel.rounds(
                self.made.tables, layout, best, weights, length, self.dice, (least, idle), limits
            )
            self.meter.moves += moves
            if least <= 0.0 or idle >= patience or self.meter.share >= until or self.hub.stopped:
                return least, best
            self.told(self.meter.share)

    def _better(self, layout: Layout) -> bool:
        """Keep a layout if it is shorter and its true outlines prove it."""
        found = self.made.found(layout)
        if found.length >= self.best.length or flaws(self.made.task, found):
            return False
        self.best = found
        self.hub.offer(found)
        self.told(self.meter.share)
        return True

    def _near_best(self, attempts: list[tuple[float, Layout]]) -> Layout:
        """One of the attempts, most likely one that came near."""
        place = int(abs(self.generator.normal(0.0, 0.25)) * len(attempts))
        return attempts[min(place, len(attempts) - 1)][1]

    def _exchanged(self, layout: Layout) -> Layout:
        """Two large pieces in each other's place."""
        one, other = self.generator.choice(self.large, 2, replace=False)
        xs, ys = layout.xs.copy(), layout.ys.copy()
        xs[[one, other]] = xs[[other, one]]
        if not self.made.tables.pinned[[one, other]].any():
            ys[[one, other]] = ys[[other, one]]
        return Layout(layout.poses.copy(), xs, ys)
