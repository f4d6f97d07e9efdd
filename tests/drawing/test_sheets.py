"""What stands on the sheets and where; what a PDF makes of them is read back in tests/output."""

from dataclasses import replace
from datetime import date
from itertools import pairwise

import numpy as np
import pytest
import shapely
from drawn_garment import MADE_ON, block, garment, heading
from lettering_room import box, crossings, letterings, overlaps
from plausible_bodies import plausible_bodies
from tidy_sheet import assert_sheet_is_tidy, recorded

from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import PLANS
from panelwright.body.units import Unit
from panelwright.drawing.drawing import Drawing, Lettering, Stroke
from panelwright.drawing.heading import Heading, date_text
from panelwright.drawing.large_sheets import large_sheets
from panelwright.drawing.paper import PAPERS
from panelwright.drawing.pen import HAIRLINE, SYMBOL
from panelwright.drawing.piece_drawing import PieceDrawing, draw_pieces
from panelwright.drawing.quarter_sheets import LAYER_ROOM, ROW_GAP, overview_sheet, quarter_sheets, stacked
from panelwright.drawing.scale import FULL, QUARTER
from panelwright.drawing.sheet import Laid, Sheet
from panelwright.drawing.tiled_sheets import tiled_plane, tiled_sheets
from panelwright.drawing.unrolled import gap, rows, unrolled
from panelwright.errors import InputError
from panelwright.finish.finishing import finish
from panelwright.finish.options import Cloths, Finish

EVERY_PAPER = pytest.mark.parametrize("name", sorted(PAPERS))
FACTS = heading(garment())


@pytest.fixture(scope="module")
def quarter() -> tuple[PieceDrawing, ...]:
    return draw_pieces(garment(), QUARTER, block())


@pytest.fixture(scope="module")
def full() -> tuple[PieceDrawing, ...]:
    return draw_pieces(garment(), FULL, block())


def placed(sheet: Sheet, drawn: PieceDrawing) -> Laid:
    return next(laid for laid in sheet.laid if laid.drawing is drawn.drawing)


@EVERY_PAPER
def test_quarter_sheets_are_tidy_and_complete(quarter: tuple[PieceDrawing, ...], name: str) -> None:
    sheets = quarter_sheets(quarter, FACTS, PAPERS[name])
    for sheet in sheets:
        assert_sheet_is_tidy(sheet)
    laid = [item.drawing for sheet in sheets for item in sheet.laid]
    assert all(sum(drawing is piece.drawing for drawing in laid) == 1 for piece in quarter)


def test_quarter_pieces_are_unrolled_from_centre_back_to_centre_front(quarter: tuple[PieceDrawing, ...]) -> None:
    assert [piece.piece for piece in unrolled(quarter)][:4] == ["CB", "SB", "SF", "CF"]
    sheet = quarter_sheets(quarter, FACTS, PAPERS["A4"])[0]
    lefts = [placed(sheet, piece).shift[0] + piece.box[0] for piece in unrolled(quarter)[:4]]
    assert lefts == sorted(lefts)


@pytest.mark.parametrize("panels", sorted(PLANS))
def test_panels_of_every_block_are_unrolled_in_body_order(quarter: tuple[PieceDrawing, ...], panels: int) -> None:
    """From the centre back at the left to the centre front, the underarm between the sides: the order of the seams."""
    round_the_body = [id for id, _ in PLANS[panels].panels]
    drawings = [replace(quarter[0], piece=id, panel=id) for id in round_the_body]
    mixed = drawings[1::2] + drawings[::2]
    for given in (drawings, drawings[::-1], mixed):
        assert [piece.piece for piece in unrolled(given)] == round_the_body[::-1]


def test_a_layer_is_spread_evenly_over_its_rows(quarter: tuple[PieceDrawing, ...]) -> None:
    """No piece stands alone where as many rows can share: the best of all ways to break the order is found."""
    pieces = unrolled(quarter)[:4]
    gaps = [gap(a, b) for a, b in pairwise(pieces)]
    wide = [piece.box[2] - piece.box[0] for piece in pieces]
    spans = [max(sum(wide[:k]) + sum(gaps[: k - 1]), sum(wide[k:]) + sum(gaps[k:])) for k in range(1, 4)]
    made = rows(pieces, sum(wide) + sum(gaps) - 1.0)
    assert len(made) == 2
    assert max(row.width for row in made) == pytest.approx(min(spans))


def test_between_quarter_pieces_two_drawn_allowances_stay_free(quarter: tuple[PieceDrawing, ...]) -> None:
    """At least two drawn allowances between panels: CP in the shared check values; here 5 mm and more (15 mm at CB)."""
    sheet = quarter_sheets(quarter, FACTS, PAPERS["A4"])[0]
    row = unrolled(quarter)[:4]
    areas = [shapely.affinity.translate(piece.area, *placed(sheet, piece).shift) for piece in row]
    for a, b, first, second in zip(areas[:-1], areas[1:], row[:-1], row[1:], strict=True):
        assert a.distance(b) >= 2 * max(first.allowance, second.allowance) - 1e-9


def test_waists_of_a_row_are_level(quarter: tuple[PieceDrawing, ...]) -> None:
    for row in rows(quarter, 190.0):
        heights = [shift[1] + piece.waist for piece, shift in row.laid if piece.waist is not None]
        assert np.ptp(heights) < 1e-9


def test_only_the_first_row_of_a_layer_leaves_room_for_its_name(quarter: tuple[PieceDrawing, ...]) -> None:
    """Rows of one layer follow one another at the row gap, so that two share a page wherever they can."""
    made = rows(quarter, 100.0)
    drawn = stacked(made, 0.0, 0.0, 100.0)
    places = {id(laid.drawing): laid.shift[1] for laid in drawn}
    tops = [max(places[id(p.drawing)] + p.box[3] for p, _ in row.laid) for row in made]
    bottoms = [min(places[id(p.drawing)] + p.box[1] for p, _ in row.laid) for row in made]
    for k, (before, after) in enumerate(pairwise(made)):
        wanted = ROW_GAP if before.layer == after.layer else ROW_GAP + LAYER_ROOM
        assert bottoms[k] - tops[k + 1] == pytest.approx(wanted)
    assert [row.layer for row in made].count("outer") > 1


def test_a_narrow_page_breaks_rows_and_a_small_one_refuses(quarter: tuple[PieceDrawing, ...]) -> None:
    assert len(rows(quarter, 100.0)) > 2
    small = replace(PAPERS["A4"], name="a card", width=80.0, height=110.0)
    with pytest.raises(InputError, match="at quarter scale, more than a page of a card holds: print the large sheet"):
        quarter_sheets(quarter, FACTS, small)


@pytest.mark.parametrize(
    ("unit", "length", "words", "one"),
    [
        (Unit.CM, 50.0, "20 cm of cloth", "1 cm of cloth is 2.5 mm here"),
        (Unit.INCH, 50.8, "8 in of cloth", "1 in of cloth is 1/4 in here"),
    ],
)
def test_the_scale_bar_is_true(
    quarter: tuple[PieceDrawing, ...], unit: Unit, length: float, words: str, one: str
) -> None:
    """20 cm at 1:4 are 50 mm; 8 inches at 1:4 are 2 inches, 50.8 mm."""
    page = recorded(quarter_sheets(quarter, replace(FACTS, unit=unit), PAPERS["A4"])[0])
    (bar,) = [s for s in page.strokes("sheet") if s.path.codes == "MLLLZ" and s.bounds[3] - s.bounds[1] < 5.0]
    assert bar.path.bounds[2] - bar.path.bounds[0] == pytest.approx(length)
    assert words in [text.text for text in page.letterings]
    assert any(one in text.text for text in page.letterings)


@EVERY_PAPER
@pytest.mark.parametrize(
    ("unit", "sides"),
    [
        (Unit.CM, {"40 mm": 40.0, "30 mm": 30.0, "20 mm": 20.0}),
        (Unit.INCH, {"1 1/2 in": 38.1, "1 in": 25.4, "3/4 in": 19.05}),
    ],
)
def test_every_quarter_sheet_has_a_square_to_measure(
    quarter: tuple[PieceDrawing, ...], name: str, unit: Unit, sides: dict[str, float]
) -> None:
    """It is as wide and as high as it says (an inch is 25.4 mm: ISO 80000-3), and the only text in it is its own."""
    facts = replace(FACTS, unit=unit)
    for sheet in (*quarter_sheets(quarter, facts, PAPERS[name]), overview_sheet(quarter, facts)):
        assert_sheet_is_tidy(sheet)
        page = recorded(sheet)
        (square,) = [s for s in page.strokes("sheet") if s.path.codes == "MLLLZ" and s.bounds[3] - s.bounds[1] > 5.0]
        left, bottom, right, top = square.bounds
        inside = [text for text in page.letterings if shapely.box(*square.bounds).contains(box(text))]
        assert (right - left, top - bottom) == pytest.approx((sides[inside[0].text],) * 2)
        assert " ".join(text.text for text in inside[1:]) == "wide and high on paper: measure it first"


def test_the_square_is_as_large_as_no_further_page_allows(quarter: tuple[PieceDrawing, ...]) -> None:
    """Paper that is too short for two rows above the large square has a smaller one, and as many pages."""
    squares, pages = set(), set()
    for height in np.arange(250.0, 350.0, 4.0):
        sheets = quarter_sheets(quarter, FACTS, replace(PAPERS["A4"], height=float(height)))
        pages.add(len(sheets))
        squares |= {text.text for text in recorded(sheets[0]).letterings if text.text in ("40 mm", "30 mm", "20 mm")}
    assert pages == {1, 2}
    assert squares == {"40 mm", "30 mm", "20 mm"}


def test_the_overview_holds_every_piece(quarter: tuple[PieceDrawing, ...]) -> None:
    sheet = overview_sheet(quarter, FACTS)
    assert_sheet_is_tidy(sheet)
    assert {id(piece.drawing) for piece in quarter} <= {id(laid.drawing) for laid in sheet.laid}


@EVERY_PAPER
@pytest.mark.parametrize("overlap", [0.0, 10.0])
def test_tiles_are_tidy(full: tuple[PieceDrawing, ...], name: str, overlap: float) -> None:
    sheets = tiled_sheets(full, FACTS, PAPERS[name], overlap)
    assert_sheet_is_tidy(sheets[0])
    for sheet in sheets[1:]:
        labels = [sign for sign, window in recorded(sheet).signs if window is None]
        assert overlaps([sign for sign in labels if isinstance(sign, Lettering)]) == []
        assert all(window is None or window[0] == PAPERS[name].margin for _, window in recorded(sheet).signs)


@EVERY_PAPER
@pytest.mark.parametrize("overlap", [0.0, 10.0])
def test_the_plane_has_no_text_on_text(full: tuple[PieceDrawing, ...], name: str, overlap: float) -> None:
    plane = tiled_plane(full, PAPERS[name], overlap)
    assert overlaps([sign for sign in plane.drawing if isinstance(sign, Lettering)]) == []
    lines = [s for s in plane.drawing if isinstance(s, Stroke) and s.pen == HAIRLINE]
    words = [s for s in plane.drawing if isinstance(s, Lettering) and s.layer == "text"]
    assert lines
    assert crossings(Drawing((*lines, *words))) == []


@EVERY_PAPER
def test_no_text_is_cut_where_pages_are_joined(name: str) -> None:
    """The text of a piece keeps clear of joins; a name that must stay by its line or sign is whole on one page."""
    for wearer in list(plausible_bodies(4))[::3]:
        finished = finish(make_block(wearer).pattern, Finish(facing="full", interfacing=True, lines={"hem": 25.0}))
        drawings = draw_pieces(finished, FULL)
        plane = tiled_plane(drawings, PAPERS[name])
        joins = shapely.union_all([shapely.LineString([join.start, join.end]) for join in plane.grid.joins])
        windows = [shapely.box(*plane.grid.window(tile)) for tile in plane.grid.tiles]
        before = {piece.piece: written(piece) for piece in drawings}
        for piece, shift in plane.laid:
            assert written(piece) == before[piece.piece]
            texts = [text.moved(shift) for text in letterings(piece.drawing)]
            assert all(box(text).distance(joins) > 1.0 for text in texts if text.size != FULL.small)
            assert all(any(window.contains(box(text)) for window in windows) for text in texts)
            assert crossings(piece.drawing) == []
            assert overlaps(letterings(piece.drawing)) == []


def written(piece: PieceDrawing) -> list[str]:
    """Every word on a piece; level names are left aside, for they may be left out."""
    words = " ".join(text.text for text in letterings(piece.drawing) if text.size != piece.scale.small)
    return words.split()


def test_pieces_on_the_plane_keep_apart(full: tuple[PieceDrawing, ...]) -> None:
    plane = tiled_plane(full, PAPERS["A4"])
    areas = [shapely.affinity.translate(piece.area, *shift) for piece, shift in plane.laid]
    for k, a in enumerate(areas):
        assert all(a.distance(b) > 4.0 for b in areas[k + 1 :])


def test_tiles_say_where_they_belong(full: tuple[PieceDrawing, ...]) -> None:
    sheets = tiled_sheets(full, FACTS, PAPERS["A4"])
    plane = tiled_plane(full, PAPERS["A4"])
    assert [(sheet.row, sheet.column) for sheet in sheets[1:]] == [(t.row, t.column) for t in plane.grid.tiles]
    for tile, sheet in zip(plane.grid.tiles, sheets[1:], strict=True):
        words = [text.text for text in recorded(sheet).letterings]
        assert f"row {tile.row_letter}, column {tile.column} of {plane.grid.columns}" in words
        (large,) = [text for text in recorded(sheet).letterings if text.text == f"{tile.row_letter}{tile.column}"]
        assert large.size >= 7.0
        assert 3.0 < large.at[1] < PAPERS["A4"].margin - 0.7 * large.size


def test_every_join_is_marked_on_both_of_its_tiles(full: tuple[PieceDrawing, ...]) -> None:
    """Two diamonds on a join, and its number at least once on each half, whole within both tiles' windows."""
    plane = tiled_plane(full, PAPERS["A4"])
    marks = [sign for sign in plane.drawing if sign.layer == "joining marks"]
    diamonds = [sign for sign in marks if isinstance(sign, Stroke) and sign.path.codes == "MLLLZ"]
    numbers = [sign for sign in marks if isinstance(sign, Lettering)]
    assert plane.grid.joins
    for join in plane.grid.joins:
        line = shapely.LineString([join.start, join.end])
        mine = [d for d in diamonds if line.distance(shapely.Point(d.path.points.mean(axis=0))) < 1e-6]
        assert len(mine) == 2
        for tile in (join.first, join.second):
            window = shapely.box(*plane.grid.window(tile))
            assert all(window.contains(shapely.box(*d.bounds)) for d in mine)
            shown = [n for n in numbers if n.text == str(join.number) and window.contains(box(n))]
            assert len(shown) == 4


def test_the_first_page_has_the_map_the_squares_and_the_pieces(full: tuple[PieceDrawing, ...]) -> None:
    page = recorded(tiled_sheets(full, FACTS, PAPERS["A4"])[0])
    words = [text.text for text in page.letterings]
    plane = tiled_plane(full, PAPERS["A4"])
    assert {tile.short for tile in plane.grid.tiles} <= set(words)
    assert {"100 mm", "4 in"} <= set(words)
    assert any(word.startswith("1 CF – Centre front") for word in words)
    assert "12 pages" in " ".join(words) or f"{len(plane.grid.tiles)} pages" in " ".join(words)
    squares = {round(s.bounds[2] - s.bounds[0], 6) for s in page.strokes("sheet") if s.path.codes == "MLLLZ"}
    assert {100.0, 101.6} <= squares


def test_the_page_map_is_a_true_picture(full: tuple[PieceDrawing, ...]) -> None:
    """Every piece's outline on the map is its cut line on the plane, made smaller by one factor."""
    plane = tiled_plane(full, PAPERS["A4"])
    page = recorded(tiled_sheets(full, FACTS, PAPERS["A4"])[0])
    outlines = [s.path.points for s in page.strokes("sheet") if len(s.path.points) > 8 and s.pen != SYMBOL]
    assert len(outlines) == len(full)
    factors, corners = [], []
    for outline, (piece, shift) in zip(outlines, plane.laid, strict=True):
        true = piece.cut_line + shift
        factor = np.ptp(outline[:, 1]) / np.ptp(true[:, 1])
        factors.append(factor)
        corners.append(outline[0] - factor * true[0])
    assert np.ptp(factors) < 1e-9
    assert np.ptp(corners, axis=0).max() < 1e-6


def test_every_piece_is_numbered_on_the_map_and_in_the_list(full: tuple[PieceDrawing, ...]) -> None:
    """The number lies inside the piece's own outline, clear of every text; the list gives it the piece's name."""
    page = recorded(tiled_sheets(full, FACTS, PAPERS["Letter"])[0])
    drawn = [s for s in page.strokes("sheet") if len(s.path.points) > 8 and s.pen != SYMBOL]
    outlines = [shapely.Polygon(s.path.points) for s in drawn]
    for number, (outline, piece) in enumerate(zip(outlines, full, strict=True), 1):
        (sign,) = [text for text in page.letterings if text.text == str(number)]
        assert outline.contains(box(sign))
        assert any(text.text.startswith(f"{number} {piece.piece} – ") for text in page.letterings)


def test_the_list_says_how_often_to_cut_as_the_piece_does() -> None:
    """`Cut 2 pairs in …` on a piece is `cut 2 pairs in …` in the list, never `cut 4`."""
    block = make_block(next(iter(plausible_bodies(1)))).pattern
    combined = Finish(facing="full", cloths=Cloths(outer="festival silk", facing="festival silk"))
    for options in (Finish(), Finish(facing="full", interfacing=True), combined):
        finished = finish(block, options)
        drawings = draw_pieces(finished, FULL)
        words = " ".join(text.text for text in recorded(tiled_sheets(drawings, FACTS, PAPERS["A3"])[0]).letterings)
        for number, (piece, cut) in enumerate(finished.pieces, 1):
            (line,) = [line for line in cut.text if line.startswith("Cut ")]
            assert f"{number} {cut.code} – {piece.label}, cut {line.removeprefix('Cut ')}" in words
            assert ("pair" in line) == (cut.cuts[0].mode == "pair")


@pytest.mark.parametrize(("cloth", "name"), [("outer", "Outer cloth, for the facing too"), ("cotton", "Outer cloth")])
def test_the_name_of_a_layer_tells_of_a_facing_cut_with_it(cloth: str, name: str) -> None:
    finished = finish(block(), Finish(facing="full", cloths=Cloths(facing=cloth)))
    page = recorded(quarter_sheets(draw_pieces(finished, QUARTER), FACTS, PAPERS["A3"])[0])
    assert [text.text for text in page.letterings if text.text.startswith("Outer cloth")] == [name]


def test_many_pieces_still_fit_on_the_first_page(full: tuple[PieceDrawing, ...]) -> None:
    many = tuple(replace(piece, piece=f"{piece.piece}-{k}") for k in range(6) for piece in full)
    sheet = tiled_sheets(many, FACTS, PAPERS["Letter"])[0]
    assert_sheet_is_tidy(sheet)
    assert any("more pieces" in text.text for text in recorded(sheet).letterings)


def test_the_large_sheet_is_tidy_and_no_wider_than_asked(full: tuple[PieceDrawing, ...]) -> None:
    (sheet,) = large_sheets(full, FACTS, 900.0)
    assert_sheet_is_tidy(sheet)
    assert sheet.width <= 900.0
    (narrow,) = large_sheets(full, FACTS, 600.0)
    assert narrow.width <= 600.0
    assert narrow.height > sheet.height


def test_pieces_on_the_large_sheet_keep_apart(full: tuple[PieceDrawing, ...]) -> None:
    (sheet,) = large_sheets(full, FACTS)
    areas = [shapely.affinity.translate(piece.area, *placed(sheet, piece).shift) for piece in full]
    assert all(a.distance(b) > 5.0 for k, a in enumerate(areas) for b in areas[k + 1 :])


def test_a_second_large_sheet_is_begun_where_a_page_would_end(full: tuple[PieceDrawing, ...]) -> None:
    sheets = large_sheets(full, FACTS, 400.0, longest=1200.0)
    assert len(sheets) > 1
    for sheet in sheets:
        assert sheet.height <= 1200.0
        assert_sheet_is_tidy(sheet)
    laid = [item.drawing for sheet in sheets for item in sheet.laid]
    assert all(sum(drawing is piece.drawing for drawing in laid) == 1 for piece in full)


@pytest.mark.parametrize(
    ("width", "longest", "sentence"),
    [(150.0, 5080.0, "is .* mm wide and a sheet of 150 mm has room for 130 mm: choose a wider sheet or print tiles"),
     (900.0, 500.0, "is .* mm long and a page ends at 500 mm: print tiles")],
)  # fmt: skip
def test_a_piece_too_large_for_a_sheet_is_refused(
    full: tuple[PieceDrawing, ...], width: float, longest: float, sentence: str
) -> None:
    with pytest.raises(InputError, match=sentence):
        large_sheets(full, FACTS, width, longest)


def test_the_heading_says_what_the_caller_gave() -> None:
    notes = FACTS.notes("full scale")
    assert notes[0] == "Wearer w-07 · 25 November 2026 · full scale · lengths in centimetres"
    assert notes[1] == "Estimated, measure before cutting: bust point span, and 1 more: see the findings."
    assert Heading("a", "b").notes("full scale") == ["Wearer b · full scale · lengths in centimetres"]
    assert date_text(date(2027, 3, 1)) == "1 March 2027"
    assert FACTS.made_on == MADE_ON


@pytest.mark.parametrize(
    ("estimated", "note"),
    [
        (("stature", "bust_point_span", "upper_bust_girth"),
         "Estimated, measure before cutting: upper bust girth, bust point span, and 1 more: see the findings."),
        (("upper_bust_girth",), "Estimated, measure before cutting: upper bust girth."),
        (("stature", "across_back"), "Estimated, not measured: 2, see the findings."),
    ],
)  # fmt: skip
def test_the_heading_names_what_to_measure_first(estimated: tuple[str, ...], note: str) -> None:
    """What the fit of a bodice hangs on most (CP), in the order in which to take it; the rest is counted."""
    assert Heading("a", "b", estimated=estimated).notes("full scale")[1:] == [note]


@pytest.mark.parametrize("title", ["", "m" * 300, "A lantern " * 40, "提灯"])
def test_any_title_keeps_the_sheets_tidy(
    quarter: tuple[PieceDrawing, ...], full: tuple[PieceDrawing, ...], title: str
) -> None:
    facts = replace(FACTS, title=title, estimated=("a_long_measurement_name",) * 13)
    for sheet in (*quarter_sheets(quarter, facts, PAPERS["A4"]), tiled_sheets(full, facts, PAPERS["Letter"])[0]):
        assert_sheet_is_tidy(sheet)


def test_windows_cull_only_what_cannot_show() -> None:
    near = Lettering("near", (5.0, 5.0), 3.0)
    far = Lettering("far", (50.0, 5.0), 3.0)
    assert Drawing((near, far)).within((0, 0, 10, 10)).signs == (near,)
