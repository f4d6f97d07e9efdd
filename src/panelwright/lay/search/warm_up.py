"""Loading the machine code before the clock runs: it takes seconds in every process, however small the lay."""

from functools import cache

import numpy as np

from panelwright.lay.search.budget import Budget
from panelwright.lay.search.detail import fitting_shapes
from panelwright.lay.search.hub import Hub
from panelwright.lay.search.one_search import Search
from panelwright.lay.search.outline import FEW
from panelwright.lay.search.shelves import on_shelves
from panelwright.lay.search.tables import ready
from panelwright.lay.search.task import LayTask, ToLay, Turn


@cache
def warm_up() -> None:
    """Search for a lay of two round pieces, at random and laid down; once in a process."""
    angles = np.linspace(0.0, 2 * np.pi, FEW + 2, endpoint=False)
    task = LayTask(35.0, (10.0 * np.column_stack([np.cos(angles), np.sin(angles)]),), (ToLay(0, (Turn(),)),) * 2)
    shapes = fitting_shapes(task, 1.0)
    assert shapes is not None
    made = ready(task, shapes)
    for budget in (Budget(moves=1), Budget(moves=1000)):
        Search(made, 1, budget, Hub(on_shelves(task), is_shared=False)).run(lambda _: None)
