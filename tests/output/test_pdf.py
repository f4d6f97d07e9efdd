"""Every PDF is read back by two other readers: pikepdf (operators, fonts) and pypdfium2 (pixels, words)."""

import json
from collections.abc import Sequence
from pathlib import Path

import numpy as np
import pikepdf
import pypdfium2
import pytest
import shapely
from drawn_garment import MADE_ON, block, garment, heading
from pdf_reading import ReadPath, read_paths, text_of

from panelwright.drawing.drawing import LAYERS, Drawing, Lettering
from panelwright.drawing.large_sheets import large_sheets
from panelwright.drawing.paper import PAPERS
from panelwright.drawing.piece_drawing import PieceDrawing, draw_pieces
from panelwright.drawing.quarter_sheets import quarter_sheets
from panelwright.drawing.scale import FULL, QUARTER
from panelwright.drawing.sheet import Laid, Sheet
from panelwright.drawing.tiled_sheets import TiledPlane, tiled_plane, tiled_sheets
from panelwright.errors import OutputError
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.output.pattern_file import pattern_to_json, read_pattern
from panelwright.output.pdf import pdf_bytes, write_pdf

FACTS = heading(garment())
MM = 25.4 / 72
TITLE = "Lantern dance bodice"


@pytest.fixture(scope="module")
def finished() -> CuttingPattern:
    return garment()


@pytest.fixture(scope="module")
def quarter(finished: CuttingPattern) -> tuple[PieceDrawing, ...]:
    return draw_pieces(finished, QUARTER, block())


@pytest.fixture(scope="module")
def full(finished: CuttingPattern) -> tuple[PieceDrawing, ...]:
    return draw_pieces(finished, FULL, block())


@pytest.fixture(scope="module")
def written(
    quarter: tuple[PieceDrawing, ...], full: tuple[PieceDrawing, ...], tmp_path_factory: pytest.TempPathFactory
) -> dict[str, tuple[Path, tuple[Sheet, ...]]]:
    """Name -> (file, its sheets) of every kind of document."""
    folder = tmp_path_factory.mktemp("pdf")
    kinds = {"large": large_sheets(full, FACTS)}
    for name, paper in PAPERS.items():
        kinds[f"quarter-{name}"] = quarter_sheets(quarter, FACTS, paper)
        kinds[f"tiled-{name}"] = tiled_sheets(full, FACTS, paper)
    made = {}
    for kind, sheets in kinds.items():
        path = folder / f"{kind}.pdf"
        write_pdf(sheets, path, TITLE, MADE_ON)
        made[kind] = (path, sheets)
    return made


KINDS = pytest.mark.parametrize(
    "kind", ["large", *(f"{kind}-{name}" for name in PAPERS for kind in ("quarter", "tiled"))]
)
TILED = pytest.mark.parametrize("name", sorted(PAPERS))


def drawn_on(page: pikepdf.Page, layer: str) -> list[ReadPath]:
    return [path for path in read_paths(page) if path.layer == layer and path.painted == "S"]


@KINDS
def test_pages_have_exactly_their_size(written: dict[str, tuple[Path, tuple[Sheet, ...]]], kind: str) -> None:
    path, sheets = written[kind]
    with pikepdf.open(path) as pdf:
        assert len(pdf.pages) == len(sheets)
        for page, sheet in zip(pdf.pages, sheets, strict=True):
            box = [float(value) * MM for value in page.MediaBox]
            assert box == pytest.approx([0, 0, sheet.width, sheet.height], abs=0.01)
            assert "/UserUnit" not in page
            assert "/Rotate" not in page
    document = pypdfium2.PdfDocument(path)
    for k, sheet in enumerate(sheets):
        assert [side * MM for side in document[k].get_size()] == pytest.approx([sheet.width, sheet.height], abs=0.01)
    document.close()


@KINDS
def test_fonts_are_embedded_and_there_is_no_image(
    written: dict[str, tuple[Path, tuple[Sheet, ...]]], kind: str
) -> None:
    with pikepdf.open(written[kind][0]) as pdf:
        fonts = [thing for thing in pdf.objects if isinstance(thing, pikepdf.Dictionary) and "/BaseFont" in thing]
        inner = [font["/DescendantFonts"][0] if "/DescendantFonts" in font else font for font in fonts]
        assert len(inner) >= 2
        assert all({"/FontFile2", "/FontFile3"} & set(font["/FontDescriptor"].keys()) for font in inner)
        for thing in pdf.objects:
            if isinstance(thing, (pikepdf.Dictionary, pikepdf.Stream)):
                assert thing.get("/Subtype") != "/Image"


@KINDS
def test_the_document_is_whole(written: dict[str, tuple[Path, tuple[Sheet, ...]]], kind: str) -> None:
    with pikepdf.open(written[kind][0]) as pdf:
        assert pdf.check_pdf_syntax() == []
        assert str(pdf.docinfo["/Title"]) == TITLE
        assert str(pdf.docinfo["/CreationDate"]).startswith("D:20261125")


@KINDS
def test_layers_are_named(written: dict[str, tuple[Path, tuple[Sheet, ...]]], kind: str) -> None:
    with pikepdf.open(written[kind][0]) as pdf:
        properties = pdf.Root["/OCProperties"]
        names = [str(group["/Name"]) for group in properties["/OCGs"]]
        assert len(names) == len(set(names))
        wanted = set(LAYERS) if "tiled" in kind else set(LAYERS) - {"joining marks"}
        assert set(names) == wanted
        assert len(properties["/D"]["/ON"]) == len(names)


def test_words_are_read_back(written: dict[str, tuple[Path, tuple[Sheet, ...]]]) -> None:
    words = text_of(written["quarter-A4"][0], 0)
    assert all(part in words for part in (TITLE, "Wearer w-07", "quarter scale, 1:4", "25 November 2026"))
    assert "Measure this square first" in text_of(written["tiled-A4"][0], 0)
    assert "row A, column 1 of" in text_of(written["tiled-A4"][0], 1)


@TILED
def test_the_hundred_millimetres_are_true_in_the_operators(
    written: dict[str, tuple[Path, tuple[Sheet, ...]]], name: str
) -> None:
    with pikepdf.open(written[f"tiled-{name}"][0]) as pdf:
        squares = [path.polylines[0] for path in drawn_on(pdf.pages[0], "sheet") if len(path.polylines[0]) == 5]
    sides = {tuple(np.ptp(square, axis=0).round(3)) for square in squares}
    assert any(side == pytest.approx((100.0, 100.0), abs=0.1) for side in sides)
    assert any(side == pytest.approx((101.6, 101.6), abs=0.1) for side in sides)


@pytest.mark.parametrize("kind", ["tiled-A4", "tiled-A3", "tiled-Letter", "large"])
def test_the_hundred_millimetres_are_true_in_pixels(
    written: dict[str, tuple[Path, tuple[Sheet, ...]]], kind: str
) -> None:
    """Rendered at 400 dots per inch by pypdfium2; from line middle to line middle of the square, both ways."""
    path, sheets = written[kind]
    square = next(
        sign.bounds
        for laid in sheets[0].laid
        for sign in laid.drawing.moved(laid.shift)
        if sign.layer == "sheet"
        and abs(sign.bounds[2] - sign.bounds[0] - 100.0) < 1e-6
        and not isinstance(sign, Lettering)
    )
    left, bottom, right, top = square
    document = pypdfium2.PdfDocument(path)
    page = document[0]
    margin = 3.0
    crop = (left - margin, bottom - margin, sheets[0].width - right - margin, sheets[0].height - top - margin)
    shown = page.render(scale=400 / 72, crop=tuple(edge / MM for edge in crop), grayscale=True).to_numpy()
    document.close()
    dots = shown.reshape(shown.shape[:2]) < 128
    pixel = 25.4 / 400
    # Low down and far right, where no word stands in the square.
    for line in (dots[dots.shape[0] * 85 // 100], dots[:, dots.shape[1] * 92 // 100]):
        places = np.flatnonzero(line)
        first, last = places[places < len(line) // 10], places[places > len(line) - len(line) // 10]
        assert (last.mean() - first.mean()) * pixel == pytest.approx(100.0, abs=0.1)


def cubics(paths: Sequence[ReadPath]) -> int:
    return sum(kind == "c" for path in paths for run in path.runs for kind, _ in run)


def reassembled(path: Path, plane: TiledPlane, layer: str) -> list[tuple[shapely.Geometry, ReadPath]]:
    """What every tile's operators draw inside its window, moved to the tile's place on the plane.

    The step from tile to tile is worked out here from the paper: page less two margins of 10 mm, less the overlap.
    """
    grid = plane.grid
    found = []
    with pikepdf.open(path) as pdf:
        for page, tile in zip(list(pdf.pages)[1:], grid.tiles, strict=True):
            step = (grid.paper.width - 20.0 - grid.overlap, grid.paper.height - 20.0 - grid.overlap)
            shift = ((tile.column - 1) * step[0] - 10.0, -(tile.row - 1) * step[1] - (grid.paper.height - 10.0))
            for read in drawn_on(page, layer):
                assert read.window is not None
                assert read.window == pytest.approx((10, 10, grid.paper.width - 10, grid.paper.height - 10), abs=0.01)
                lines = shapely.MultiLineString(read.polylines)
                shown = shapely.intersection(lines, shapely.box(*read.window))
                if not shown.is_empty:
                    found.append((shapely.affinity.translate(shown, *shift), read))
    return found


@TILED
@pytest.mark.parametrize("layer", ["stitch lines", "cut lines"])
def test_tiles_put_together_are_the_pattern(
    written: dict[str, tuple[Path, tuple[Sheet, ...]]],
    finished: CuttingPattern,
    full: tuple[PieceDrawing, ...],
    name: str,
    layer: str,
) -> None:
    """Both ways within 0.2 mm of pattern.json: nothing of it is missing on the tiles, and they show nothing else."""
    in_file = read_pattern(json.dumps(pattern_to_json(finished)).encode())
    plane = tiled_plane(full, PAPERS[name])
    joined = reassembled(written[f"tiled-{name}"][0], plane, layer)
    together = shapely.union_all([shape for shape, _ in joined])
    wanted = []
    for piece, cut in in_file.pieces:
        shift = next(shift for drawn, shift in plane.laid if drawn.piece == piece.id)
        if layer == "cut lines":
            lines = shapely.LinearRing(cut.cut_line)
            if piece.extent == "half_on_fold":  # the cut line lies on the fold there, which is drawn as a fold
                lines = lines.difference(shapely.box(-0.01, -2000, 0.01, 2000))
        else:
            lines = shapely.MultiLineString([e.curve.polyline() for e in piece.edges if e.kind != "fold"])
        wanted.append(shapely.affinity.translate(lines, *shift))
    model = shapely.union_all(wanted)
    assert together.buffer(0.2).contains(model)
    assert model.buffer(0.2).contains(together)
    if layer == "stitch lines":
        assert cubics([read for _, read in joined]) > 100


def test_a_tile_in_the_wrong_place_would_be_noticed(
    written: dict[str, tuple[Path, tuple[Sheet, ...]]], full: tuple[PieceDrawing, ...]
) -> None:
    """The same check fails when one tile lies 0.3 mm off: half a millimetre of outline no longer agrees."""
    plane = tiled_plane(full, PAPERS["A4"])
    shapes = [shape for shape, _ in reassembled(written["tiled-A4"][0], plane, "stitch lines")]
    whole = shapely.union_all(shapes)
    moved = shapely.union_all([shapely.affinity.translate(shapes[0], 0.3, 0.0), *shapes[1:]])
    assert not whole.buffer(0.2).contains(moved)


def test_the_quarter_sheet_is_exactly_a_quarter(
    written: dict[str, tuple[Path, tuple[Sheet, ...]]], finished: CuttingPattern
) -> None:
    """Outline at 1/4 and cut line 2.5 mm from it where the allowance is 10 mm (3.75 mm where it is 15), read back."""
    path, sheets = written["quarter-A4"]
    with pikepdf.open(path) as pdf:
        pages = [(drawn_on(page, "stitch lines"), drawn_on(page, "cut lines")) for page in pdf.pages]
    for piece, cut in finished.pieces:
        number, laid = next(
            (k, laid)
            for k, sheet in enumerate(sheets)
            for laid in sheet.laid
            if any(sign.layer == "cut lines" for sign in laid.drawing) and _is_of(laid, cut.cut_line)
        )
        read_stitch = shapely.MultiLineString([run for read in pages[number][0] for run in read.polylines])
        read_cut = shapely.MultiLineString([run for read in pages[number][1] for run in read.polylines])
        for edge in piece.edges:
            if edge.kind == "fold":
                continue
            points = np.array([edge.curve.point(share * edge.curve.length) for share in (0.3, 0.5, 0.7)])
            on_page = points / 4 + laid.shift
            assert shapely.distance(shapely.points(on_page), read_stitch).max() < 0.005
            gaps = shapely.distance(shapely.points(on_page), read_cut)
            assert gaps == pytest.approx(cut.allowances[edge.id] / 4, abs=0.01)
    assert {cut.allowances["SF.side"] / 4 for _, cut in finished.pieces if cut.piece == "SF"} == {2.5}


def _is_of(laid: Laid, cut_line: np.ndarray) -> bool:
    lines = [sign for sign in laid.drawing if sign.layer == "cut lines"]
    return bool(np.abs(lines[0].path.points[:, None] - cut_line / 4).max(axis=-1).min(axis=1).max() < 1e-9)


def test_line_weights_are_those_of_the_pens_at_every_scale(
    written: dict[str, tuple[Path, tuple[Sheet, ...]]],
) -> None:
    weights = {}
    for kind in ("quarter-A4", "tiled-A4", "large"):
        with pikepdf.open(written[kind][0]) as pdf:
            weights[kind] = {
                layer: {round(path.width, 3) for page in pdf.pages for path in drawn_on(page, layer)}
                for layer in ("stitch lines", "cut lines", "old block line")
            }
    assert weights["quarter-A4"] == weights["tiled-A4"] == weights["large"]
    assert weights["large"]["cut lines"] == {0.55}
    assert weights["large"]["stitch lines"] == {0.25}


def test_the_same_sheets_give_the_same_bytes(quarter: tuple[PieceDrawing, ...]) -> None:
    sheets = quarter_sheets(quarter, FACTS, PAPERS["A4"])
    assert pdf_bytes(sheets, TITLE, MADE_ON) == pdf_bytes(sheets, TITLE, MADE_ON)
    assert pdf_bytes(sheets, TITLE) == pdf_bytes(sheets, TITLE)
    assert pdf_bytes(sheets, TITLE) != pdf_bytes(sheets, TITLE, MADE_ON)


def test_a_page_longer_than_pdf_allows_is_refused(tmp_path: Path) -> None:
    """14 400 units of 1/72 inch, ISO 32000-1 annex C: 5080 mm."""
    write_pdf([Sheet(5080.0, 100.0, "longest", ())], tmp_path / "longest.pdf", TITLE)
    with pytest.raises(OutputError, match="cannot be a PDF page, which ends at 5080 mm: print tiles"):
        write_pdf([Sheet(5080.1, 100.0, "too long", ())], tmp_path / "long.pdf", TITLE)
    assert [path.name for path in tmp_path.iterdir()] == ["longest.pdf"]


def test_a_folder_in_the_way_is_one_clear_sentence(tmp_path: Path) -> None:
    (tmp_path / "sheet.pdf").mkdir()
    with pytest.raises(OutputError, match="a folder of that name is in the way"):
        write_pdf([Sheet(100.0, 100.0, "sheet", ())], tmp_path / "sheet.pdf", TITLE)
    with pytest.raises(OutputError, match="folder is not there"):
        write_pdf([Sheet(100.0, 100.0, "sheet", ())], tmp_path / "gone" / "sheet.pdf", TITLE)


def test_letters_outside_the_typeface_do_not_break_a_page() -> None:
    text = Lettering("提灯 (dance) \\ % –", (10.0, 10.0), 5.0, angle=0.3)
    assert pdf_bytes([Sheet(100.0, 100.0, "x", (Laid(Drawing((text,))),))], "提灯")[:5] == b"%PDF-"
