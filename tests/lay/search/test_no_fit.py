"""No-fit polygons against shapely: whether two outlines share area, and how far one must go to be clear."""

from collections.abc import Iterable, Sequence

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from lay.search.stars import star

from panelwright.geometry.arrays import Array
from panelwright.lay.search import no_fit as no_fit_module
from panelwright.lay.search.kernel import depth
from panelwright.lay.search.no_fit import NoFit, Posed, no_fit
from panelwright.lay.search.outline import convex_parts
from panelwright.lay.search.task import Turn

TURNS = (Turn(), Turn(180.0), Turn(90.0), Turn(0.0, mirrored=True), Turn(180.0, mirrored=True))


def table(one: Array, other: Array, turn: Turn, lying: Turn = TURNS[0]) -> NoFit:
    return no_fit([Posed(0, lying.matrix, convex_parts(one)), Posed(1, turn.matrix, convex_parts(other))])


def inside(made: NoFit, at: Array) -> float:
    first, last = made.ranges[0, 1]
    return float(depth(made.edges, first, last, *at))


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


def test_what_is_the_same_but_for_a_turn_is_made_once(monkeypatch: pytest.MonkeyPatch) -> None:
    made: list[int] = []
    rings = no_fit_module._rings

    def counted(lying: Sequence[Array], moved: Sequence[Array]) -> Iterable[Array]:
        made.append(len(lying))
        return rings(lying, moved)

    monkeypatch.setattr(no_fit_module, "_rings", counted)
    parts = [convex_parts(star(np.random.default_rng(k), 6)) for k in range(2)]
    no_fit([Posed(shape, turn.matrix, parts[shape]) for shape in range(2) for turn in (Turn(), Turn(180.0))])
    # Each with itself and with the other, turned alike or not.
    assert len(made) == 6
