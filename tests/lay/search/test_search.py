"""The search: known shortest lays, soundness, repeatability, and how it ends."""

import time

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from lay.search.stars import ANY, EITHER, box, star, task_of

from panelwright.errors import InputError, LayError
from panelwright.lay.search.budget import Budget
from panelwright.lay.search.detail import fitting_shapes
from panelwright.lay.search.hub import Hub
from panelwright.lay.search.one_search import Search
from panelwright.lay.search.proof import flaws
from panelwright.lay.search.search import APART, EndSearch, shortest_lay
from panelwright.lay.search.shelves import on_shelves
from panelwright.lay.search.tables import ready
from panelwright.lay.search.task import Found, LayTask, Place, ToLay, Turn

SHORT = Budget(moves=3000)


def test_boxes_that_fill_the_cloth_leave_nothing() -> None:
    boxes = [box(40.0, 60.0), box(40.0, 40.0), box(60.0, 30.0), box(60.0, 70.0)]
    found = shortest_lay(task_of(boxes, 100.0, turns=EITHER), SHORT)
    assert found.length == pytest.approx(100.0, rel=2e-3)


def test_two_triangles_make_a_box() -> None:
    triangle = np.array([[0.0, 0.0], [80.0, 0.0], [0.0, 50.0]])
    task = LayTask(50.0, (triangle,), (ToLay(0, EITHER), ToLay(0, EITHER)))
    assert shortest_lay(task, SHORT).length == pytest.approx(80.0, rel=2e-3)


def test_a_quarter_turn_is_taken_where_it_is_allowed() -> None:
    long = task_of([box(30.0, 90.0)], 100.0, turns=(Turn(), Turn(90.0)))
    assert shortest_lay(long, SHORT).length == pytest.approx(30.0)
    assert shortest_lay(task_of([box(90.0, 30.0)], 100.0, turns=(Turn(),)), SHORT).length == pytest.approx(90.0)


def test_pieces_on_the_fold_lie_on_it_one_after_another() -> None:
    half = np.array([[0.0, 0.0], [60.0, 0.0], [50.0, 30.0], [10.0, 30.0]])
    pieces = tuple(ToLay(0, (Turn(), Turn(180.0, mirrored=True)), fold=0) for _ in range(2))
    task = LayTask(100.0, (half, box(50.0, 20.0)), (*pieces, ToLay(1, EITHER), ToLay(1, EITHER)))
    found = shortest_lay(task, SHORT)
    assert found.length == pytest.approx(120.0, rel=2e-3)
    for place in found.places[:2]:
        assert np.abs(place.points(half)[:2, 1]).max() < 1e-9
        assert place.points(half)[:, 1].max() == pytest.approx(30.0)


def test_the_spacing_is_kept_between_pieces_and_not_at_the_edges() -> None:
    found = shortest_lay(task_of([box(40.0, 49.0)] * 4, 100.0, spacing=2.0, turns=EITHER), SHORT)
    assert 82.0 <= found.length <= 82.0 * 1.003


@settings(max_examples=12)
@given(st.integers(0, 10**6), st.integers(2, 9), st.sampled_from([0.0, 3.0]))
def test_every_lay_that_is_told_is_sound(seed: int, count: int, spacing: float) -> None:
    generator = np.random.default_rng(seed)
    task = task_of([star(generator, int(generator.integers(3, 12))) for _ in range(count)], 260.0, spacing)
    heard: list[Found] = []
    found = shortest_lay(task, Budget(moves=300), seed=seed, told=lambda _, best: heard.append(best))
    assert found is heard[-1] or found.length <= heard[-1].length
    for lay in {id(lay): lay for lay in (*heard, found)}.values():
        areas = [shapely.Polygon(place.points(task.outlines[k])) for k, place in enumerate(lay.places)]
        assert all(shapely.box(-1e-6, -1e-6, lay.length + 1e-6, 260.0 + 1e-6).covers(area) for area in areas)
        for k, area in enumerate(areas):
            for other in areas[:k]:
                assert area.intersection(other).area < 1e-4
                assert area.distance(other) >= spacing - 1e-4
    assert found.length >= task.bound * (1 - 1e-9)
    assert found.length <= heard[0].length


def test_the_same_seed_and_moves_give_the_same_lay() -> None:
    generator = np.random.default_rng(5)
    task = task_of([star(generator, 8) for _ in range(8)], 300.0)
    one, same, other = (shortest_lay(task, Budget(moves=800), seed=seed) for seed in (3, 3, 4))
    assert one == same
    assert one != other


def test_more_moves_give_a_lay_that_is_no_longer() -> None:
    generator = np.random.default_rng(6)
    task = task_of([star(generator, 7) for _ in range(10)], 300.0)
    few, many = (shortest_lay(task, Budget(moves=moves)).length for moves in (50, 5000))
    assert many < few


def test_whoever_listens_may_stop_it() -> None:
    class Enough(Exception):
        pass

    def told(share: float, _: Found) -> None:
        if share > 0.0:
            raise Enough

    task = task_of([star(np.random.default_rng(7), 9) for _ in range(12)], 300.0)
    with pytest.raises(Enough):
        shortest_lay(task, Budget(seconds=600.0), told=told)


def test_what_does_not_fit_is_said_before_the_search() -> None:
    with pytest.raises(LayError, match="120 mm across and the cloth 100 mm"):
        task_of([box(50.0, 120.0)], 100.0, turns=EITHER)
    with pytest.raises(LayError, match="no area"):
        task_of([np.array([[0.0, 0.0], [10.0, 0.0], [20.0, 0.0]])], 100.0)


@pytest.mark.parametrize("moves", [0, -3])
def test_a_budget_of_nothing_is_refused(moves: int) -> None:
    with pytest.raises(InputError, match="at least 1"):
        Budget(moves=moves)
    with pytest.raises(InputError, match="more than 0"):
        Budget(seconds=float(moves))
    with pytest.raises(InputError, match="by the clock"):
        Budget(seconds=1.0, clock=float(moves))
    for clock in (None, 1.0):
        with pytest.raises(InputError, match="a time or a number"):
            Budget(clock=clock)


def test_what_is_left_of_a_budget_is_shared_at_once_or_in_turn() -> None:
    budget = Budget(seconds=8.0, moves=100, clock=5.0)
    assert budget.divided(2, used=2.0, gone=1.0) == Budget(seconds=3.0, moves=50, clock=4.0)
    assert budget.divided(2, used=8.0) is None
    assert budget.divided(2, gone=5.0) is None
    assert budget.in_turn(4) == Budget(seconds=2.0, moves=25, clock=1.25)
    assert Budget(moves=3).divided(4, used=9.0, gone=9.0) == Budget(moves=3).in_turn(4) == Budget(moves=1)


def test_slivers_many_alike_and_huge_ones_are_laid() -> None:
    sliver = np.array([[0.0, 0.0], [200.0, 0.0], [200.0, 0.001]])
    collinear = np.array([[0.0, 0.0], [50.0, 0.0], [100.0, 0.0], [100.0, 40.0], [50.0, 40.0], [0.0, 40.0]])
    mixed = task_of([sliver, collinear, sliver * 0.5, box(30.0, 30.0)], 100.0)
    assert flaws(mixed, shortest_lay(mixed, SHORT)) == []
    alike = LayTask(100.0, (box(9.0, 9.0),), tuple(ToLay(0, EITHER) for _ in range(300)))
    assert flaws(alike, shortest_lay(alike, Budget(moves=600))) == []
    huge = task_of([1e5 * box(40.0, 60.0) + 1e6, 1e5 * star(np.random.default_rng(8), 7)], 2.5e7)
    assert flaws(huge, shortest_lay(huge, Budget(moves=600))) == []


def test_so_many_unlike_pieces_that_a_search_is_hopeless_still_get_a_sound_lay() -> None:
    generator = np.random.default_rng(9)
    task = task_of([star(generator, 5) for _ in range(400)], 900.0)
    assert flaws(task, shortest_lay(task, SHORT)) == []


@given(st.integers(0, 10**6), st.integers(1, 30))
def test_the_lay_to_begin_with_is_always_sound(seed: int, count: int) -> None:
    generator = np.random.default_rng(seed)
    task = task_of([star(generator, 6) for _ in range(count)], 220.0, spacing=2.0)
    assert flaws(task, on_shelves(task)) == []


def test_flaws_are_seen() -> None:
    half = np.array([[0.0, 0.0], [60.0, 0.0], [50.0, 30.0], [10.0, 30.0]])
    task = LayTask(100.0, (half, box(50.0, 20.0)), (ToLay(0, (Turn(),), fold=0), ToLay(1, EITHER)), spacing=2.0)
    good = (Place(Turn(), 0.0, 0.0), Place(Turn(), 0.0, 40.0))
    assert flaws(task, Found(60.0, good)) == []

    def seen(first: Place, second: Place, length: float = 60.0) -> list[str]:
        return flaws(task, Found(length, (first, second)))

    assert "overlap" in seen(good[0], Place(Turn(), 0.0, 20.0))[0]
    assert "too near" in seen(good[0], Place(Turn(), 0.0, 31.0))[0]
    assert "out of the cloth" in seen(good[0], Place(Turn(), 0.0, 85.0))[0]
    assert "out of the cloth" in seen(*good, length=55.0)[0]
    assert "off the fold" in seen(Place(Turn(), 0.0, 1.0), Place(Turn(), 0.0, 60.0))[0]
    assert "may not be turned" in seen(Place(Turn(180.0), 60.0, 30.0), Place(Turn(), 0.0, 60.0))[0]


def test_who_is_told_may_end_it_and_gets_the_best_so_far() -> None:
    heard: list[Found] = []

    def told(_: float, found: Found) -> None:
        heard.append(found)
        if len({lay.length for lay in heard}) > 2:
            raise EndSearch

    task = task_of([star(np.random.default_rng(7), 9) for _ in range(12)], 300.0)
    for cores in (1, 2):
        heard.clear()
        assert shortest_lay(task, Budget(seconds=600.0), told=told, cores=cores) == heard[-1]


def test_two_searches_at_once_repeat_by_moves_and_keep_the_best() -> None:
    task = task_of([star(np.random.default_rng(11), 8) for _ in range(9)], 300.0)
    both, again = (shortest_lay(task, Budget(moves=2400), seed=3, cores=2) for _ in range(2))
    assert both == again
    alone = [shortest_lay(task, Budget(moves=1200), seed=seed).length for seed in (3, 3 + APART)]
    assert both.length == min(alone)


def test_searches_at_once_share_the_computing_time() -> None:
    task = task_of([star(np.random.default_rng(12), 8) for _ in range(14)], 300.0)
    shortest_lay(task, Budget(moves=50))
    began = time.process_time()
    found = shortest_lay(task, Budget(seconds=1.0), cores=2)
    assert time.process_time() - began < 1.3
    assert flaws(task, found) == []


def test_a_search_ends_by_the_clock_however_little_was_computed() -> None:
    """Five seconds more are let pass for a machine that lets the test wait."""
    task = task_of([star(np.random.default_rng(12), 8) for _ in range(14)], 300.0)
    shortest_lay(task, Budget(moves=50))
    for cores in (1, 2):
        began = time.monotonic()
        found = shortest_lay(task, Budget(seconds=600.0, clock=0.3), cores=cores)
        assert 0.25 < time.monotonic() - began < 5.0
        assert flaws(task, found) == []


def test_making_ready_belongs_to_the_budget_and_is_bounded() -> None:
    generator = np.random.default_rng(13)
    angles = np.linspace(0.0, 2 * np.pi, 1000, endpoint=False)
    ways = np.column_stack([np.cos(angles), np.sin(angles)])
    jagged = [ways * generator.uniform(60.0, 100.0, 1000)[:, None] for _ in range(6)]
    task = task_of(jagged, 500.0, spacing=2.0)
    shortest_lay(task, Budget(moves=20))
    began = time.process_time()
    found = shortest_lay(task, Budget(seconds=1.0))
    assert time.process_time() - began < 2.0
    assert flaws(task, found) == []


def test_very_many_unlike_pieces_are_searched_in_sections() -> None:
    generator = np.random.default_rng(14)
    task = task_of([star(generator, 5) for _ in range(300)], 900.0, turns=EITHER)
    heard: list[Found] = []
    began = time.process_time()
    found = shortest_lay(task, Budget(seconds=2.0), told=lambda _, best: heard.append(best))
    assert time.process_time() - began < 4.0
    assert flaws(task, found) == []
    assert found.length < 0.95 * heard[0].length


HOSTILE = {
    "sliver": np.array([[0.0, 0.0], [200.0, 0.0], [200.0, 0.001]]),
    "needle": np.array([[0.0, 0.0], [150.0, 1e-7], [150.0, 2e-7]]),
    "collinear": np.array([[0.0, 0.0], [50.0, 0.0], [100.0, 0.0], [100.0, 40.0], [50.0, 40.0], [0.0, 40.0]]),
    "twice": np.array([[0.0, 0.0], [60.0, 0.0], [60.0, 0.0], [60.0, 60.0], [0.0, 60.0]]),
    "far": box(70.0, 50.0) + 9e6,
    "comb": np.array([[0.0, 0.0], [160.0, 0.0], *([8.0 * k // 2, 90.0 - 85.0 * (k % 2)] for k in range(39, 0, -1))]),
    "full": box(30.0, 100.0),
    "slot": np.array([[0, 0], [90, 0], [90, 100], [55, 100], [55, 30], [35, 30], [35, 100], [0, 100]], float),
    "peg": box(20.0, 70.0),
}


@settings(max_examples=15, deadline=None)
@given(
    st.lists(st.sampled_from(sorted(HOSTILE)), min_size=1, max_size=7),
    st.sampled_from([0.0, 0.5, 4.0]),
    st.sampled_from([1.0, 1e-3, 1e4]),
    st.booleans(),
)
def test_whatever_is_given_the_lay_is_sound(names: list[str], spacing: float, scale: float, one_way: bool) -> None:
    outlines = [HOSTILE[name] * scale for name in names]
    task = task_of(outlines, 100.0 * scale, spacing * scale, (Turn(),) if one_way else ANY)
    heard: list[Found] = []
    found = shortest_lay(task, Budget(moves=150), told=lambda _, best: heard.append(best))
    for lay in (*heard, found):
        assert flaws(task, lay) == []


@given(st.integers(0, 10**6), st.sampled_from([0.0, 3.0]))
@settings(max_examples=10)
def test_pieces_that_are_laid_down_lie_clear_of_each_other(seed: int, spacing: float) -> None:
    generator = np.random.default_rng(seed)
    task = task_of([star(generator, 7, 40.0) for _ in range(40)], 300.0, spacing)
    budget = Budget(moves=len(task.pieces))
    assert not budget.is_ample(len(task.pieces))
    shapes = fitting_shapes(task, 1.0)
    assert shapes is not None
    search = Search(ready(task, shapes), seed, budget, Hub(on_shelves(task), is_shared=False))
    search.meter, search.told = budget.begun(), lambda _: None
    layout, _ = search._first()
    found = search.made.found(layout)
    assert flaws(task, found) == []
    assert found.length < 0.9 * on_shelves(task).length
