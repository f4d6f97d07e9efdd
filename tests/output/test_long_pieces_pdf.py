"""Quarter-scale pages that are joined, read back from their PDF and put together: they are the pattern."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pikepdf
import pytest
import shapely
from drawn_garment import MADE_ON, garment, heading
from odd_piece import odd_piece
from pdf_reading import read_paths

from panelwright.body.units import Unit
from panelwright.drawing.paper import PAPERS
from panelwright.drawing.piece_drawing import PieceDrawing
from panelwright.drawing.quarter_sheets import quarter_sheets
from panelwright.drawing.scale import QUARTER
from panelwright.output.pdf import write_pdf

SHAPES = {
    "strip": [(0, 0), (2000, 0), (2000, 100), (0, 100)],
    "tie": [(0, 0), (1700, 20), (2000, -60), (2010, 380), (1800, 290), (1500, 95), (0, 75)],
    "drop": [(0, 0), (70, 0), (60, 2000), (0, 2000)],
}
CASES = [(name, unit) for name in ("A4", "Letter") for unit in (Unit.CM, Unit.INCH)]


def pages_put_together(path: Path, layer: str) -> list[shapely.Geometry]:
    """What every joined page draws, moved to its place: each next one a page less two margins of 10 and 10 mm further.

    Its row and column are read from the large letters in the lower margin.
    """
    import pypdfium2

    document = pypdfium2.PdfDocument(path)
    found = []
    with pikepdf.open(path) as pdf:
        for k, page in list(enumerate(pdf.pages))[1:]:
            short = document[k].get_textpage().get_text_range().split("quarter scale, row ")[1]
            row, column = ord(short[0]) - ord("A"), int(short.split("column ")[1].split()[0]) - 1
            width, height = (float(value) * 25.4 / 72 for value in page.MediaBox[2:])
            shift = (column * (width - 30.0), -row * (height - 30.0))
            for read in read_paths(page):
                if (read.layer, read.painted) == (layer, "S"):
                    assert read.window == pytest.approx((10, 10, width - 10, height - 10), abs=0.01)
                    shown = shapely.intersection(shapely.MultiLineString(read.polylines), shapely.box(*read.window))
                    found.append(shapely.affinity.translate(shown, *shift))
    document.close()
    return found


def wanted(drawn: PieceDrawing, layer: str) -> shapely.Geometry:
    """The pattern's own line, from its source at full scale, a quarter as large."""
    piece, cut = drawn.source
    if layer == "cut lines":
        line: shapely.Geometry = shapely.LinearRing(cut.cut_line)
    else:
        line = shapely.MultiLineString([edge.curve.polyline() for edge in piece.edges])
    return shapely.affinity.scale(line, 0.25, 0.25, origin=(0, 0))


def moved_onto(line: shapely.Geometry, other: shapely.Geometry) -> shapely.Geometry:
    (left, bottom, *_), (x, y, *_) = line.bounds, other.bounds
    return shapely.affinity.translate(line, x - left, y - bottom)


@pytest.mark.parametrize("name", SHAPES)
@pytest.mark.parametrize(("paper", "unit"), CASES)
def test_joined_pages_are_the_pattern(tmp_path: Path, name: str, paper: str, unit: Unit) -> None:
    """Both ways within 0.2 mm: nothing of it is missing, nothing else is shown; 0.3 mm off would be noticed."""
    drawn = odd_piece(name, SHAPES[name], QUARTER)
    path = tmp_path / "quarter.pdf"
    sheets = quarter_sheets([drawn], replace(heading(garment()), unit=unit), PAPERS[paper])
    write_pdf(sheets, path, "Lantern dance bodice", MADE_ON)
    assert len(sheets) >= 3
    for layer in ("cut lines", "stitch lines"):
        parts = pages_put_together(path, layer)
        together = shapely.union_all(parts)
        model = moved_onto(wanted(drawn, layer), together)
        assert together.buffer(0.2).contains(model)
        assert model.buffer(0.2).contains(together)
        apart = shapely.union_all([shapely.affinity.translate(parts[0], 0.3, 0.3), *parts[1:]])
        assert not together.buffer(0.2).contains(apart)


@pytest.mark.parametrize(("paper", "unit"), CASES)
def test_the_hundred_millimetres_of_the_first_page_are_true(tmp_path: Path, paper: str, unit: Unit) -> None:
    path = tmp_path / "quarter.pdf"
    drawn = odd_piece("strip", SHAPES["strip"], QUARTER)
    write_pdf(quarter_sheets([drawn], replace(heading(garment()), unit=unit), PAPERS[paper]), path, "x", MADE_ON)
    with pikepdf.open(path) as pdf:
        boxes = [read.polylines[0] for read in read_paths(pdf.pages[0]) if read.painted == "S"]
    sides = [np.ptp(line, axis=0) for line in boxes if len(line) == 5]
    assert any(side == pytest.approx((100.0, 100.0), abs=0.1) for side in sides)
    assert any(side == pytest.approx((101.6, 101.6), abs=0.1) for side in sides)
