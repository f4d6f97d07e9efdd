"""Text in strips: every word is there, within its column, and nothing overlaps."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lettering_room import letterings, overlaps

from panelwright.drawing.page_flow import Strip
from panelwright.drawing.paragraph import BODY, Column, paragraph, section, table

words = st.text(st.sampled_from("abcäß,. −½W"), max_size=300)


def written(strip: Strip) -> str:
    return "".join("".join(text.text.split()) for text in letterings(strip.drawing))


def assert_within(strip: Strip, width: float) -> None:
    for text in letterings(strip.drawing):
        left, bottom, right, top = text.bounds
        assert left >= -1e-9
        assert right <= width + 1e-9
        assert -strip.height - 0.25 * text.size <= bottom
        assert top <= 0.25 * text.size


@given(words, st.floats(20.0, 190.0), st.sampled_from([0.0, 4.0]), st.booleans())
def test_a_paragraph_keeps_its_words_and_its_room(text: str, width: float, indent: float, bold: bool) -> None:
    strip = paragraph(text, width, BODY, bold, indent)
    assert written(strip) == "".join(text.split())
    assert_within(strip, width)
    assert overlaps(letterings(strip.drawing)) == []


def test_lines_after_the_first_hang_in() -> None:
    lefts = [text.bounds[0] for text in letterings(paragraph("word " * 60, 80.0, indent=5.0).drawing)]
    assert len(lefts) > 2
    assert lefts[0] == pytest.approx(0.0)
    assert lefts[1:] == pytest.approx([5.0] * (len(lefts) - 1))


@given(st.lists(st.tuples(words, words, words), min_size=1, max_size=6))
def test_cells_of_a_table_keep_their_columns(rows: list[tuple[str, str, str]]) -> None:
    columns = [Column("Girth", 0.4), Column("Wearer", 0.3, "right"), Column("Finished", 0.3, "middle", bold=True)]
    strips = table(columns, rows, 120.0)
    assert len(strips) == len(rows) + 1
    assert strips[0].with_next
    for strip, row in zip(strips, [("Girth", "Wearer", "Finished"), *rows], strict=True):
        assert written(strip) == "".join("".join(cell.split()) for cell in row)
        assert_within(strip, 120.0)
        assert overlaps(letterings(strip.drawing)) == []


def test_a_table_without_titles_has_no_head() -> None:
    assert len(table([Column("", 0.5), Column("", 0.5)], [("a", "b")] * 3, 60.0)) == 3


def test_a_section_stays_with_what_follows_and_within_its_width() -> None:
    made = section("Measurements of the wearer that nobody could take " * 4, 60.0)
    assert made.with_next
    assert_within(made, 60.0)
