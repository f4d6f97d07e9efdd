"""Pieces too long for a page at quarter scale, and for the width of a large sheet."""

from dataclasses import replace

import numpy as np
import pytest
import shapely
from drawn_garment import block, garment, heading
from lettering_room import box, letterings, overlaps
from odd_piece import odd_piece
from tidy_sheet import assert_sheet_is_tidy, recorded

from panelwright.body.units import Unit
from panelwright.drawing.large_sheets import large_sheets
from panelwright.drawing.paper import PAPERS, Paper, turned
from panelwright.drawing.piece_drawing import PieceDrawing, draw_pieces
from panelwright.drawing.quarter_sheets import quarter_sheets
from panelwright.drawing.scale import FULL, QUARTER, Scale
from panelwright.drawing.sheet import Sheet
from panelwright.drawing.tiled_sheets import tiled_plane
from panelwright.errors import InputError

FACTS = heading(garment())
EVERY_PAPER = pytest.mark.parametrize("paper", PAPERS.values(), ids=PAPERS)
ONE_UNIT = pytest.mark.parametrize("unit", [Unit.CM, Unit.INCH])


def strip(width: float, height: float, scale: Scale = QUARTER, name: str = "strip") -> PieceDrawing:
    return odd_piece(name, [(0, 0), (width, 0), (width, height), (0, height)], scale)


def joined(sheets: tuple[Sheet, ...]) -> list[Sheet]:
    return [sheet for sheet in sheets if sheet.row]


@EVERY_PAPER
@ONE_UNIT
def test_two_metres_are_joined_of_two_pages(paper: Paper, unit: Unit) -> None:
    """500 mm and two allowances of 2.5 at 1:4: more than any page's width, and no more than two of them on their side.

    Upright, A4 and Letter would need three (190 and 195.9 mm between margins); A3 needs two either way.
    """
    sheets = quarter_sheets([strip(2000, 100)], replace(FACTS, unit=unit), paper)
    assert [sheet.name for sheet in sheets] == [
        "quarter scale, first page",
        "quarter scale, row A, column 1 of 2",
        "quarter scale, row A, column 2 of 2",
    ]
    size = (paper.width, paper.height) if paper.name == "A3" else (paper.height, paper.width)
    assert {(sheet.width, sheet.height) for sheet in joined(sheets)} == {size}
    for sheet in sheets[1:]:
        assert "quarter scale, row A" in " ".join(text.text for text in recorded(sheet).letterings)


@EVERY_PAPER
@ONE_UNIT
def test_the_first_page_has_what_there_is_to_measure_and_to_know(paper: Paper, unit: Unit) -> None:
    """100 mm, 4 inches (101.6 mm) and the scale bar: 20 cm at 1:4 are 50 mm, 8 inches are 50.8 mm."""
    sheet = quarter_sheets([strip(2000, 100)], replace(FACTS, unit=unit), paper)[0]
    assert_sheet_is_tidy(sheet)
    page = recorded(sheet)
    boxes = [s.bounds for s in page.strokes("sheet") if s.path.codes == "MLLLZ"]
    sides = [(right - left, top - bottom) for left, bottom, right, top in boxes]
    bar = {Unit.CM: 50.0, Unit.INCH: 50.8}[unit]
    for side in ((100.0, 100.0), (101.6, 101.6), (bar, 1.6)):
        assert any(side == pytest.approx(found) for found in sides)
    words = " ".join(text.text for text in page.letterings)
    one = "1 in of cloth is 1/4 in here" if unit is Unit.INCH else "1 cm of cloth is 2.5 mm here"
    for said in ("quarter scale, 1:4", one, "2 pages to join, 1 row of 2", "cut one of two neighbouring pages", "A2"):
        assert said in words
    assert "1 strip – Strip, cut 1 – outer" in words


@EVERY_PAPER
def test_the_other_pieces_stay_as_they_are(paper: Paper) -> None:
    panels = draw_pieces(garment(), QUARTER, block())
    alone = quarter_sheets(panels, FACTS, paper)
    with_ties = quarter_sheets([strip(2000, 100), *panels, strip(60, 2000)], FACTS, paper)
    for one, other in zip(with_ties[: len(alone)], alone, strict=True):
        assert [(laid.shift, [sign.bounds for sign in laid.drawing]) for laid in one.laid[1:]] == [
            (laid.shift, [sign.bounds for sign in laid.drawing]) for laid in other.laid[1:]
        ]
    assert with_ties[len(alone)].name == "quarter scale, first page"
    for k, sheet in enumerate(with_ties, 1):
        words = [text.text for text in recorded(sheet).letterings]
        assert any(text.startswith(f"sheet {k} of {len(with_ties)}") for text in words)
        assert not any(text.startswith("page ") for text in words)
    assert len(joined(with_ties)) == len(with_ties) - len(alone) - 1


@EVERY_PAPER
@pytest.mark.parametrize(
    "sizes",
    [
        [(2000, 100)],
        [(60, 2000)],
        [(60, 1030)],  # on A4 its caption would lie across the join below it
        [(60, 960)],  # and on Letter
        [(60, 1690)],
        [(1300, 269), (1300, 261), (1300, 253)],  # on Letter each is the tallest once its caption made way
        [(3900, 70), (3900, 70)],
        [(2000, 100), (60, 2000), (60, 1085), (1180, 60)],
        [(1300, 1900)],
    ],
    ids=str,
)
def test_captions_are_whole_on_one_page_clear_of_every_join(paper: Paper, sizes: list[tuple[float, float]]) -> None:
    drawings = [strip(*size, name=f"strip-{k}") for k, size in enumerate(sizes)]
    for page in (paper, turned(paper)):
        plane = tiled_plane(drawings, page)
        joins = shapely.union_all([shapely.LineString([join.start, join.end]) for join in plane.grid.joins])
        texts = [text.moved(shift) for piece, shift in plane.laid for text in letterings(piece.drawing)]
        assert len([text for text in texts if text.text.startswith("estimated: measure")]) == len(sizes)
        assert not any(shapely.dwithin(box(text), joins, 1.0) for text in texts if text.size != QUARTER.small)
        windows = [shapely.box(*plane.grid.window(tile)) for tile in plane.grid.tiles]
        assert all(any(window.contains(box(text)) for window in windows) for text in texts)
        assert overlaps(letterings(plane.drawing)) == []
        areas = [shapely.affinity.translate(piece.area, *shift) for piece, shift in plane.laid]
        assert all(a.distance(b) > 4.0 for k, a in enumerate(areas) for b in areas[k + 1 :])
        assert all(a.disjoint(box(t)) for a in areas for t in texts if not a.contains(box(t)))


def test_a_wide_and_a_tall_piece_have_pages_of_both_kinds() -> None:
    """1 m is 250 mm at 1:4, wider than A4 upright; 85 cm are 212 mm, higher than A4 on its side."""
    sheets = quarter_sheets([strip(1000, 35), strip(60, 800, name="drop")], FACTS, PAPERS["A4"])
    assert [(sheet.width, sheet.height) for sheet in sheets] == [(210.0, 297.0), (297.0, 210.0)]
    assert [sheet.name for sheet in sheets] == [f"quarter scale, sheet {k} of 2" for k in (1, 2)]
    for sheet in sheets:
        assert_sheet_is_tidy(sheet)


def test_twenty_metres_are_joined_and_more_is_refused() -> None:
    sheets = quarter_sheets([strip(19_900, 100)], FACTS, PAPERS["A4"])
    assert len(joined(sheets)) == 19  # 4980 mm: 277 and 18 times 267
    with pytest.raises(InputError, match=r"^piece Strip is 20.1 m long, and 20 m are the most that can be joined"):
        quarter_sheets(
            [odd_piece("strip", [(-50, 0), (19_990, 0), (19_990, 50), (-50, 50)], QUARTER)], FACTS, PAPERS["A4"]
        )


@pytest.mark.parametrize("size", [(80.0, 297.0), (210.0, 220.0)])
def test_paper_without_room_for_the_first_page_is_refused(size: tuple[float, float]) -> None:
    small = Paper("a card", *size)
    with pytest.raises(InputError, match="more than a page of a card holds: print the large sheet or choose a larger"):
        quarter_sheets([strip(2000, 100)], FACTS, small)


def test_a_long_tie_has_a_large_sheet_on_its_side() -> None:
    """No wider piece than the roll has room for; the other way it is as long as it needs."""
    panels = draw_pieces(garment(), FULL, block())
    alone = large_sheets(panels, FACTS)
    ties = [strip(1400, 100, FULL, "tie"), strip(1500, 100, FULL, "sash")]
    sheets = large_sheets([ties[0], *panels, ties[1]], FACTS)
    assert [sheet.laid[2:] for sheet in sheets[:-1]] == [sheet.laid[2:] for sheet in alone]
    last = sheets[-1]
    assert (last.name, last.height <= 900.0) == ("full scale, sheet 2 of 2", True)
    assert last.width == pytest.approx(1500 + 2 * 10 + 20, abs=2.0)
    assert {id(laid.drawing) for laid in last.laid} >= {id(tie.drawing) for tie in ties}
    squares = {round(float(np.ptp(s.path.points[:, 0])), 6) for s in recorded(last).strokes("sheet")}
    assert {100.0, 101.6} <= squares
    assert_sheet_is_tidy(last)
