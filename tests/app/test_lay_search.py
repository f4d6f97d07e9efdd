"""Searches beside other work: what they find is sound and handed on to be kept, and they stop when told to."""

import time
from dataclasses import replace

import pytest
from lay.boxes import box

from panelwright.app.lay_search import LaySearch, LaySearches
from panelwright.errors import InputError, StoreError
from panelwright.lay.cloth import Cloth
from panelwright.lay.fault import lay_faults
from panelwright.lay.lay import Lay
from panelwright.lay.lay_garment import SPACING
from panelwright.lay.piece_to_cut import PieceToCut
from panelwright.lay.planned_lay import LayPlan
from panelwright.lay.search.budget import Budget
from panelwright.lay.search.shelves import on_shelves

PIECES = (
    box("A", 230.0, 410.0, fold=True),
    box("B", 190.0, 300.0, 2, 2),
    box("C", 310.0, 150.0, 1, 1),
    box("D", 90.0, 260.0, 3, 3),
)
LONG = 120.0  # s: far more than a test waits


def poor(cloth: Cloth, pieces: tuple[PieceToCut, ...] = PIECES) -> Lay:
    """A lay of boxes in columns, twice as far from the cloth's end as they need, which any search betters."""
    plan = LayPlan.of(pieces, cloth.half, True, cloth.one_way, SPACING)
    laid = plan.laid(on_shelves(plan.task))
    return Lay(cloth, True, tuple(each.moved(float(each.outline[:, 0].min()), 0.0) for each in laid), SPACING)


def wait(search: LaySearch, until: str) -> None:
    """Until a search has found something, or has ended."""
    end = time.monotonic() + 100.0
    while time.monotonic() < end:
        if not search.going_on or (until == "found" and search.found):
            return
        time.sleep(0.02)
    raise AssertionError("the search took too long")


def test_a_search_finds_a_shorter_lay_and_hands_on_the_shortest_last() -> None:
    cloth, kept = Cloth("outer", 900.0, folded=True), list[Lay]()
    lay, searches = poor(cloth), LaySearches()
    assert searches.last("outer") is None
    search = searches.start("outer", lay, PIECES, seconds=3.0, keep=kept.append)
    wait(search, "ended")
    assert (search.going_on, search.share) == (False, 1.0)
    assert search.best.length < lay.length
    assert lay_faults(search.best, PIECES) == ()
    assert searches.last("outer") is search
    assert kept[-1] is search.best
    assert 1 <= len(kept) <= search.found
    took = search.elapsed
    assert took > 0.5  # the clock has run, and stands still now
    assert search.elapsed == took
    again = searches.start("outer", search.best, PIECES, seconds=0.5, seed=2)
    wait(again, "ended")
    assert again.best.length <= search.best.length


def test_what_cannot_be_kept_is_told_and_the_search_goes_on() -> None:
    def full(_lay: Lay) -> None:
        raise StoreError("the change could not be saved (disk is full); make room, then try again")

    search = LaySearches().start("outer", poor(Cloth("outer", 900.0, folded=True)), PIECES, seconds=1.0, keep=full)
    wait(search, "ended")
    assert search.share == 1.0
    assert "disk is full" in search.fault


def test_it_is_stopped_by_hand_and_by_another_search() -> None:
    cloth, searches = Cloth("outer", 900.0, folded=True), LaySearches()
    first = searches.start("narrow", poor(cloth), PIECES, LONG)
    wait(first, "found")
    assert first.going_on
    second = searches.start("wide", poor(replace(cloth, width=1000.0)), PIECES, LONG)
    wait(first, "ended")
    assert first.share < 1.0
    assert searches.last("narrow") is first
    searches.stop()
    wait(second, "ended")
    assert second.share < 1.0


def test_a_time_that_cannot_be_is_refused() -> None:
    with pytest.raises(InputError, match="give more than 0"):
        LaySearches().start("outer", poor(Cloth("outer", 900.0, folded=True)), PIECES, 0.0)


@pytest.mark.parametrize("clock", [0.0, 90_000.0])
def test_a_time_by_the_clock_that_cannot_be_is_told_with_both_limits(clock: float) -> None:
    with pytest.raises(InputError, match="by the clock; give more than 0 and at most a day"):
        Budget(1.0, clock=clock)
