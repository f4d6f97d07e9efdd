"""The pages of a hand sheet: each step with its pictures over its words, the words in two columns."""

from collections.abc import Sequence
from typing import Final

from panelwright.drawing.drawing import Drawing, Lettering
from panelwright.drawing.hand_step import HandStep
from panelwright.drawing.heading import Heading, heading_drawing
from panelwright.drawing.page_flow import Strip, beside, flowed, height_of, hung, kept_together, space
from panelwright.drawing.paper import Paper
from panelwright.drawing.paragraph import BODY, HEAD, SMALL, paragraph, section
from panelwright.drawing.ruler import SMALL_SIDES, small_square
from panelwright.drawing.scale import QUARTER
from panelwright.drawing.sheet import Laid, Sheet

GUTTER: Final = 7.0
BETWEEN: Final = 1.0
INDENT: Final = 8.5
# Words are not begun where less is left of a page, mm.
LEAST_ROOM: Final = 40.0
NAME: Final = "hand sheet"
BEFORE: Final = (
    "You need a sharp pencil, a ruler with millimetres, a set square, a curve, tracing paper, and this sheet.",
    "A length in mm is measured on your paper. Beside it stands the same length on the garment, four times as long, "
    "because you draw at quarter scale.",
    "Letters are your own marks: write each beside its point. Up, down, left and right are those of the page with the "
    "upright line of the cross upright. Read tenths of a millimetre between the marks of the ruler as well as you can.",
    "A curve is drawn through points. Lay the ruler from letter to letter, mark the distances along it, go square to "
    "the side that is said (left or right as you look from the first letter to the second), mark the points, take the "
    "ruler away, and draw one smooth line by hand or with the curve.",
)


def hand_pages(
    steps: Sequence[HandStep], pictures: Sequence[Sequence[Strip]], heading: Heading, paper: Paper
) -> tuple[Sheet, ...]:
    """The pages, without footings.

    Args:
        steps: in the order of work.
        pictures: rows of pictures for each of them.
        heading: of the garment.
        paper: of every page, upright.
    """
    pages = _Pages(paper)
    pages.add([_heading(heading, paper.inner_width), *_before(heading, paper.inner_width), space(4.0)])
    for number, (step, rows) in enumerate(zip(steps, pictures, strict=True), 1):
        title = section(f"{number}  {step.title}", paper.inner_width)
        about = [paragraph(words, paper.inner_width) for words in step.about]
        key = [paragraph(step.key, paper.inner_width, SMALL), space(2.0)] if rows and step.key else [space(1.0)]
        rows = list(rows)
        pages.need(height_of([title, *about, *rows[:1], *key]) + LEAST_ROOM)
        pages.add([*kept_together([title, *about, *rows[:1]]), *rows[1:-1], *kept_together([*rows[1:][-1:], *key])])
        pages.add_columns(_words(step, number, (paper.inner_width - GUTTER) / 2))
        pages.add([space(7.0)])
    return pages.sheets()


class _Pages:
    """Pages that fill from the top."""

    def __init__(self, paper: Paper) -> None:
        self._paper = paper
        self._top = paper.height - paper.margin
        self._laid: list[list[Laid]] = [[]]
        self._y = self._top

    @property
    def _room(self) -> float:
        return self._y - self._paper.margin

    def need(self, height: float) -> None:
        """Turn the page unless so much is left of it, mm."""
        if self._room < height <= self._top - self._paper.margin:
            self._turn()

    def add(self, strips: Sequence[Strip]) -> None:
        """Strips as wide as the page; what is to stay together does."""
        for part in flowed(strips, self._top - self._paper.margin):
            while height_of(part) > self._room and self._y < self._top:
                first = flowed(part, self._room)[0]
                if height_of(first) <= self._room:  # the first bundle of all may be taller than what is left
                    self._hang(first)
                    part = part[len(first) :]
                self._turn()
            self._hang(part)

    def add_columns(self, strips: Sequence[Strip]) -> None:
        """Strips half as wide, down the left column and then the right; the last columns are about equal."""
        rest = list(strips)
        while rest:
            if self._room < LEAST_ROOM:
                self._turn()
            columns = flowed(rest, self._room)
            if len(columns) <= 2:
                columns = _evened(rest, self._room)
            for column, left in zip(columns[:2], self._lefts, strict=False):
                self._laid[-1] += hung(column, left, self._y)
            self._y -= max(height_of(column) for column in columns[:2])
            rest = [strip for column in columns[2:] for strip in column]
            if rest:
                self._turn()

    def sheets(self) -> tuple[Sheet, ...]:
        """The pages."""
        paper, total = self._paper, len(self._laid)
        return tuple(
            Sheet(paper.width, paper.height, f"{NAME}, page {number} of {total}", tuple(laid))
            for number, laid in enumerate(self._laid, 1)
        )

    @property
    def _lefts(self) -> tuple[float, float]:
        left, wide = self._paper.margin, self._paper.inner_width
        return left, left + (wide + GUTTER) / 2

    def _hang(self, strips: Sequence[Strip]) -> None:
        self._laid[-1] += hung(strips, self._paper.margin, self._y)
        self._y -= height_of(strips)

    def _turn(self) -> None:
        self._laid.append([])
        self._y = self._top


def _evened(strips: Sequence[Strip], room: float) -> list[list[Strip]]:
    """Two columns, the longer as short as it can be."""
    low = height_of(strips) / 2
    for height in (low + k * (room - low) / 40 for k in range(40)):
        columns = flowed(strips, height)
        if len(columns) <= 2 and not any(column[-1].with_next for column in columns[:-1]):
            return columns
    return flowed(strips, room)


def _words(step: HandStep, number: int, width: float) -> list[Strip]:
    """The passages of a step, every sentence with its number."""
    strips: list[Strip] = []
    count = 0
    for passage in step.passages:
        lines = []
        for words in passage.sentences:
            count += 1
            lines.append(_numbered(f"{number}.{count}", words, width))
        head = _spaced(paragraph(passage.head, width, BODY, bold=True))
        strips += [*kept_together([head, *lines[:1]]), *lines[1:], space(1.5)]
    return strips


def _numbered(number: str, words: str, width: float) -> Strip:
    """A sentence with its number beside it."""
    text = paragraph(words, width - INDENT)
    sign = Lettering(number, (0.0, -BODY), BODY, "sheet")
    return _spaced(Strip(Drawing((sign,)) + text.drawing.moved((INDENT, 0.0)), text.height))


def _spaced(strip: Strip) -> Strip:
    return Strip(strip.drawing, strip.height + BETWEEN)


def _heading(heading: Heading, width: float) -> Strip:
    notes = heading.notes(QUARTER.name)
    drawing = heading_drawing(heading, notes, NAME, 0.0, 0.0, width)
    return Strip(drawing, -drawing.bounds[1] + 3.0)


def _before(heading: Heading, width: float) -> list[Strip]:
    """What to know first, beside the square to measure."""
    side = SMALL_SIDES[heading.unit][0] * heading.unit.millimetres
    left = width - side
    words = [_spaced(paragraph(line, left - 6.0)) for line in BEFORE]
    title = Strip(section("Before you begin", left - 6.0).drawing, HEAD * 1.75)
    square = Strip(Drawing(small_square((0.0, -side), SMALL_SIDES[heading.unit][0], heading.unit).signs), side)
    return [beside([(0.0, [title, *words]), (left, [square])])]
