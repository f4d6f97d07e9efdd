"""The one typeface of the sheets: where its files are and how much room its letters take."""

from dataclasses import dataclass
from functools import cached_property, lru_cache
from pathlib import Path
from typing import Final

import font_source_sans_pro
from fontTools.ttLib import TTFont

# Drawn for a character that the typeface lacks, so that no letter goes missing in silence.
SUBSTITUTE: Final = "?"


@dataclass(frozen=True)
class Typeface:
    """One weight of the typeface.

    Attributes:
        file: the TrueType file.
        bold: whether it is the heavier weight.
    """

    file: Path
    bold: bool

    @cached_property
    def _metrics(self) -> tuple[dict[str, float], float, float]:
        """(character -> advance, ascent, descent), all as shares of the em."""
        with TTFont(self.file, lazy=True) as font:
            em = float(font["head"].unitsPerEm)
            widths = font["hmtx"].metrics
            advances = {chr(code): widths[name][0] / em for code, name in font.getBestCmap().items()}
            return advances, font["OS/2"].sTypoAscender / em, -font["OS/2"].sTypoDescender / em

    @property
    def _advances(self) -> dict[str, float]:
        return self._metrics[0]

    @property
    def ascent(self) -> float:
        """Height of the tallest letters above the baseline, as a share of the em."""
        return self._metrics[1]

    @property
    def descent(self) -> float:
        """Depth of the deepest letters below the baseline, as a share of the em, above 0."""
        return self._metrics[2]

    def written(self, text: str) -> str:
        """The text in characters that the typeface has; any other becomes `?`."""
        known = self._advances.keys()
        return text if known >= set(text) else "".join(char if char in known else SUBSTITUTE for char in text)

    def width(self, text: str, size: float) -> float:
        """Width of a line of text set at `size` (the em), in the unit of `size`, without kerning."""
        return size * _ems(self, text)

    def shortened(self, text: str, size: float, width: float) -> str:
        """The text in the typeface's characters, its end left out with `…` where it is wider than `width`."""
        text = self.written(text)
        if self.width(text, size) <= width:
            return text
        while text and self.width(text + "…", size) > width:
            text = text[:-1]
        return text.rstrip() + "…"

    def wrapped(self, text: str, size: float, width: float) -> list[str]:
        """The text broken at its spaces into lines no wider than `width`; a word wider than that is broken too."""
        lines: list[str] = []
        length, space = 0.0, self.width(" ", size)
        for word in text.split():
            longer = length + space + self.width(word, size)
            if lines and longer <= width:
                lines[-1] += f" {word}"
                length = longer
            else:
                lines += self._broken(word, size, width)
                length = self.width(lines[-1], size)
        return lines

    def _broken(self, word: str, size: float, width: float) -> list[str]:
        if self.width(word, size) <= width:
            return [word]
        parts = [""]
        for char in word:
            if parts[-1] and self.width(parts[-1] + char, size) > width:
                parts.append("")
            parts[-1] += char
        return parts


@lru_cache(maxsize=4096)
def _ems(face: Typeface, text: str) -> float:
    """Width of a text in ems."""
    advances = face._advances
    return sum(advances.get(char, advances[SUBSTITUTE]) for char in text)


def typeface(bold: bool = False) -> Typeface:
    """The regular or the bold weight; its metrics are read once."""
    return _WEIGHTS[bold]


_WEIGHTS: Final = {
    False: Typeface(Path(font_source_sans_pro.font_files_ttf["SourceSansPro"]), bold=False),
    True: Typeface(Path(font_source_sans_pro.font_files_ttf["SourceSansProSemibold"]), bold=True),
}
