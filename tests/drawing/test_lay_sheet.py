"""Lay sheets: everything that a maker measures stands on them, at 1:10, and nothing hides anything."""

import re
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
import shapely
from drawn_garment import garment, heading
from lettering_room import letterings
from plain_cutting_pattern import plain_cutting_pattern
from tidy_sheet import assert_sheet_is_tidy, recorded

from panelwright.body.units import Unit
from panelwright.drawing.drawing import Stroke
from panelwright.drawing.lay_drawing import PIECE, STUB, LayDrawing
from panelwright.drawing.lay_label import cut_here, length_number
from panelwright.drawing.lay_list import LIST_TITLE, piece_list
from panelwright.drawing.lay_sheet import lay_picture, lay_sheets
from panelwright.drawing.lay_stretch import whole_lay
from panelwright.drawing.lay_strip import SELVAGE
from panelwright.drawing.lay_words import buying_words, lay_notes
from panelwright.drawing.paper import PAPERS
from panelwright.drawing.sheet import Sheet
from panelwright.finish.cut_piece import Cut
from panelwright.lay.cloth import Cloth
from panelwright.lay.lay import LaidPiece, Lay
from panelwright.lay.lay_garment import lay_garment

TENTH = 0.1
EVERY_LAY = pytest.mark.parametrize(
    ("width", "folded", "one_way"),
    [(1400.0, True, False), (1400.0, False, True), (900.0, False, False), (500.0, True, True), (320.0, True, False)],
)


@cache
def lays(width: float, folded: bool, one_way: bool = False) -> tuple[Lay, ...]:
    cloths = {name: Cloth(name, width, folded, one_way) for name in ("outer", "facing")}
    return lay_garment(plain_cutting_pattern(), cloths)


def texts(sheet: Sheet) -> list[str]:
    return [lettering.text for lettering in recorded(sheet).letterings]


@EVERY_LAY
@pytest.mark.parametrize("paper", sorted(PAPERS))
def test_sheets_are_tidy_and_lie_crosswise(width: float, folded: bool, one_way: bool, paper: str) -> None:
    for sheet in lay_sheets(lays(width, folded, one_way)[0], heading(garment()), PAPERS[paper]):
        assert (sheet.width, sheet.height) == (PAPERS[paper].height, PAPERS[paper].width)
        assert_sheet_is_tidy(sheet)


@EVERY_LAY
@pytest.mark.parametrize("unit", [Unit.CM, Unit.INCH])
def test_name_side_and_both_distances_stand_on_every_piece_or_else_a_number(
    width: float, folded: bool, one_way: bool, unit: Unit
) -> None:
    """The rule of the cutting table (common practice): the two are equal, so the same number stands there twice."""
    for lay in lays(width, folded, one_way):
        for laid in lay.laid:
            drawn = alone(lay, laid, TENTH, unit)
            words = [text.text for text in letterings(drawn.drawing(drawn.stretches[0]))]
            if drawn.numbers:
                assert words == ["1"]
                continue
            assert words.count(length_number(lay.grain_distances(laid)[0], unit)) == 2
            assert cut_here(lay, laid) in " ".join(words)
            assert laid.piece.label in " ".join(words) or laid.piece.code in " ".join(words)


def test_numbered_pieces_are_listed_with_name_side_and_distances() -> None:
    """At a size where nothing holds words every piece is numbered once, and its row says all that it does not."""
    lay = lays(1400.0, False)[0]
    narrow = replace(lay, laid=tuple(laid for laid in lay.laid if laid.piece.id == "CB"))
    drawn = LayDrawing(narrow, (whole_lay(narrow),), 0.03, Unit.CM)
    assert sorted(drawn.numbers.values()) == list(range(1, len(narrow.laid) + 1))
    rows = [text for strip in piece_list(drawn, 120.0) for text in (sign.text for sign in letterings(strip.drawing))]
    assert rows[0] == LIST_TITLE
    for laid, number in drawn.numbers.items():
        first, second = (length_number(distance, Unit.CM) for distance in lay.grain_distances(laid))
        row = rows.index(str(number))
        assert rows[row + 1 : row + 4] == ["Centre back (CB)", f"1, {cut_here(lay, laid)}", f"{first} and {second}"]
    big = LayDrawing(narrow, (whole_lay(narrow),), 0.5, Unit.CM)
    assert big.numbers == {}
    assert piece_list(big, 120.0) == []


@pytest.mark.parametrize("share", [1.0, 0.25])
def test_grain_stubs_end_inside_their_piece(share: float) -> None:
    """At a quarter of the size too, where pieces are narrower than a stub is long."""
    for lay in (lays(1400.0, True)[0], lays(1400.0, False)[1]):
        for laid in lay.laid:
            drawn = alone(lay, laid, share * TENTH)
            signs = drawn.drawing(drawn.stretches[0])
            stubs = [sign.path for sign in signs if isinstance(sign, Stroke) and sign.pen == STUB]
            area = shapely.Polygon(laid.outline * share * TENTH)
            assert len(stubs) == 2
            assert all(area.covers(shapely.LineString(stub.points)) for stub in stubs)
            assert all(0.3 < np.ptp(stub.points[:, 1]) <= 3.2 + 1e-9 for stub in stubs)


def alone(lay: Lay, laid: LaidPiece, factor: float, unit: Unit = Unit.CM) -> LayDrawing:
    one = replace(lay, laid=(laid,))
    return LayDrawing(one, (whole_lay(one),), factor, unit)


def test_lettering_lies_within_its_own_piece() -> None:
    for lay in lays(1400.0, True):
        for laid in lay.laid:
            area = laid.area
            drawn = alone(lay, laid, TENTH)
            for text in letterings(drawn.drawing(drawn.stretches[0])):
                assert area.contains(shapely.Polygon(text.box / TENTH))


@pytest.mark.parametrize(("width", "folded", "reduction"), [(1400.0, True, 5), (1400.0, False, 10), (1900.0, True, 8)])
def test_cloth_and_pieces_are_drawn_at_the_scale_that_the_head_states(
    width: float, folded: bool, reduction: int
) -> None:
    """Measured on the sheet: the selvage edge, and every cut line, is its true length divided by the reduction."""
    (lay, _) = lays(width, folded)
    (sheet,) = lay_sheets(lay, heading(garment()), PAPERS["A4"])
    assert f"drawn at 1:{reduction} " in " ".join(texts(sheet))
    strokes = [sign for laid in sheet.laid for sign in laid.drawing if isinstance(sign, Stroke)]
    for selvage in (stroke for stroke in strokes if stroke.pen == SELVAGE):
        assert selvage.bounds[2] - selvage.bounds[0] == pytest.approx(lay.to_buy / reduction, abs=1e-9)
    drawn = sorted(float(np.ptp(stroke.path.points[:, 0])) for stroke in strokes if stroke.pen == PIECE)
    true = sorted(float(np.ptp(laid.outline[:, 0])) for laid in lay.laid)
    assert drawn == pytest.approx([length / reduction for length in true], abs=1e-9)


def test_the_edges_are_named() -> None:
    (folded,) = lay_sheets(lays(1400.0, True)[0], heading(garment()), PAPERS["A4"])
    assert {"both selvages", "fold"} <= set(texts(folded))
    (spread,) = lay_sheets(lays(1400.0, False, True)[0], heading(garment()), PAPERS["A4"])
    assert texts(spread).count("selvage") == 2
    assert "one-way cloth: all tops this way" in texts(spread)


def test_a_long_lay_goes_on_in_strips_that_show_all_of_it() -> None:
    (lay, _) = lays(320.0, True)
    assert lay.length > 1000
    sheets = lay_sheets(replace(lay, cloth=replace(lay.cloth, sold_by=4000.0)), heading(garment()), PAPERS["A4"])
    edges = [
        stroke.bounds[2] - stroke.bounds[0]
        for sheet in sheets
        for laid in sheet.laid
        for stroke in laid.drawing
        if isinstance(stroke, Stroke) and stroke.pen == SELVAGE
    ]
    assert len(sheets) == 1
    reduction = int(re.findall(r"drawn at 1:(\d+)", " ".join(texts(sheets[0])))[0])
    assert reduction <= 10
    assert len(edges) >= 2
    assert max(edges) <= 277.0
    wanted = (4000.0 + 50.0 * (len(edges) - 1)) / reduction  # the overlaps are shown twice
    assert sum(edges) == pytest.approx(wanted, abs=1e-6)
    words = [text for sheet in sheets for text in texts(sheet)]
    assert all(any(laid.piece.label in text or laid.piece.code in text for text in words) for laid in lay.laid)


def test_cloth_too_wide_for_the_page_is_drawn_smaller_and_says_so() -> None:
    (lay, _) = lays(2800.0, False)
    (sheet,) = lay_sheets(lay, heading(garment()), PAPERS["A4"])
    assert_sheet_is_tidy(sheet)
    assert "drawn at 1:20" in " ".join(texts(sheet))


def test_one_picture_holds_all_lays() -> None:
    both = lays(1400.0, True)
    picture = lay_picture(both, heading(garment()))
    assert_sheet_is_tidy(picture)
    words = " ".join(texts(picture))
    assert all(buying_words(lay, Unit.CM)[:30] in words for lay in both)


def test_what_to_buy_in_words() -> None:
    (lay, _) = lays(1400.0, True)
    lay = replace(lay, cloth=replace(lay.cloth, price=10.0))
    assert buying_words(lay, Unit.CM) == (
        f"Outer cloth, 140.0 cm wide, folded lengthwise, right sides together: buy {lay.to_buy / 10:.1f} cm "
        f"({lay.to_buy / 100:.2f} at 10.00 a metre). The lay is {lay.length / 10:.1f} cm long; "
        f"{100 * lay.use:.0f} % of it becomes pieces."
    )


def test_notes_say_what_to_mind() -> None:
    plain = lays(1400.0, True)[0]
    assert len(lay_notes(plain, Unit.CM)) == 1
    cloth = replace(plain.cloth, assumed=True, shrinkage=0.05, one_way=True)
    notes = " ".join(lay_notes(replace(plain, cloth=cloth), Unit.CM))
    assert "140.0 cm is assumed" in notes
    assert "5 % more" not in notes
    assert "loses 5 %" in notes
    assert "no piece may be turned round" in notes
    spread = " ".join(lay_notes(lays(1400.0, False)[0], Unit.CM))
    assert "Opened pieces" in spread
    assert "Face down" in spread


def test_a_spare_piece_is_named() -> None:
    cutting = plain_cutting_pattern(faced=False)
    single = replace(cutting.cut["SF"], cuts=(Cut("outer", "single", 1),))
    pattern = cutting.pattern.with_pieces(replace(cutting.pattern.piece("SF"), hand="right"))
    cutting = replace(cutting, pattern=pattern, cut={**cutting.cut, "SF": single})
    (lay,) = lay_garment(cutting, {"outer": Cloth("outer", folded=True)})
    (note,) = (note for note in lay_notes(lay, Unit.CM) if "spare" in note)
    assert "Side front" in note
    assert "Centre" not in note
