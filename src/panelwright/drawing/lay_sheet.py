"""Lays on paper: a page or more for each cloth, and one picture of all of them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Final

import numpy as np

from panelwright.body.units import Unit
from panelwright.drawing.drawing import Drawing, Lettering
from panelwright.drawing.heading import LEADING, NOTE_SIZE, Heading, heading_drawing
from panelwright.drawing.lay_drawing import LayDrawing
from panelwright.drawing.lay_list import LEAST_WIDTH, piece_list
from panelwright.drawing.lay_stretch import Stretch, stretches, whole_lay
from panelwright.drawing.lay_strip import ABOVE, BELOW, cloth_length, strip_drawing
from panelwright.drawing.lay_words import buying_words, lay_notes
from panelwright.drawing.page_flow import Strip, flowed, height_of, hung
from panelwright.drawing.paper import LONGEST_PAGE, Paper
from panelwright.drawing.sheet import Laid, Sheet
from panelwright.drawing.typeface import typeface
from panelwright.finish.cut_count import cloth_words
from panelwright.lay.lay import Lay
from panelwright.pattern.mark import Point

# The first that costs no more pages than 1:10 is taken; only cloth that is too wide for the page is drawn smaller.
REDUCTIONS: Final = (5, 6, 8, 10, 12, 15, 20, 30, 50)
USUAL: Final = 10
# A lay in the picture for the screen is at most so wide and high, mm.
PICTURE: Final = (277.0, 150.0)
_GAP: Final = 3.0
_BESIDE: Final = 8.0


def lay_sheets(
    lay: Lay, heading: Heading, paper: Paper, reduction: int | None = None, words: str = ""
) -> tuple[Sheet, ...]:
    """One lay on as many pages, lying crosswise, as it needs; long lays go on in further strips.

    What has no room for its words carries a number, and is listed beside the lay, below it or on a page more. With a
    `reduction` (10 for 1:10) cloth that is too wide for the paper gets a sheet that is as large as it needs. `words`
    stand at the head instead of what to buy.
    """
    if reduction is not None:
        pages = _Pages(lay, heading, paper, reduction, words)
        return (pages if pages.fits else pages.on_one_sheet()).sheets()
    tried: list[_Pages] = []
    for reduction in REDUCTIONS:
        pages = _Pages(lay, heading, paper, reduction, words)
        if pages.fits or reduction == REDUCTIONS[-1]:
            tried.append(pages)
            if pages.count == 1 or reduction >= USUAL:
                break
    return min(tried, key=lambda pages: pages.count).sheets()


def lay_picture(lays: Sequence[Lay], heading: Heading, margin: float = 10.0, reduction: int | None = None) -> Sheet:
    """All lays, whole, under one another on one page that is as large as they need: a picture for the screen.

    Each is drawn as large as suits a screen, or all with the `reduction`.
    """
    drawn = [
        LayDrawing(lay, (whole_lay(lay),), 1 / (reduction or _picture_reduction(lay)), heading.unit) for lay in lays
    ]
    width = float(np.ceil(max(180.0, *(cloth_length(one.lay) * one.factor for one in drawn))))
    head = heading_drawing(heading, heading.notes("drawn to the scale beside each"), "lays", margin, 0.0, width)
    laid, y = [Laid(head)], head.bounds[1] - _GAP
    for one in drawn:
        words = _caption(one, margin, y, width)
        y = words.bounds[1] - _GAP - ABOVE - one.lay.width * one.factor
        laid += [Laid(words), *_strip(one, one.stretches[0], (margin, y))]
        y -= BELOW + _GAP
        listed = piece_list(one, width)
        laid += hung(listed, margin, y)
        y -= height_of(listed) + (_GAP if listed else 0.0)
    height = float(np.ceil(margin - y + margin))
    shifted = tuple(_raised(each, height - margin) for each in laid)
    return Sheet(width + 2 * margin, height, "lays", shifted)


def lay_alone(lay: Lay, unit: Unit, margin: float = 8.0) -> Sheet:
    """One lay, whole, with nothing written above it, on a page that is as large as it needs: for the screen."""
    one = LayDrawing(lay, (whole_lay(lay),), 1 / _picture_reduction(lay), unit, screen=True)
    width = cloth_length(lay) * one.factor
    width = float(np.ceil(max(width, LEAST_WIDTH) if one.numbers else width))
    listed = piece_list(one, width)
    below = BELOW + (_GAP + height_of(listed) if listed else 0.0)
    high = lay.width * one.factor
    laid = _strip(one, one.stretches[0], (margin, margin + below))
    laid += hung(listed, margin, margin + below - BELOW - _GAP)
    return Sheet(
        width + 2 * margin, margin + below + high + ABOVE + margin, f"lay, {cloth_words(lay.cloth.name)}", tuple(laid)
    )


@dataclass(frozen=True, eq=False)
class _Pages:
    """The pages of a lay at one reduction."""

    lay: Lay
    heading: Heading
    paper: Paper
    reduction: int
    words: str

    @property
    def fits(self) -> bool:
        """Whether the width of the cloth has room."""
        return self._high <= self._room

    @property
    def count(self) -> int:
        """How many pages it takes, the list of pieces among them."""
        return len(self._lay_pages) + len(self._list[1])

    def sheets(self) -> tuple[Sheet, ...]:
        """The pages: the lay, then what found no room beside or below it of the list."""
        last, further = self._list
        contents = [self._strips(page) for page in self._lay_pages]
        contents[-1] += last
        contents += [hung(page, self.paper.margin, self._top) for page in further]
        return tuple(self._sheet(number, laid) for number, laid in enumerate(contents, 1))

    def on_one_sheet(self) -> "_Pages":
        """The same on a sheet that is as wide as the cloth and as long as the lay, as far as a page can be."""
        wide = min(np.ceil(cloth_length(self.lay) / self.reduction) + 2 * self.paper.margin, LONGEST_PAGE)
        sheet = replace(self, paper=replace(self.paper, height=max(self.paper.height, float(wide))))
        listed = piece_list(sheet._drawn, sheet.paper.inner_height)
        below = _GAP + height_of(listed) if listed else 0.0
        lacking = float(np.ceil(max(0.0, sheet._high + below - sheet._room)))
        return replace(sheet, paper=replace(sheet.paper, width=sheet.paper.width + lacking))

    def _sheet(self, number: int, laid: Sequence[Laid]) -> Sheet:
        name = f"lay, {cloth_words(self.lay.cloth.name)}, sheet {number} of {self.count}"
        return Sheet(self.paper.height, self.paper.width, name, (Laid(self._head(name)), *laid))

    def _head(self, name: str) -> Drawing:
        paper, unit = self.paper, self.heading.unit
        words = self.words or buying_words(self.lay, unit)
        notes = [*self.heading.notes(_scale_name(self.reduction)), words]
        notes.append(" ".join(lay_notes(self.lay, unit)))  # one paragraph leaves the lay more room
        return heading_drawing(self.heading, notes, name, paper.margin, paper.width - paper.margin, paper.inner_height)

    @cached_property
    def _top(self) -> float:
        """Where the strips begin, mm above the page's lower edge."""
        return self._head(f"lay, {cloth_words(self.lay.cloth.name)}, sheet 1 of 1").bounds[1] - _GAP

    @property
    def _room(self) -> float:
        return self._top - self.paper.margin

    @property
    def _high(self) -> float:
        """What a strip takes of a page's height, mm."""
        return ABOVE + self.lay.width / self.reduction + BELOW

    @cached_property
    def _drawn(self) -> LayDrawing:
        shown = stretches(self.lay, self.paper.inner_height * self.reduction)
        return LayDrawing(self.lay, shown, 1 / self.reduction, self.heading.unit)

    @property
    def _lay_pages(self) -> list[tuple[Stretch, ...]]:
        each = max(1, int(self._room / self._high))
        shown = self._drawn.stretches
        return [shown[k : k + each] for k in range(0, len(shown), each)]

    def _strips(self, page: Sequence[Stretch]) -> list[Laid]:
        down = self._top - ABOVE - self.lay.width / self.reduction
        return [
            laid
            for k, stretch in enumerate(page)
            for laid in _strip(self._drawn, stretch, (self.paper.margin, down - k * self._high))
        ]

    @cached_property
    def _list(self) -> tuple[list[Laid], list[list[Strip]]]:
        """The list beside or below the last strips, or else nothing there and further pages with it."""
        if not self._drawn.numbers:
            return [], []
        for left, top, width in self._places():
            listed = piece_list(self._drawn, width)
            if height_of(listed) <= top - self.paper.margin:
                return hung(listed, left, top), []
        return [], flowed(piece_list(self._drawn, self.paper.inner_height), self._room)

    def _places(self) -> Iterator[tuple[float, float, float]]:
        """(left, top, width) of the room beside and below the strips of the last page, mm."""
        page, margin = self._lay_pages[-1], self.paper.margin
        used = max(stretch.length for stretch in page) / self.reduction + _BESIDE
        if self.paper.inner_height - used >= LEAST_WIDTH:
            yield margin + used, self._top - ABOVE, self.paper.inner_height - used
        yield margin, self._top - len(page) * self._high - _GAP, self.paper.inner_height


def _raised(laid: Laid, by: float) -> Laid:
    window = laid.window and (laid.window[0], laid.window[1] + by, laid.window[2], laid.window[3] + by)
    return Laid(laid.drawing, (laid.shift[0], laid.shift[1] + by), window)


def _caption(drawn: LayDrawing, left: float, top: float, width: float) -> Drawing:
    """The words of one lay, hanging from `top`."""
    lay, unit = drawn.lay, drawn.unit
    notes = [f"{buying_words(lay, unit)} {_opening(_scale_name(round(1 / drawn.factor)))}.", *lay_notes(lay, unit)]
    lines = [
        (part, k == 0)
        for k, note in enumerate(notes)
        for part in typeface(k == 0).wrapped(typeface().written(note), NOTE_SIZE, width)
    ]
    return Drawing(
        tuple(
            Lettering(line, (left, top - NOTE_SIZE * LEADING * (k + 1)), NOTE_SIZE, "sheet", bold=bold)
            for k, (line, bold) in enumerate(lines)
        )
    )


def _strip(drawn: LayDrawing, stretch: Stretch, at: Point) -> list[Laid]:
    """A strip of cloth with its pieces, its lower left corner at a place on the page."""
    x, y = at
    lay, factor = drawn.lay, drawn.factor
    edges = strip_drawing(lay, stretch.low, stretch.high, factor, drawn.unit)
    window = (x - 0.3, y - 0.3, x + stretch.length * factor + 0.3, y + lay.width * factor + 0.3)
    return [Laid(edges, at), Laid(drawn.drawing(stretch), (x - stretch.low * factor, y), window)]


def _scale_name(reduction: int) -> str:
    return f"drawn at 1:{reduction}"


def _opening(text: str) -> str:
    return text[:1].upper() + text[1:]


def _picture_reduction(lay: Lay) -> int:
    """The first that keeps a lay within the picture's room, but none smaller than the usual one."""
    wide, high = PICTURE
    fits = (each for each in REDUCTIONS if lay.width / each <= high and cloth_length(lay) / each <= wide)
    return min(next(fits, USUAL), USUAL)
