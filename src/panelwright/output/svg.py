"""A sheet as SVG: true millimetres, real curves, layers as named groups, its typeface embedded."""

from base64 import b64encode
from functools import lru_cache
from html import escape
from io import BytesIO
from math import degrees
from pathlib import Path as FilePath
from typing import Final

import numpy as np
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

from panelwright.drawing.drawing import Bounds, Lettering
from panelwright.drawing.path import Path
from panelwright.drawing.pen import Pen
from panelwright.drawing.sheet import Sheet
from panelwright.drawing.typeface import typeface
from panelwright.saved_file import save

FAMILY: Final = "sheet-lettering"
_MOVES: Final = {"M": "M%.4f %.4f", "L": "L%.4f %.4f", "C": "C%.4f %.4f %.4f %.4f %.4f %.4f", "Z": "Z"}


def write_svg(sheet: Sheet, path: FilePath) -> None:
    """Write one sheet to an SVG file; the file appears whole or not at all.

    Raises:
        OutputError: if it cannot be written.
    """
    save(path, svg_text(sheet).encode())


def svg_text(sheet: Sheet) -> str:
    """The sheet as an SVG document of its size in mm; one user unit is one mm."""
    surface = SvgSurface(sheet.name)
    sheet.draw(surface)
    return surface.finished()


class SvgSurface:
    """A surface whose one page becomes an SVG document."""

    def __init__(self, title: str) -> None:
        self._title = title
        self._width = self._height = 0.0
        self._parts: list[str] = []
        self._letters: dict[bool, set[str]] = {False: set(), True: set()}
        self._windows = 0

    def finished(self) -> str:
        """The document, when the page is drawn."""
        size = f'width="{_n(self._width)}mm" height="{_n(self._height)}mm"'
        return "\n".join(
            [
                f'<svg xmlns="http://www.w3.org/2000/svg" {size} viewBox="0 0 {_n(self._width)} {_n(self._height)}" '
                'role="img" stroke-linejoin="round" fill="none">',
                f"<title>{escape(self._title)}</title>",
                self._style(),
                f'<rect width="{_n(self._width)}" height="{_n(self._height)}" fill="#fff"/>',
                *self._parts,
                "</svg>\n",
            ]
        )

    def begin_page(self, width: float, height: float) -> None:
        """The page; an SVG document has one.

        Raises:
            RuntimeError: on a second page.
        """
        if self._width:
            raise RuntimeError("an SVG document has one page")
        self._width, self._height = width, height

    def end_page(self) -> None:
        """Nothing is left open."""

    def begin_window(self, window: Bounds) -> None:
        """Clip to a rectangle."""
        left, bottom, right, top = window
        self._windows += 1
        name = f"window-{self._windows}"
        box = f'x="{_n(left)}" y="{_n(self._height - top)}" width="{_n(right - left)}" height="{_n(top - bottom)}"'
        self._parts.append(f'<clipPath id="{name}"><rect {box}/></clipPath><g clip-path="url(#{name})">')

    def end_window(self) -> None:
        """Stop clipping."""
        self._parts.append("</g>")

    def begin_layer(self, name: str) -> None:
        """Begin a group that bears the layer's name."""
        self._parts.append(f'<g class="layer" data-layer="{escape(name)}">')

    def begin_group(self, id: str, kind: str, title: str = "") -> None:
        """Begin a group with an id and a title, either of which may be empty, and a class; `end_layer` ends it."""
        own = f' id="{_written(id)}"' if id else ""
        told = f"<title>{_written(title)}</title>" if title else ""
        self._parts.append(f'<g{own} class="{escape(kind)}">{told}')

    def end_layer(self) -> None:
        """End the group."""
        self._parts.append("</g>")

    def stroke(self, path: Path, pen: Pen) -> None:
        """Draw along a path, its cubics as cubics."""
        self._parts.append(f'<path d="{self._moves(path)}" {_pen_style(pen)}/>')

    def named_stroke(self, path: Path, pen: Pen, kind: str, name: str = "") -> None:
        """Draw along a path that bears a class and, unless it is empty, a name."""
        told = f' data-name="{_written(name)}"' if name else ""
        self._parts.append(f'<path class="{escape(kind)}"{told} d="{self._moves(path)}" {_pen_style(pen)}/>')

    def fill(self, path: Path, shade: float) -> None:
        """Fill a path."""
        self._parts.append(f'<path d="{self._moves(path)}" fill="{_grey(shade)}"/>')

    def text(self, lettering: Lettering) -> None:
        """Write a line of text; its length is stated, so that another typeface takes the same room."""
        x, y = lettering.start[0], self._height - lettering.start[1]
        written = typeface(lettering.bold).written(lettering.text)
        self._letters[lettering.bold] |= set(written)
        turn = f' transform="rotate({_n(-degrees(lettering.angle))} {_n(x)} {_n(y)})"' if lettering.angle else ""
        weight = ' font-weight="600"' if lettering.bold else ""
        self._parts.append(
            f'<text x="{_n(x)}" y="{_n(y)}" font-size="{_n(lettering.size)}"{weight} '
            f'textLength="{_n(lettering.width)}" lengthAdjust="spacingAndGlyphs"{turn}>{escape(written)}</text>'
        )

    def _moves(self, path: Path) -> str:
        points = np.array([0.0, self._height]) + path.points * np.array([1.0, -1.0])
        return "".join(_MOVES[code] for code in path.codes) % tuple(points.ravel().tolist())

    def _style(self) -> str:
        faces = [
            f"@font-face{{font-family:{FAMILY};font-weight:{600 if bold else 400};"
            f"src:url(data:font/ttf;base64,{_embedded(bold, ''.join(sorted(letters)))})}}"
            for bold, letters in self._letters.items()
            if letters
        ]
        rule = f"text{{font-family:{FAMILY},sans-serif;font-kerning:none;fill:#000;white-space:pre}}"
        return f"<style>{''.join([*faces, rule])}</style>"


@lru_cache(maxsize=16)
def _embedded(bold: bool, letters: str) -> str:
    """The typeface with these letters only, base64."""
    options = Options(layout_features=[], notdef_outline=True, hinting=False)
    subsetter = Subsetter(options)
    subsetter.populate(text=letters)
    file = BytesIO()
    with TTFont(typeface(bold).file, lazy=True, recalcTimestamp=False) as font:
        subsetter.subset(font)
        font.save(file)
    return b64encode(file.getvalue()).decode()


def _n(value: float) -> str:
    """A number to a ten-thousandth, without idle zeros."""
    return f"{value:.4f}".rstrip("0").rstrip(".")


def _written(text: str) -> str:
    """A text as XML may hold it."""
    return escape("".join(letter if letter.isprintable() else " " for letter in text))


def _pen_style(pen: Pen) -> str:
    dash = f' stroke-dasharray="{" ".join(map(_n, pen.dash))}"' if pen.dash else ""
    return f'stroke="{_grey(pen.shade)}" stroke-width="{_n(pen.width)}"{dash}'


def _grey(shade: float) -> str:
    return "#" + 3 * f"{round(255 * shade):02x}"
