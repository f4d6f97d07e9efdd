"""The tags of a DXF file: pairs of lines, a group code and a value."""

import io
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from panelwright.errors import InputError
from panelwright.intake.drawing_limits import LARGEST
from panelwright.quotation import quoted

MOST_TAGS: Final = 3_000_000
# Vertices of every kind have their x under this code; so many cannot be a pattern.
_X: Final = 10
MOST_VERTICES: Final = 400_000
Tag = tuple[int, bytes]


@dataclass(frozen=True)
class Entity:
    """One thing of a DXF file.

    Attributes:
        kind: `LINE`.
        tags: group codes and values.
        line: of the file, where it begins.
        encoding: of its texts.
    """

    kind: str
    tags: tuple[Tag, ...]
    line: int
    encoding: str

    def number(self, code: int, otherwise: float | None = None) -> float:
        """The first number with a code.

        Raises:
            InputError: if it is not there and nothing stands for it, or is no usable number.
        """
        for each, value in self.tags:
            if each == code:
                return self.length(value, code)
        if otherwise is None:
            raise InputError(f"the {self.kind} in line {self.line} has no value {code}: save the drawing again")
        return otherwise

    def whole(self, code: int, otherwise: int = 0) -> int:
        """The first whole number with a code; flags and counts.

        Raises:
            InputError: if it is no usable number.
        """
        return int(self.number(code, otherwise))

    def numbers(self, code: int) -> list[float]:
        """Every number with a code, in order."""
        return [self.length(value, code) for each, value in self.tags if each == code]

    def text(self, code: int, otherwise: str = "") -> str:
        """The first text with a code."""
        return next((decoded(value, self.encoding) for each, value in self.tags if each == code), otherwise)

    def length(self, value: bytes, code: int) -> float:
        """The number that a value is.

        Raises:
            InputError: if it is none, or beyond use.
        """
        try:
            number = float(value)
        except ValueError:
            number = float("nan")
        if not abs(number) <= LARGEST:
            told = quoted(decoded(value, self.encoding))
            raise InputError(
                f"the {self.kind} in line {self.line} has {told} for value {code}, which is no usable number: save the "
                "drawing again"
            )
        return number

    @property
    def layer(self) -> str:
        """The layer that it lies on."""
        return self.text(8, "0")[:80]


def decoded(value: bytes, encoding: str) -> str:
    r"""A value as text, with letters written as \U+00FC put in."""
    text = value.decode(encoding, "replace").strip("\r\n").strip()
    if "\\U+" not in text:
        return text
    first, *others = text.split("\\U+")
    return first + "".join(_letter(each) for each in others)


def _letter(rest: str) -> str:
    try:
        code = int(rest[:4], 16)
    except ValueError:
        return "\\U+" + rest
    return ("\N{REPLACEMENT CHARACTER}" if 0xD800 <= code < 0xE000 else chr(code)) + rest[4:]


def read_tags(content: bytes) -> Iterator[tuple[int, int, bytes]]:
    """(line, code, value) of every pair up to the end mark.

    Raises:
        InputError: if a code is no whole number, there are too many, or the end mark is missing.
    """
    if b"\n" not in content[:1000]:
        content = content.replace(b"\r", b"\n")
    lines = iter(io.BytesIO(content))
    vertices = 0
    for number, (code_line, value) in enumerate(zip(lines, lines, strict=False)):
        try:
            code = int(code_line[:20])
        except ValueError:
            raise InputError(
                f"line {2 * number + 1} should be a whole number, a group code of DXF: save the drawing again"
            ) from None
        vertices += code == _X
        if number > MOST_TAGS or vertices > MOST_VERTICES:
            raise InputError("the drawing holds far more than a pattern: save the pattern's pieces alone")
        yield 2 * number + 1, code, value
        if code == 0 and value.strip() == b"EOF":
            return
    raise InputError("the file breaks off: its end mark is missing, so a part of the pattern may be; save it again")
