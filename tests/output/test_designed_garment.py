"""The festival troupe's garments, designed and finished by the real stages, on paper: tidy, true and complete."""

import pikepdf
import pytest
import shapely
from drawn_garment import MADE_ON
from lettering_room import crossings, letterings, overlaps
from pdf_reading import read_paths

from panelwright.app.demo.troupe import designs, troupe
from panelwright.app.garment import Garment, make_garment
from panelwright.drawing.drawing import Drawing, Lettering
from panelwright.drawing.heading import Heading
from panelwright.drawing.large_sheets import large_sheets
from panelwright.drawing.paper import PAPERS
from panelwright.drawing.piece_drawing import draw_pieces
from panelwright.drawing.quarter_sheets import quarter_sheets
from panelwright.drawing.recorder import Recorder
from panelwright.drawing.scale import FULL, QUARTER, Scale
from panelwright.drawing.tiled_sheets import tiled_plane, tiled_sheets
from panelwright.output.pdf import write_pdf


@pytest.fixture(scope="module", params=range(4), ids=["lantern", "ribbon", "drum", "round"])
def made(request: pytest.FixtureRequest) -> Garment:
    """Each design once, each for another dancer."""
    return make_garment(list(troupe())[request.param].wearer, list(designs())[request.param].design)


def heading(made: Garment) -> Heading:
    return Heading.of(made.cutting.pattern, "Lantern bodice", MADE_ON)


@pytest.mark.parametrize("scale", [FULL, QUARTER], ids=["full", "quarter"])
def test_text_is_clear_on_every_piece(made: Garment, scale: Scale) -> None:
    for drawn in draw_pieces(made.cutting, scale, made.block.pattern):
        texts = letterings(drawn.drawing)
        assert overlaps(texts) == []
        assert crossings(drawn.drawing) == []
        words = " ".join(text.text for text in texts)
        for line in made.cutting.cut[drawn.piece].text:
            assert all(word in words for word in line.split())


@pytest.mark.parametrize("name", sorted(PAPERS))
def test_every_sheet_is_tidy(made: Garment, name: str) -> None:
    quarter = draw_pieces(made.cutting, QUARTER, made.block.pattern)
    full = draw_pieces(made.cutting, FULL, made.block.pattern)
    tiled = tiled_sheets(full, heading(made), PAPERS[name])
    for sheet in (*quarter_sheets(quarter, heading(made), PAPERS[name]), tiled[0], *large_sheets(full, heading(made))):
        recorder = Recorder()
        sheet.draw(recorder)
        texts = recorder.pages[0].letterings
        assert overlaps(texts) == []
        page = shapely.box(3, 3, sheet.width - 3, sheet.height - 3)
        assert all(page.contains(shapely.Polygon(text.box)) for text in texts)
    plane = tiled_plane(full, PAPERS[name])
    assert overlaps([sign for sign in plane.drawing if isinstance(sign, Lettering)]) == []


def test_tiles_put_together_are_the_cut_line(made: Garment, tmp_path_factory: pytest.TempPathFactory) -> None:
    """Read back with pikepdf, moved by row and column, against the cutting pattern's own numbers: within 0.2 mm."""
    full = draw_pieces(made.cutting, FULL, made.block.pattern)
    path = tmp_path_factory.mktemp("tiles") / "tiles.pdf"
    write_pdf(tiled_sheets(full, heading(made), PAPERS["A4"]), path, "tiles", MADE_ON)
    plane = tiled_plane(full, PAPERS["A4"])
    parts = []
    with pikepdf.open(path) as pdf:
        for page, tile in zip(list(pdf.pages)[1:], plane.grid.tiles, strict=True):
            shift = ((tile.column - 1) * 180.0 - 10.0, -(tile.row - 1) * 267.0 - 287.0)
            for read in read_paths(page):
                on_fold = read.layer == "grain and fold" and len(read.dash) == 4
                if read.window is not None and read.painted == "S" and (read.layer == "cut lines" or on_fold):
                    shown = shapely.intersection(shapely.MultiLineString(read.polylines), shapely.box(*read.window))
                    parts.append(shapely.affinity.translate(shown, *shift))
    together = shapely.union_all(parts)
    rings = [
        shapely.affinity.translate(shapely.LinearRing(made.cutting.cut[piece.piece].cut_line), *shift)
        for piece, shift in plane.laid
    ]
    model = shapely.union_all(rings)
    assert together.buffer(0.2).contains(model)
    assert model.buffer(0.2).contains(together)


def test_the_old_line_is_faint_and_only_on_the_shell(made: Garment) -> None:
    shell = {piece.id for piece in made.cutting.pattern.pieces if piece.material}
    for drawn in draw_pieces(made.cutting, FULL, made.block.pattern):
        old = Drawing(tuple(sign for sign in drawn.drawing if sign.layer == "old block line"))
        assert bool(old.signs) == (drawn.layer == "outer" and drawn.piece in shell)
        if old.signs:
            left, bottom, right, top = drawn.area.bounds
            reach = FULL.old_line_reach + 0.01
            assert old.bounds[0] >= left - reach
            assert old.bounds[1] >= bottom - reach
            assert old.bounds[2] <= right + reach
            assert old.bounds[3] <= top + reach
