"""How finely outlines are followed: so that making ready takes a small part of what there is to search."""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

import numpy as np

from panelwright.geometry.arrays import Array
from panelwright.lay.search.budget import Budget
from panelwright.lay.search.outline import convex_parts, grown, simple_enough
from panelwright.lay.search.task import LayTask

# (vertices that are few enough, how much an outline may grow to have so few as a share of the cloth's width).
DETAILS: Final = ((40, 0.0005), (24, 0.002), (14, 0.006), (8, 0.02))
# What no-fit polygons take, measured: seconds for each, and for each pair of convex parts and vertex of both.
EACH, EACH_VERTEX = 6e-5, 1.6e-8
EACH_VIEW = 2e-6  # of every two poses, besides
MOST_SECONDS: Final = 30.0  # whatever the budget is
MOVE_SECONDS: Final = 2e-4  # about what a move takes, where a budget has no seconds
LEAST_SECONDS: Final = 1.0  # that a budget in moves counts as
MOST_EDGES: Final = 4_000_000  # of all no-fit polygons: some hundred megabytes
PART: Final = 0.25  # of a budget's seconds
AT_WORST: Final = 2.0  # times as long for the simplest outlines, before shapes are divided among sections
ROOM: Final = 2.0  # what a section's outlines may take, as against the simplest


@dataclass(frozen=True, eq=False)
class Shapes:
    """Outlines made ready.

    Attributes:
        outlines: shape (n, 2) each, grown by half the spacing and then by what makes them simple.
        parts: convex polygons that cover each.
        seconds, edges: about what making no-fit polygons of them takes, and how many edges those have.
    """

    outlines: tuple[Array, ...]
    parts: tuple[list[Array], ...]
    seconds: float
    edges: float

    def fit(self, seconds: float) -> bool:
        """Whether they are simple enough to be made ready in so many seconds."""
        return self.seconds <= seconds and self.edges <= MOST_EDGES


def seconds_for(budget: Budget) -> float:
    """How long making ready may take."""
    seconds = np.inf if budget.seconds is None else budget.seconds
    if budget.moves is not None:
        seconds = min(seconds, max(MOVE_SECONDS * budget.moves, LEAST_SECONDS))
    return min(PART * float(seconds), MOST_SECONDS)


def sections_needed(task: LayTask, seconds: float) -> int:
    """How many sections its shapes must be divided among if making ready may take so long, in all."""
    least = float(_pairs(task).sum()) * EACH + _views(task)
    return 1 if least <= AT_WORST * seconds else math.ceil(ROOM * least / seconds)


def shapes(task: LayTask, outlines: Iterable[Array], detail: tuple[int, float]) -> Shapes:
    """Outlines of a task in one of the `DETAILS`."""
    few, growth = detail
    outlines = tuple(simple_enough(outline, growth * task.width, few) for outline in outlines)
    parts = tuple(convex_parts(outline) for outline in outlines)
    return Shapes(outlines, parts, *_effort(task, outlines, parts))


def fitting_shapes(task: LayTask, seconds: float) -> Shapes | None:
    """The finest that can be made ready in so many seconds, or the simplest in some more, if any can."""
    outlines = tuple(grown(outline, task.spacing / 2) for outline in task.outlines)
    for detail in DETAILS:
        made = shapes(task, outlines, detail)
        if made.fit(seconds):
            return made
        outlines = made.outlines
    return made if made.fit(AT_WORST * seconds) else None


def _pairs(task: LayTask) -> Array:
    """[a, b], a <= b: how many no-fit polygons there are for two shapes, shape (n, n)."""
    turns = np.zeros(len(task.outlines))
    for piece in task.pieces:
        turns[piece.shape] = max(turns[piece.shape], len(piece.turns))
    pairs: Array = np.triu(np.maximum(turns[:, None], turns) * (turns[:, None] > 0) * (turns > 0))
    return pairs


def _views(task: LayTask) -> float:
    """Seconds that go by the poses alone."""
    poses = {(piece.shape, turn) for piece in task.pieces for turn in piece.turns}
    return EACH_VIEW * len(poses) ** 2


def _effort(task: LayTask, outlines: tuple[Array, ...], parts: tuple[list[Array], ...]) -> tuple[float, float]:
    """(seconds, edges) of all no-fit polygons, about."""
    many, few = np.array([len(each) for each in parts], float), np.array([len(each) for each in outlines], float)
    pairs = _pairs(task)
    vertices = few[:, None] + few
    seconds = float((pairs * (EACH + EACH_VERTEX * np.outer(many, many) * vertices)).sum()) + _views(task)
    return seconds, float((pairs * vertices).sum())
