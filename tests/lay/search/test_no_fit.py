"""No-fit polygons against shapely: whether two outlines share area, and how far one must go to be clear."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from lay.search.stars import star

from panelwright.geometry.arrays import Array
from panelwright.lay.search import boundary as boundary_module
from panelwright.lay.search.boundary import boundary
from panelwright.lay.search.kernel import depth
from panelwright.lay.search.no_fit import NoFit, Posed, no_fit
from panelwright.lay.search.outline import convex_parts
from panelwright.lay.search.task import Turn

TURNS = (Turn(), Turn(180.0), Turn(90.0), Turn(0.0, mirrored=True), Turn(180.0, mirrored=True))


def table(one: Array, other: Array, turn: Turn, lying: Turn = TURNS[0]) -> NoFit:
    parts = convex_parts(one), convex_parts(other)
    return no_fit([Posed(0, lying.matrix, one, parts[0]), Posed(1, turn.matrix, other, parts[1])])


def inside(made: NoFit, at: Array) -> float:
    first, last = made.ranges[made.rings[0, 1]]
    return float(depth(made.edges, first, last, *(made.views[0, 1].reshape(2, 2) @ at)))


@given(st.integers(0, 10**6), st.sampled_from(TURNS), st.sampled_from(TURNS))
def test_a_place_is_forbidden_where_the_outlines_share_area(seed: int, lying: Turn, turn: Turn) -> None:
    generator = np.random.default_rng(seed)
    one, other = star(generator, 7), star(generator, 6)
    made = table(one, other, turn, lying)
    still = shapely.Polygon(lying.points(one))
    for at in generator.uniform(-220.0, 220.0, (12, 2)):
        moved = shapely.Polygon(turn.points(other) + at)
        shared = still.intersection(moved).area
        if shared > 1e-6:
            assert inside(made, at) > 0.0
        elif still.distance(moved) > 1e-6:
            assert inside(made, at) == 0.0


@settings(max_examples=20)
@given(st.integers(0, 10**6))
def test_the_depth_is_the_shortest_way_out(seed: int) -> None:
    generator = np.random.default_rng(seed)
    one, other = star(generator, 5), star(generator, 5)
    made = table(one, other, TURNS[1])
    still = shapely.Polygon(one)
    at = generator.uniform(-40.0, 40.0, 2)
    far = inside(made, at)
    if far == 0.0:
        return
    angles = np.linspace(0.0, 2 * np.pi, 360, endpoint=False)
    ways = np.column_stack([np.cos(angles), np.sin(angles)])

    def shared(step: float) -> Array:
        moved = shapely.polygons([TURNS[1].points(other) + at + step * way for way in ways])
        areas: Array = shapely.area(shapely.intersection(moved, still))
        return areas

    assert shared(0.98 * far).min() > 0.0
    assert shared(1.01 * far).min() < 0.02 * min(still.area, shapely.Polygon(other).area)


def test_a_square_in_a_square_has_the_known_table() -> None:
    square = np.array([[0.0, 0.0], [10.0, 0.0], [10.0, 10.0], [0.0, 10.0]])
    made = table(square, square, Turn())
    assert made.boxes[0, 1] == pytest.approx([-10.0, -10.0, 10.0, 10.0])
    assert inside(made, np.array([3.0, 0.0])) == pytest.approx(7.0)
    assert inside(made, np.array([10.0, 2.0])) == 0.0


def test_a_hollow_that_is_wide_enough_may_be_used() -> None:
    frame = np.array([[0, 0], [100, 0], [100, 100], [60, 100], [60, 40], [40, 40], [40, 100], [0, 100]], float)
    peg = np.array([[0, 0], [15, 0], [15, 50], [0, 50]], float)
    made = table(frame, peg, Turn())
    assert inside(made, np.array([42.5, 45.0])) == 0.0
    assert inside(made, np.array([42.5, 35.0])) == pytest.approx(5.0)
    assert inside(made, np.array([38.0, 60.0])) == pytest.approx(2.0)


def test_what_is_the_same_but_for_a_turn_is_made_once() -> None:
    stars = [star(np.random.default_rng(k), 6) for k in range(2)]
    turns = (Turn(), Turn(180.0))
    made = no_fit([Posed(k, turn.matrix, stars[k], convex_parts(stars[k])) for k in range(2) for turn in turns])
    # Each with itself and with the other, turned alike or not.
    assert len(made.ranges) == 6


@given(st.integers(0, 10**6), st.sampled_from(TURNS), st.sampled_from(TURNS))
def test_the_box_is_that_of_all_forbidden_places(seed: int, lying: Turn, turn: Turn) -> None:
    generator = np.random.default_rng(seed)
    one, other = star(generator, 7), star(generator, 6)
    still, moved = lying.points(one), turn.points(other)
    expected = [*(still.min(axis=0) - moved.max(axis=0)), *(still.max(axis=0) - moved.min(axis=0))]
    assert table(one, other, turn, lying).boxes[0, 1] == pytest.approx(expected)


def packed(parts: list[Array]) -> tuple[Array, np.ndarray]:
    return np.concatenate(parts), np.concatenate([[0], np.cumsum([len(part) for part in parts])])


def area(made: Array) -> float:
    """Inside directed stretches."""
    return float(made[:, 0] @ made[:, 3] - made[:, 2] @ made[:, 1]) / 2


def sum_of(one: Array, other: Array) -> Array:
    made: Array = boundary(one, *packed(convex_parts(one)), other, *packed(convex_parts(other)))
    return made


def area_by_shapely(one: Array, other: Array) -> float:
    sums = [
        shapely.MultiPoint((a[:, None] + b[None]).reshape(-1, 2))
        for a in convex_parts(one)
        for b in convex_parts(other)
    ]
    return float(shapely.union_all(shapely.convex_hull(sums)).area)


@given(st.integers(0, 10**6), st.integers(3, 14), st.integers(3, 14), st.sampled_from([0.0, 1e6]))
def test_a_sum_has_the_area_that_shapely_finds(seed: int, arms: int, others: int, away: float) -> None:
    generator = np.random.default_rng(seed)
    one, other = star(generator, arms) + away, star(generator, others)
    made = sum_of(one, other)
    assert len(made) > 0
    assert area(made - [away] * 4) == pytest.approx(area_by_shapely(one - away, other), rel=1e-7)
    ends = {tuple(end) for end in made[:, 2:].tolist()}
    assert ends == {tuple(start) for start in made[:, :2].tolist()}


@given(st.lists(st.tuples(st.integers(1, 4), st.integers(1, 4)), min_size=2, max_size=6), st.integers(1, 5))
def test_edges_that_lie_on_each_other_count_once(steps: list[tuple[int, int]], side: int) -> None:
    """Combs and stairs on a grid: nearly every edge of the sum lies on another."""
    points, x = [(0.0, 0.0)], 0.0
    for wide, _ in steps:
        x += wide
    points.append((x, 0.0))
    for wide, high in reversed(steps):
        points += [(x, float(high)), (x - wide, float(high))]
        x -= wide
    comb = np.array([point for k, point in enumerate(points) if k == 0 or point != points[k - 1]])
    comb = comb if np.any(comb[-1] != comb[0]) else comb[:-1]
    box = np.array([[0.0, 0.0], [side, 0.0], [side, 1.0], [0.0, 1.0]])
    for one, other in ((comb, box), (comb, comb), (comb, -comb)):
        made = sum_of(one, other)
        assert area(made) == pytest.approx(area_by_shapely(one, other))


def test_where_rings_do_not_close_the_slow_way_is_taken(monkeypatch: pytest.MonkeyPatch) -> None:
    quick = table(star(np.random.default_rng(3), 7), star(np.random.default_rng(4), 6), TURNS[1])
    monkeypatch.setattr(boundary_module, "boundary", lambda *_: np.empty((0, 4)))
    slow = table(star(np.random.default_rng(3), 7), star(np.random.default_rng(4), 6), TURNS[1])
    for at in np.random.default_rng(5).uniform(-150.0, 150.0, (200, 2)):
        assert inside(quick, at) == pytest.approx(inside(slow, at), abs=1e-6)
