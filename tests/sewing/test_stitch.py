"""Thread for a seam, against published workings of the formulas (two sources agree for 301 and 401)."""

import pytest

from panelwright.errors import InputError
from panelwright.sewing.stitch import CHAIN, LOCK, OVEREDGE, SeamClass, Sewing
from panelwright.sewing.task import Sewn, Task
from panelwright.sewing.thread import WASTE, reels, thread_needed

INCH = 25.4


def in_inches(thickness: float, stitches: float) -> Sewing:
    return Sewing(thickness * INCH, stitches / INCH)


def test_a_lockstitch_of_ten_to_the_inch_takes_2_2_times_its_seam() -> None:
    assert LOCK.ratio(in_inches(0.01, 10)) == pytest.approx(2.2)


def test_a_chainstitch_of_eight_to_the_inch_takes_5_2_times_its_seam() -> None:
    assert CHAIN.ratio(in_inches(0.075, 8)) == pytest.approx(5.2)


def test_an_overedge_takes_the_larger_of_two_formulas_that_disagree() -> None:
    sewing = Sewing(1.0, 0.5, 4.0)
    assert OVEREDGE.ratio(sewing) == pytest.approx(max(3 + 4 * 2 + 4 * 0.5, 5 + 4 * 0.5 * 5))


def test_classes_of_seams_are_those_of_the_standard() -> None:
    assert [each.words for each in SeamClass][:3] == ["class 1, superimposed", "class 2, lapped", "class 3, bound"]
    assert len(SeamClass) == 8


def test_thread_is_added_up_by_stitch_with_its_waste() -> None:
    tasks = [
        Task("one", (), (Sewn("a", frozenset(), 1000.0), Sewn("b", frozenset(), 500.0, stitch=CHAIN))),
        Task("two", (), (Sewn("c", frozenset(), 3000.0),)),
    ]
    sewing = Sewing(1.0, 0.5)
    lock, chain = thread_needed(tasks, sewing)
    assert (lock.stitch, lock.seam, lock.needed) == (LOCK, 4000.0, pytest.approx(4000 * 3.0 * (1 + WASTE)))
    assert (chain.seam, chain.needed) == (500.0, pytest.approx(500 * 5.0 * (1 + WASTE)))
    assert reels(lock.needed + chain.needed) == 1


@pytest.mark.parametrize("given", [{"thickness": 0.0}, {"density": 5.0}, {"width": float("nan")}])
def test_a_machine_that_cannot_be_is_refused(given: dict[str, float]) -> None:
    with pytest.raises(InputError, match="give"):
        Sewing(**given)
