"""How much cloth pieces need from one width or another, held against arithmetic with rectangles."""

from math import ceil

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lay.boxes import box
from plain_cutting_pattern import plain_cutting_pattern

from panelwright.errors import InputError, LayError
from panelwright.lay.cloth import Cloth
from panelwright.lay.fault import lay_faults
from panelwright.lay.laid_ways import shortest_way, ways_of
from panelwright.lay.lay import Lay
from panelwright.lay.length_by_width import length_by_width
from panelwright.lay.piece_to_cut import PieceToCut, pieces_to_cut
from panelwright.lay.planned_lay import Planning
from panelwright.lay.search.budget import Budget

BOXES = (box("A", 230.0, 410.0, 1, 0, fold=True), box("B", 190.0, 300.0, 2, 2), box("C", 300.0, 150.0, 1, 1))
WIDTHS = (900.0, 1000.0, 1150.0, 1300.0, 1520.0)


@settings(max_examples=8)
@given(
    across=st.integers(100, 400),
    count=st.integers(1, 12),
    widths=st.lists(st.integers(400, 1600), min_size=1, max_size=5, unique=True),
)
def test_equal_rectangles_lie_in_full_rows(across: int, count: int, widths: list[int]) -> None:
    """So many fit side by side, the rest behind them: the length steps down with the width, never up."""
    pieces = [box("A", float(across), 250.0, count)]
    found = length_by_width(Cloth("outer", folded=False), pieces, [float(width) for width in widths], spacing=0.0)
    assert [one.width for one in found] == sorted(widths)
    for one in found:
        rows = ceil(count / (int(one.width) // across))
        (lay,) = one.lays
        assert lay.length == pytest.approx(250.0 * rows, abs=0.01)


@pytest.mark.parametrize("folded", [True, False, None])
@pytest.mark.parametrize("planning", [None, Planning(Budget(moves=100))])
def test_wider_cloth_never_needs_more_and_every_lay_can_be_cut(folded: bool | None, planning: Planning | None) -> None:
    pieces = pieces_to_cut(plain_cutting_pattern(), "outer") if planning is None else BOXES
    found = length_by_width(Cloth("outer", folded=folded, sold_by=1.0), pieces, WIDTHS, planning=planning)
    for one in found:
        assert [lay.folded for lay in one.lays] == ([True, False] if folded is None else [folded])
        for lay in one.lays:
            assert lay.cloth.width == one.width
            assert [piece.id for piece in as_laid(lay)] == [piece.id for piece in pieces]
            assert lay_faults(lay, as_laid(lay)) == ()
    for way in {lay.folded for lay in found[0].lays}:
        lengths = [lay.length for one in found if (lay := one.lay(way)) is not None]
        assert lengths == sorted(lengths, reverse=True)
        assert lengths[-1] < lengths[0]


def as_laid(lay: Lay) -> list[PieceToCut]:
    """The pieces of a lay, opened where they lie so."""
    return list({laid.piece.id: laid.piece for laid in lay.laid}.values())


def test_cloth_that_is_too_narrow_says_so_and_has_no_lay() -> None:
    found = length_by_width(Cloth("outer"), [box("A", 500.0, 300.0, 1, 1)], [400.0, 600.0, 1100.0])
    assert [[lay.folded for lay in one.lays] for one in found] == [[], [False], [True, False]]
    assert "50.0 cm across the grain and the outer cloth, spread out, is 40.0 cm wide" in found[0].refusal
    assert found[0].best is None
    assert found[2].best is not None


def test_a_piece_too_many_is_never_cut_where_the_choice_is_free() -> None:
    single = [box("A", 100.0, 100.0, 1, 0)]
    assert [way.folded for way in ways_of(Cloth("outer"), single)] == [False]
    assert [way.folded for way in ways_of(Cloth("outer", folded=True), single)] == [True]
    with pytest.raises(LayError, match=r"spread out, is 10\.0 cm wide"):
        ways_of(Cloth("outer", 100.0), [box("A", 101.0, 100.0, 1, 1)])


def test_of_two_ways_the_shorter_is_taken() -> None:
    """Three pieces on the fold lie one after the other; spread out, all lie side by side."""
    pieces = [box("A", 100.0, 300.0, 3, 0, fold=True)]
    lay = shortest_way(Cloth("outer", 900.0), pieces, spacing=0.0)
    assert (lay.folded, round(lay.length)) == (False, 300)
    folded = shortest_way(Cloth("outer", 900.0, folded=True), pieces, spacing=0.0)
    assert (folded.folded, round(folded.length)) == (True, 900)


def test_what_cannot_be_asked_is_refused() -> None:
    cloth, pieces = Cloth("outer"), [box("A", 100.0, 100.0)]
    for widths, wanted, sentence in (
        ([900.0], [], "no piece is cut from this cloth"),
        ([], pieces, "0 widths are given"),
        ([50.0], pieces, "the width is 5 cm; give between 10 and 400 cm"),
        ([float(k) for k in range(400, 461)], pieces, "61 widths are given; give 1 to 60"),
    ):
        with pytest.raises(InputError, match=sentence):
            length_by_width(cloth, wanted, widths)
