"""The legend of a sheet explains what its pieces bear, and nothing else; few pieces take few pages."""

import json
from functools import cache
from typing import Any

import pytest
from high_bust import HIGH_BUST
from tidy_sheet import assert_sheet_is_tidy

from panelwright.app.block_shelf import BlockShelf
from panelwright.app.design_file import read_design
from panelwright.app.drawn_design import draw_design
from panelwright.drawing import pen
from panelwright.drawing.drawing import Lettering, Stroke
from panelwright.drawing.heading import Heading
from panelwright.drawing.legend import legend
from panelwright.drawing.paper import PAPERS
from panelwright.drawing.piece_drawing import PieceDrawing, draw_pieces
from panelwright.drawing.quarter_sheets import quarter_sheets
from panelwright.drawing.scale import QUARTER

Record = dict[str, Any]
HIP = {"level": "hip"}
LONG: Record = {"kind": "hem", "uid": "hem", "shape": "straight", "centre": HIP, "side": HIP}
LACED: Record = {"kind": "closure", "uid": "back", "place": "centre-back", "type": "lacing", "modesty_overlap_cm": 3}
BUTTONED: Record = {"kind": "closure", "uid": "front", "place": "centre-front", "type": "buttons"}
BONES: Record = {"kind": "bones", "uid": "stays"}
PLAIN = {"cut here", "stitch or finish here", "level of the body", "notch", "bust point; on a seam, half of it"}
FOLDED = {"lay on the fold", "points to the fold"}
SHELF = cache(BlockShelf)


def quarter(*steps: Record) -> tuple[PieceDrawing, ...]:
    document = {"format": "panelwright-design/1", "ref": "firefly-01", "title": "Firefly bodice", "steps": list(steps)}
    design = read_design(json.dumps(document))
    made = draw_design(design, SHELF().block(HIGH_BUST, design.block_options))
    assert made.complete, made.outcomes
    return draw_pieces(made.cutting, QUARTER)


def told(drawings: tuple[PieceDrawing, ...]) -> set[str]:
    return {sign.text for sign in legend((0.0, 0.0), 100.0, drawings) if isinstance(sign, Lettering)}


@pytest.mark.parametrize(
    ("steps", "more"),
    [((), FOLDED), ((LACED,), {*FOLDED, "eyelet"}), ((BUTTONED,), {"button"})],
)
def test_it_tells_what_is_drawn_and_nothing_else(steps: tuple[Record, ...], more: set[str]) -> None:
    found = told(quarter(*steps))
    assert PLAIN | more <= found
    assert not (FOLDED | {"eyelet", "button", "bone channel", "the block’s old line"}) - more & found


def test_a_bone_channel_is_told_where_one_is_drawn() -> None:
    drawn = quarter(LACED, BONES)
    inks = {sign.pen for piece in drawn for sign in piece.drawing if isinstance(sign, Stroke)}
    assert ("bone channel" in told(drawn)) == (pen.INSIDE_STITCH in inks)
    assert inks & {pen.INSIDE_STITCH, pen.GUIDE}


def test_five_narrow_pieces_are_on_one_page() -> None:
    drawn = quarter(LONG, LACED)
    assert len(drawn) == 5
    (sheet,) = quarter_sheets(drawn, Heading("Firefly bodice", "w-30"), PAPERS["A4"])
    assert (sheet.width, sheet.height) == (297.0, 210.0)
    assert_sheet_is_tidy(sheet)
