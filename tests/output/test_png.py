"""A PNG is read back with OpenCV and held against pdfium's picture of the same sheet: two readers that are not ours."""

import struct
from pathlib import Path

import cv2
import numpy as np
import pypdfium2
import pytest
from drawn_garment import block, garment, heading

from panelwright.drawing.drawing import Drawing, Fill, Lettering, Stroke
from panelwright.drawing.path import Path as DrawnPath
from panelwright.drawing.pen import Pen
from panelwright.drawing.piece_drawing import draw_pieces
from panelwright.drawing.quarter_sheets import overview_sheet
from panelwright.drawing.scale import QUARTER
from panelwright.drawing.sheet import Laid, Sheet
from panelwright.output.pdf import pdf_bytes
from panelwright.output.png import png_bytes, write_png

MM = 6  # pixels


def picture(content: bytes) -> np.ndarray:
    """Shape (rows, columns), 0 black to 1 white."""
    read = cv2.imdecode(np.frombuffer(content, np.uint8), cv2.IMREAD_UNCHANGED)
    assert read.ndim == 2
    return read / 255.0


def sheet(*signs: Stroke | Fill | Lettering, window: tuple[float, float, float, float] | None = None) -> Sheet:
    return Sheet(30.0, 20.0, "small", (Laid(Drawing(signs), window=window),))


def test_size_and_resolution_are_true_millimetres() -> None:
    content = png_bytes(sheet())
    assert picture(content).shape == (20 * MM, 30 * MM)
    at = content.index(b"pHYs") + 4
    assert struct.unpack(">IIB", content[at : at + 9]) == (6000, 6000, 1)


def test_a_filled_box_is_black_where_it_should_be_and_nowhere_else() -> None:
    shown = picture(png_bytes(sheet(Fill(DrawnPath.box(5.0, 2.0, 10.0, 4.0), 0.0, "sheet"))))
    black = np.argwhere(shown < 0.5)
    assert black.min(axis=0).tolist() == [(20 - 6) * MM, 5 * MM]
    assert black.max(axis=0).tolist() == [(20 - 2) * MM - 1, 15 * MM - 1]
    assert (shown < 0.5).sum() == 10 * 4 * MM * MM


def test_a_window_hides_what_is_outside_it() -> None:
    line = Stroke(DrawnPath.polyline([(2.0, 10.0), (28.0, 10.0)]), Pen(1.0), "sheet")
    shown = picture(png_bytes(sheet(line, window=(10.0, 0.0, 20.0, 20.0))))
    columns = np.flatnonzero((shown < 0.5).any(axis=0))
    assert (columns.min(), columns.max()) == (10 * MM, 20 * MM - 1)


def test_dashes_are_drawn_and_left_out_in_turn() -> None:
    line = Stroke(DrawnPath.polyline([(2.0, 10.0), (27.0, 10.0)]), Pen(1.0, (4.0, 2.0)), "sheet")
    dark = picture(png_bytes(sheet(line)))[10 * MM] < 0.5
    starts = np.flatnonzero(dark[1:] & ~dark[:-1]) + 1
    assert starts.tolist() == [(2 + 6 * k) * MM for k in range(5)]
    assert dark.sum() == (4 * 4 + 1) * MM  # the last dash is cut off at the line's end


@pytest.mark.parametrize("drawn", ["pieces", "words"])
def test_it_shows_what_the_pdf_of_the_same_sheet_shows(drawn: str) -> None:
    if drawn == "pieces":
        made = overview_sheet(draw_pieces(garment(), QUARTER, block()), heading(garment()))
    else:
        words = "Bodice ÄÖÜ äöüß 0123456789 ½ × – g@&"
        made = sheet(
            Lettering(words[:14], (2.0, 3.0), 4.0, angle=0.3), Lettering(words[14:], (1.0, 15.0), 2.0, bold=True)
        )
    ours = picture(png_bytes(made))
    document = pypdfium2.PdfDocument(pdf_bytes([made], "same"))
    theirs = document[0].render(scale=MM * 25.4 / 72, grayscale=True).to_numpy().squeeze() / 255.0
    document.close()
    rows, columns = (min(a, b) for a, b in zip(ours.shape, theirs.shape, strict=True))
    ours, theirs = (cv2.blur(each[:rows, :columns], (9, 9)) for each in (ours, theirs))
    assert theirs.min() < 0.8
    assert np.abs(ours - theirs).max() < 0.15
    assert np.abs(ours - theirs).mean() < 0.004


def test_equal_sheets_give_equal_bytes_and_a_large_one_is_drawn_coarser(tmp_path: Path) -> None:
    write_png(sheet(), tmp_path / "a.png")
    assert (tmp_path / "a.png").read_bytes() == png_bytes(sheet())
    assert np.prod(picture(png_bytes(Sheet(3000.0, 1000.0, "large", ()))).shape) <= 40.1e6
