"""A sheet as a PNG picture: grey, anti-aliased, in the sheets' own typeface, with its true size in mm written in."""

import struct
import zlib
from collections.abc import Sequence
from math import cos, floor, sin, sqrt
from pathlib import Path as FilePath
from typing import Final

import numpy as np
import shapely

from panelwright.drawing.drawing import Bounds, Lettering
from panelwright.drawing.path import Path
from panelwright.drawing.pen import Pen
from panelwright.drawing.sheet import Sheet
from panelwright.drawing.typeface import typeface
from panelwright.geometry.arrays import Array
from panelwright.output.coverage import coverage
from panelwright.output.letter_outlines import letter_outlines
from panelwright.saved_file import save

PER_MM: Final = 6.0  # pixels: about 150 an inch
MOST_PIXELS: Final = 40e6  # a larger sheet is drawn coarser
_WHITE: Final = 255


def write_png(sheet: Sheet, path: FilePath) -> None:
    """Write one sheet to a PNG file; the file appears whole or not at all.

    Raises:
        OutputError: if it cannot be written.
    """
    save(path, png_bytes(sheet))


def png_bytes(sheet: Sheet, per_mm: float = PER_MM) -> bytes:
    """The sheet as a PNG picture; equal sheets give equal bytes.

    Args:
        sheet: one page.
        per_mm: pixels for each mm; fewer where the sheet is very large.
    """
    surface = PngSurface(min(per_mm, sqrt(MOST_PIXELS / (sheet.width * sheet.height))))
    sheet.draw(surface)
    return surface.finished()


class PngSurface:
    """A surface whose one page becomes a picture."""

    def __init__(self, per_mm: float = PER_MM) -> None:
        self._per_mm = per_mm
        self._picture = np.zeros((0, 0))
        self._window: tuple[int, int, int, int] = (0, 0, 0, 0)

    def finished(self) -> bytes:
        """The picture, when the page is drawn."""
        tall, wide = self._picture.shape
        shades = np.rint(self._picture * _WHITE).astype(np.uint8)
        rows = np.concatenate([np.zeros((tall, 1), np.uint8), shades], axis=1)  # each row begins with its filter: none
        per_metre = round(self._per_mm * 1000)
        return b"\x89PNG\r\n\x1a\n" + b"".join(
            (
                _chunk(b"IHDR", struct.pack(">IIBBBBB", wide, tall, 8, 0, 0, 0, 0)),
                _chunk(b"pHYs", struct.pack(">IIB", per_metre, per_metre, 1)),
                _chunk(b"IDAT", zlib.compress(rows.tobytes(), 9)),
                _chunk(b"IEND", b""),
            )
        )

    def begin_page(self, width: float, height: float) -> None:
        """The page; a picture has one.

        Raises:
            RuntimeError: on a second page.
        """
        if self._picture.size:
            raise RuntimeError("a PNG picture has one page")
        self._picture = np.ones((round(height * self._per_mm), round(width * self._per_mm)))
        self.end_window()

    def end_page(self) -> None:
        """Nothing is left open."""

    def begin_window(self, window: Bounds) -> None:
        """Show nothing outside a rectangle, to the nearest pixel."""
        (left, top), (right, bottom) = self._pixels(np.array([(window[0], window[3]), (window[2], window[1])]))
        tall, wide = self._picture.shape
        rows = max(0, round(float(top))), min(tall, round(float(bottom)))
        self._window = (*rows, max(0, round(float(left))), min(wide, round(float(right))))

    def end_window(self) -> None:
        """Show everything again."""
        tall, wide = self._picture.shape
        self._window = (0, tall, 0, wide)

    def begin_layer(self, name: str) -> None:
        """A picture has no layers."""

    def end_layer(self) -> None:
        """A picture has no layers."""

    def stroke(self, path: Path, pen: Pen) -> None:
        """Draw along a path."""
        runs = [run for line in path.polylines for run in _dashes(line, pen.dash)]
        lines = shapely.MultiLineString([run for run in runs if len(run) > 1])
        drawn = shapely.buffer(lines, pen.width / 2, cap_style="flat", join_style="round", quad_segs=4)
        self._put(_rings(drawn), pen.shade)

    def fill(self, path: Path, shade: float) -> None:
        """Fill a path."""
        self._put([line for line in path.polylines if len(line) > 2], shade)

    def text(self, lettering: Lettering) -> None:
        """Write a line of text by the outlines of its letters."""
        face, x = typeface(lettering.bold), 0.0
        rings: list[Array] = []
        for letter in face.written(lettering.text):
            rings += [outline + np.array([x, 0.0]) for outline in letter_outlines(lettering.bold, letter)]
            x += face.width(letter, 1.0)
        c, s = cos(lettering.angle), sin(lettering.angle)
        turn = lettering.size * np.array([(c, s), (-s, c)])
        self._put([ring @ turn + np.array(lettering.start) for ring in rings], 0.0)

    def _put(self, rings: Sequence[Array], shade: float) -> None:
        """Darken or lighten what rings in mm on the page cover, inside the window."""
        covered = coverage([self._pixels(ring) for ring in rings]) if rings else None
        if covered is None:
            return
        top, bottom, left, right = self._window
        rows, columns = covered.share.shape
        first_row, first_column = max(covered.row, top), max(covered.column, left)
        last_row, last_column = min(covered.row + rows, bottom), min(covered.column + columns, right)
        if first_row >= last_row or first_column >= last_column:
            return
        share = covered.share[
            first_row - covered.row : last_row - covered.row,
            first_column - covered.column : last_column - covered.column,
        ]
        part = self._picture[first_row:last_row, first_column:last_column]
        part += share * (shade - part)

    def _pixels(self, points: Array) -> Array:
        """Places on the page, mm from its lower left corner, in pixels from the upper left one."""
        height = self._picture.shape[0]
        placed: Array = np.array([0.0, height]) + points * np.array([self._per_mm, -self._per_mm])
        return placed


def _chunk(name: bytes, content: bytes) -> bytes:
    return struct.pack(">I", len(content)) + name + content + struct.pack(">I", zlib.crc32(name + content))


def _rings(shape: shapely.Geometry) -> list[Array]:
    """The rings of areas, outer ones anticlockwise and holes clockwise."""
    parts = [part for part in shapely.get_parts(shape) if isinstance(part, shapely.Polygon) and not part.is_empty]
    ordered = [shapely.orient_polygons(part) for part in parts]
    return [np.array(ring.coords)[:-1] for part in ordered for ring in (part.exterior, *part.interiors)]


def _dashes(line: Array, dash: Sequence[float]) -> list[Array]:
    """The stretches of a polyline that a pen draws: all of it, or its dashes."""
    if not dash or sum(dash) <= 0.0:
        return [line]
    steps = np.hypot(*np.diff(line, axis=0).T)
    at = np.concatenate([[0.0], np.cumsum(steps)])
    pattern = np.cumsum(np.concatenate([[0.0], np.tile(dash, 2 if len(dash) % 2 else 1)]))
    found = []
    for turn in range(floor(at[-1] / pattern[-1]) + 1):
        for low, high in zip(pattern[:-1:2], pattern[1::2], strict=True):
            start, end = turn * pattern[-1] + low, min(turn * pattern[-1] + high, at[-1])
            if start < end:
                found.append(_stretch(line, at, start, end))
    return found


def _stretch(line: Array, at: Array, start: float, end: float) -> Array:
    """A polyline between two places along it."""
    places = np.concatenate([[start], at[(at > start) & (at < end)], [end]])
    return np.stack([np.interp(places, at, line[:, k]) for k in (0, 1)], axis=1)
