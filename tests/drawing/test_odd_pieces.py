"""Pieces that are no panels: long and low, long and narrow, tiny, with a curve and without a waist."""

import pytest
import shapely
from drawn_garment import TEXT, garment, heading
from lettering_room import box, crossings, letterings, overlaps
from odd_piece import odd_piece

from panelwright.drawing.large_sheets import large_sheets
from panelwright.drawing.paper import PAPERS, Paper
from panelwright.drawing.piece_drawing import PieceDrawing
from panelwright.drawing.quarter_sheets import quarter_sheets
from panelwright.drawing.recorder import Recorder
from panelwright.drawing.scale import FULL, QUARTER, Scale
from panelwright.drawing.tiled_sheets import tiled_plane, tiled_sheets

SHAPES = {
    "waistband": [(0, 0), (640, 0), (640, 35), (0, 35)],
    "strap": [(0, 0), (25, 0), (25, 400), (0, 400)],
    "godet": [(0, 0), (60, 0), (30, 90)],
    "loop": [(0, 0), (8, 0), (8, 12), (0, 12)],
}
FACTS = heading(garment())


def odd(name: str, scale: Scale) -> PieceDrawing:
    return odd_piece(name, SHAPES[name], scale)


@pytest.mark.parametrize("scale", [FULL, QUARTER], ids=["full", "quarter"])
@pytest.mark.parametrize("name", SHAPES)
def test_no_text_is_lost_or_in_the_way(name: str, scale: Scale) -> None:
    drawn = odd(name, scale)
    texts = letterings(drawn.drawing)
    assert overlaps(texts) == []
    assert crossings(drawn.drawing) == []
    words = " ".join(text.text for text in texts)
    for line in ("Cut 1 – outer", *TEXT):
        assert all(word in words for word in line.split())
    below = drawn.cut_line[:, 1].min()
    assert all(drawn.area.contains(box(t)) or t.box[:, 1].max() < below for t in texts)


@pytest.mark.parametrize("paper", PAPERS.values(), ids=PAPERS)
def test_odd_pieces_go_on_every_kind_of_sheet(paper: Paper) -> None:
    full, quarter = ([odd(name, scale) for name in SHAPES] for scale in (FULL, QUARTER))
    sheets = [*quarter_sheets(quarter, FACTS, paper), *large_sheets(full, FACTS)]
    for sheet in (*sheets, tiled_sheets(full, FACTS, paper)[0]):
        recorder = Recorder()
        sheet.draw(recorder)
        texts = recorder.pages[0].letterings
        assert overlaps(texts) == []
        assert all(shapely.box(3, 3, sheet.width - 3, sheet.height - 3).contains(box(text)) for text in texts)


def test_a_piece_wider_than_a_page_spans_columns() -> None:
    plane = tiled_plane([odd("waistband", FULL)], PAPERS["A4"])
    assert plane.grid.columns == 4  # 662 mm at 180 mm a column after the first 190
    assert len(plane.grid.tiles) == 4
