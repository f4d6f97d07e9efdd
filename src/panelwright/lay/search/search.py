"""The search for a short lay: one or more searches at once, of which the best lay is kept."""

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import Final

from panelwright.lay.search.budget import Budget
from panelwright.lay.search.detail import fitting_shapes, seconds_for, sections_needed
from panelwright.lay.search.hub import Hub
from panelwright.lay.search.one_search import Search
from panelwright.lay.search.sections import behind_each_other, divided
from panelwright.lay.search.shelves import on_shelves
from panelwright.lay.search.tables import ready
from panelwright.lay.search.task import Found, LayTask
from panelwright.lay.search.warm_up import warm_up

# (share of the budget used, best lay so far); may raise to stop the search.
Told = Callable[[float, Found], None]

APART: Final = 7919  # between the seeds of searches at once


def unheard(share: float, best: Found) -> None:
    """Tells nobody."""


class EndSearch(Exception):
    """Raised by who is told: the search ends, and the best lay so far is what it found."""


def shortest_lay(task: LayTask, budget: Budget, seed: int = 1, told: Told = unheard, cores: int = 1) -> Found:
    """The shortest lay that is found within the budget; every one that is told has been proved.

    Args:
        task: what is to be laid.
        budget: in moves it gives the same lay every time, in seconds it depends on the computer. Making ready counts,
            loading the machine code in the first lay of a process does not.
        seed: another one gives another search.
        told: hears of every better lay, and now and then of none; may raise `EndSearch`.
        cores: searches at once, which share the budget: two take half as long.

    So many unlike pieces that making ready would take too long are divided among sections of the cloth.
    """
    if len(task.pieces) > 1:
        warm_up()
    best = on_shelves(task)

    def heard(share: float, found: Found) -> None:
        nonlocal best
        best = min(best, found, key=lambda each: each.length)
        told(min(share, 1.0), best)

    try:
        heard(0.0, best)
        count = sections_needed(task, seconds_for(budget))
        if count > 1:
            _in_sections(task, budget, seed, heard, cores, count)
        elif len(task.pieces) > 1:
            _searched(task, budget, seed, heard, best, cores)
    except EndSearch:
        pass
    return best


def _searched(task: LayTask, budget: Budget, seed: int, told: Told, best: Found, cores: int) -> Found:
    """The best of a lay that there is and of some searches at once; this thread's own tells of all."""
    meter = budget.begun()
    shapes = fitting_shapes(task, seconds_for(budget))
    made = None if shapes is None else ready(task, shapes)
    left = budget.divided(cores, meter.seconds, meter.elapsed)
    if made is None or left is None:
        return best
    hub = Hub(best, is_shared=budget.moves is None)
    with ThreadPoolExecutor(max(1, cores - 1)) as pool:
        searches = [Search(made, seed + APART * number, left, hub) for number in range(cores)]
        others = [pool.submit(search.run, _unheard) for search in searches[1:]]
        try:
            own = searches[0].run(lambda share: told(share, hub.best))
            found = min([own, *(other.result() for other in others)], key=lambda each: each.length)
        finally:
            hub.stopped = True
    told(1.0, found)
    return found


def _unheard(share: float) -> None:
    """Threads beside the first tell nobody: who listens is not made for several at once."""


def _in_sections(task: LayTask, budget: Budget, seed: int, told: Told, cores: int, count: int) -> None:
    """Search in sections; those not searched yet lie on shelves."""
    sections = divided(task, count)
    found = [on_shelves(section) for section, _ in sections]
    for number, (section, _) in enumerate(sections):

        def better(share: float, lay: Found, number: int = number) -> None:
            found[number] = lay
            whole = behind_each_other(task, [(each, group) for each, (_, group) in zip(found, sections, strict=True)])
            told((number + share) / len(sections), whole)

        if len(section.pieces) > 1:
            _searched(section, budget.in_turn(len(sections)), seed, better, found[number], cores)
