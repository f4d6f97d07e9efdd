"""First lays of rectangles, whose lengths can be told by arithmetic, and what any lay must keep."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lay.boxes import box

from panelwright.lay.cloth import Cloth
from panelwright.lay.column_profile import COLUMN
from panelwright.lay.lay import Lay
from panelwright.lay.lay_garment import lay_pieces
from panelwright.lay.piece_to_cut import PieceToCut


def cloth(width: float, folded: bool, one_way: bool = False) -> Cloth:
    return Cloth("outer", width, folded, one_way)


@pytest.mark.parametrize(
    ("pieces", "width", "folded", "length"),
    [
        ([box("a", 100, 200, 1, 1)], 200, True, 200),  # a pair on the double cloth
        ([box("a", 100, 200, 1, 1)], 200, False, 200),  # side by side
        ([box("a", 100, 200, 1, 1)], 180, False, 400),  # one behind the other
        ([box("a", 100, 200, fold=True)], 200, True, 200),
        ([box("a", 100, 200, fold=True)], 200, False, 200),  # opened, it is 200 wide
        ([box("a", 100, 200, 2, 0, fold=True)], 400, True, 400),  # both on the one fold
        ([box("a", 100, 200, 2, 0, fold=True)], 400, False, 200),
        ([box("a", 100, 300, fold=True), box("b", 100, 300, 1, 1)], 400, True, 300),
        ([box("a", 100, 200, 2, 2), box("b", 100, 400, fold=True)], 400, True, 400),
    ],
)
def test_rectangles_without_spacing(pieces: list[PieceToCut], width: float, folded: bool, length: float) -> None:
    assert lay_pieces(cloth(width, folded), pieces, 0.0).length == pytest.approx(length, abs=1e-6)


def test_spacing_lies_between_pieces_and_not_at_the_edges_of_the_cloth() -> None:
    """Two boxes and one gap fill the width exactly; behind each other they take two lengths and a gap."""
    pieces = [box("a", 100, 200, 1, 1)]
    assert lay_pieces(cloth(203.1, False), pieces, 3.0).length == pytest.approx(200, abs=1e-6)
    longer = lay_pieces(cloth(202.9, False), pieces, 3.0).length
    assert 403 <= longer <= 403 + 2 * COLUMN


def test_use_is_the_share_of_the_cloth_that_is_cut() -> None:
    full = lay_pieces(cloth(200, True), [box("a", 100, 200, 1, 1)], 0.0)
    assert full.use == pytest.approx(1.0)
    half = lay_pieces(cloth(400, True), [box("a", 100, 200, fold=True)], 0.0)
    assert half.use == pytest.approx(0.5)  # a whole of 200 on 400
    single = lay_pieces(cloth(200, True), [box("a", 100, 200)], 0.0)
    assert single.use == pytest.approx(0.5)  # one of the two is spare
    assert [laid.spare for laid in single.laid] == [True]


def test_pieces_drawn_askew_are_laid_straight() -> None:
    """Whatever way a piece is drawn, its grain runs along the cloth and the lay is as long."""
    for turned in (0.3, -0.9, 1.4):
        pieces = [box("a", 100, 200, 1, 1, turned=turned), box("f", 90, 200, fold=True, turned=turned)]
        lay = lay_pieces(cloth(400, True), pieces, 0.0)
        assert lay.length == pytest.approx(200, abs=1e-6)
        for laid in lay.laid:
            near, far = lay.grain_distances(laid)
            assert near == pytest.approx(far, abs=1e-9)


def test_the_selvage_that_is_measured_from_is_the_nearer_one() -> None:
    pieces = [box(id, 100, 200) for id in "abc"]
    lay = lay_pieces(cloth(300, False), pieces, 0.0)
    distances = sorted(lay.grain_distances(laid)[0] for laid in lay.laid)
    assert distances == pytest.approx([50, 50, 150], abs=1e-6)
    folded = lay_pieces(cloth(300, True), [box("a", 100, 200, fold=True)], 0.0)
    assert folded.grain_distances(folded.laid[0]) == pytest.approx((100, 100))


@st.composite
def box_sets(draw: st.DrawFn) -> tuple[list[PieceToCut], Cloth, float]:
    pieces = []
    for k in range(draw(st.integers(1, 5))):
        across, along = draw(st.integers(20, 200)), draw(st.integers(20, 400))
        kind = draw(st.sampled_from(["fold", "pair", "single"]))
        count = draw(st.integers(1, 2))
        down = count if kind == "pair" else 0
        pieces.append(box(f"p{k}", across, along, count, down, kind == "fold", draw(st.floats(-1.5, 1.5))))
    own = cloth(draw(st.integers(400, 900)), draw(st.booleans()), draw(st.booleans()))
    return pieces, own, draw(st.sampled_from([0.0, 1.0, 3.0]))


@settings(max_examples=25)
@given(box_sets())
def test_any_set_is_laid_without_a_fault_and_no_longer_than_one_behind_the_other(
    job: tuple[list[PieceToCut], Cloth, float],
) -> None:
    """A lay with a fault does not leave `lay_pieces`; bounds are the area below and all in a row above."""
    pieces, own, spacing = job
    lay = lay_pieces(own, pieces, spacing)
    rows = sum(laid.area.bounds[2] - laid.area.bounds[0] + spacing + 2 * COLUMN for laid in lay.laid)
    area = sum(laid.area.area for laid in lay.laid)
    assert area / lay.width - 1e-6 <= lay.length <= rows
    assert 0 < lay.use <= 1


def test_the_same_pieces_are_always_laid_alike() -> None:
    pieces = [box(f"p{k}", 60 + 13 * k, 300 - 17 * k, 1, 1) for k in range(5)]

    def places(lay: Lay) -> list[object]:
        return [(laid.piece.id, laid.copy, laid.placement) for laid in lay.laid]

    assert places(lay_pieces(cloth(500, True), pieces)) == places(lay_pieces(cloth(500, True), pieces))


def test_nothing_lies_outside_the_first_length_of_cloth() -> None:
    lay = lay_pieces(cloth(500, True), [box("a", 100, 200, 1, 1)], 3.0)
    assert np.concatenate([laid.outline for laid in lay.laid])[:, 0].min() == pytest.approx(0.0, abs=1e-6)
