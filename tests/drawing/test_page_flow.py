"""Strips on pages: all of them, in order, on pages that hold them, together where they belong together."""

from itertools import chain, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelwright.drawing.drawing import Drawing, Lettering
from panelwright.drawing.page_flow import Strip, beside, flowed, height_of, hung, kept_together, space

ROOM = 100.0


def strip(name: str, height: float, with_next: bool = False) -> Strip:
    return Strip(Drawing((Lettering(name, (0.0, -3.0), 3.0, "sheet"),)), height, with_next)


strips = st.lists(st.tuples(st.floats(1.0, 60.0), st.booleans()), max_size=40).map(
    lambda sizes: [strip(f"s{k}", height, joined) for k, (height, joined) in enumerate(sizes)]
)


@given(strips)
def test_every_strip_is_on_a_page_in_its_order_and_no_page_is_overfull(given: list[Strip]) -> None:
    pages = flowed(given, ROOM)
    assert list(chain.from_iterable(pages)) == given
    assert all(height_of(page) <= ROOM for page in pages)
    assert all(pages) or not given


@given(strips)
def test_what_belongs_together_is_parted_only_where_no_page_holds_it(given: list[Strip]) -> None:
    pages = flowed(given, ROOM)
    for page, after in pairwise(pages):
        if page[-1].with_next:
            start = given.index(page[-1])
            while start and given[start - 1].with_next:
                start -= 1
            end = given.index(after[0])
            while given[end].with_next and end + 1 < len(given):
                end += 1
            assert height_of(given[start : end + 1]) > ROOM


def test_no_page_is_wasted() -> None:
    """Strips of 30 mm on pages of 100 mm: three a page, closed form."""
    assert [len(page) for page in flowed([strip("a", 30.0)] * 7, ROOM)] == [3, 3, 1]


def test_no_space_stands_at_the_head_of_a_page() -> None:
    pages = flowed([space(5.0), strip("a", 96.0), space(5.0), strip("b", 10.0)], ROOM)
    assert [[s.height for s in page] for page in pages] == [[96.0], [10.0]]


def test_strips_hang_under_one_another() -> None:
    laid = hung([strip("a", 10.0), strip("b", 4.0), strip("c", 1.0)], 20.0, 200.0)
    assert [item.shift for item in laid] == [(20.0, 200.0), (20.0, 190.0), (20.0, 186.0)]


def test_columns_stand_side_by_side_and_are_as_high_as_the_highest() -> None:
    made = beside([(0.0, [strip("a", 10.0), strip("b", 4.0)]), (50.0, [strip("c", 5.0)])])
    assert made.height == 14.0
    places = {sign.text: sign.at for sign in made.drawing if isinstance(sign, Lettering)}
    assert places == {"a": (0.0, -3.0), "b": (0.0, -13.0), "c": (50.0, -3.0)}


@pytest.mark.parametrize("count", [0, 1, 3])
def test_kept_together_leaves_the_last_one_free(count: int) -> None:
    made = kept_together([strip("a", 1.0)] * count)
    assert [s.with_next for s in made] == [True, True, False][3 - count :]
