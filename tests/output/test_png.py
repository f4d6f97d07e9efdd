"""A PNG is read back with OpenCV: its size, and what is black where."""

import struct
from pathlib import Path

import cv2
import numpy as np
import pytest

from panelwright.drawing.drawing import Drawing, Fill, Lettering, Stroke
from panelwright.drawing.path import Path as DrawnPath
from panelwright.drawing.pen import Pen
from panelwright.drawing.sheet import Laid, Sheet
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
    assert picture(content).shape == pytest.approx((20 * MM, 30 * MM), abs=1)
    at = content.index(b"pHYs") + 4
    assert struct.unpack(">IIB", content[at : at + 9]) == (6000, 6000, 1)


def test_a_filled_box_is_black_where_it_should_be_and_nowhere_else() -> None:
    shown = picture(png_bytes(sheet(Fill(DrawnPath.box(5.0, 2.0, 10.0, 4.0), 0.0, "sheet"))))
    black = np.argwhere(shown < 0.5)
    assert black.min(axis=0) == pytest.approx([(20 - 6) * MM, 5 * MM], abs=1)
    assert black.max(axis=0) == pytest.approx([(20 - 2) * MM - 1, 15 * MM - 1], abs=1)
    assert (shown < 0.5).sum() == pytest.approx(10 * 4 * MM * MM, rel=0.07)  # a pixel at two sides


def test_a_window_hides_what_is_outside_it() -> None:
    line = Stroke(DrawnPath.polyline([(2.0, 10.0), (28.0, 10.0)]), Pen(1.0), "sheet")
    shown = picture(png_bytes(sheet(line, window=(10.0, 0.0, 20.0, 20.0))))
    columns = np.flatnonzero((shown < 0.5).any(axis=0))
    assert [columns.min(), columns.max()] == pytest.approx([10 * MM, 20 * MM - 1], abs=1)


def test_dashes_are_drawn_and_left_out_in_turn() -> None:
    line = Stroke(DrawnPath.polyline([(2.0, 10.0), (27.0, 10.0)]), Pen(1.0, (4.0, 2.0)), "sheet")
    dark = picture(png_bytes(sheet(line)))[10 * MM] < 0.5
    starts = np.flatnonzero(dark[1:] & ~dark[:-1]) + 1
    assert np.diff(starts) == pytest.approx([6 * MM] * 4, abs=1)
    assert starts[0] == pytest.approx(2 * MM, abs=MM / 2 + 1)  # a dash's end may be rounded, half a pen beyond it


def test_equal_sheets_give_equal_bytes_and_a_large_one_is_drawn_coarser(tmp_path: Path) -> None:
    write_png(sheet(), tmp_path / "a.png")
    assert (tmp_path / "a.png").read_bytes() == png_bytes(sheet())
    assert np.prod(picture(png_bytes(Sheet(3000.0, 1000.0, "large", ()))).shape) <= 40.1e6
