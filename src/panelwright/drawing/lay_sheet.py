"""Lays on paper: a page or more for each cloth, and one picture of all of them."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np

from panelwright.body.units import Unit
from panelwright.drawing.drawing import Drawing, Lettering
from panelwright.drawing.heading import LEADING, NOTE_SIZE, Heading, heading_drawing
from panelwright.drawing.lay_drawing import lay_drawing
from panelwright.drawing.lay_strip import ABOVE, BELOW, cloth_length, strip_drawing
from panelwright.drawing.lay_words import buying_words, lay_notes
from panelwright.drawing.paper import Paper
from panelwright.drawing.sheet import Laid, Sheet
from panelwright.drawing.typeface import typeface
from panelwright.finish.cut_count import cloth_words
from panelwright.lay.lay import Lay
from panelwright.pattern.mark import Point

# A lay is drawn at 1:10; only cloth that is too wide for the page is drawn smaller.
REDUCTIONS: Final = (10, 15, 20, 30, 50)
# Where a lay goes on in another strip, this much of it is shown in both, mm of cloth.
OVERLAP: Final = 50.0
# A strip may end this share of its room early, where fewer pieces cross its end.
EARLY: Final = 0.35
_GAP: Final = 3.0


@dataclass(frozen=True)
class Strip:
    """A stretch of a lay, from `low` to `high` mm along the cloth."""

    low: float
    high: float


def lay_sheets(lay: Lay, heading: Heading, paper: Paper) -> tuple[Sheet, ...]:
    """One lay on as many pages, lying crosswise, as it needs; long lays go on in further strips."""
    wide, tall = paper.height, paper.width
    room = paper.width - 2 * paper.margin
    notes = _notes(lay, heading, 10)
    name = cloth_words(lay.cloth.name)
    head = heading_drawing(heading, notes, f"lay, {name}, sheet 1 of 1", paper.margin, 0.0, paper.inner_height)
    top = -head.bounds[1] + _GAP
    reduction = _reduction(lay, room - top)
    factor = 1 / reduction
    high = ABOVE + lay.width * factor + BELOW
    strips = _strips(lay, paper.inner_height * reduction)
    each = max(1, int((room - top) / high))
    pages = [strips[k : k + each] for k in range(0, len(strips), each)]
    sheets = []
    for number, page in enumerate(pages, 1):
        title = f"lay, {name}, sheet {number} of {len(pages)}"
        own = heading_drawing(
            heading, _notes(lay, heading, reduction), title, paper.margin, tall - paper.margin, paper.inner_height
        )
        laid = [Laid(own)]
        for k, strip in enumerate(page):
            y = tall - paper.margin - top - k * high - ABOVE - lay.width * factor
            laid += _strip(lay, strip, factor, heading.unit, (paper.margin, y))
        sheets.append(Sheet(wide, tall, title, tuple(laid)))
    return tuple(sheets)


def lay_picture(lays: Sequence[Lay], heading: Heading, margin: float = 10.0) -> Sheet:
    """All lays at 1:10 under one another on one page that is as large as they need: a picture for the screen."""
    factor = 1 / REDUCTIONS[0]
    width = float(np.ceil(max(180.0, *(cloth_length(lay) * factor for lay in lays))))
    head = heading_drawing(heading, heading.notes(_scale_name(REDUCTIONS[0])), "lays", margin, 0.0, width)
    laid, y = [Laid(head)], head.bounds[1] - _GAP
    for lay in lays:
        words = _caption(lay, heading.unit, margin, y, width)
        y = words.bounds[1] - _GAP - ABOVE - lay.width * factor
        strip = Strip(0.0, cloth_length(lay))
        laid += [Laid(words), *_strip(lay, strip, factor, heading.unit, (margin, y))]
        y -= BELOW + _GAP
    height = float(np.ceil(margin - y + margin))
    shifted = tuple(_raised(each, height - margin) for each in laid)
    return Sheet(width + 2 * margin, height, "lays at one tenth", shifted)


def _raised(laid: Laid, by: float) -> Laid:
    window = laid.window and (laid.window[0], laid.window[1] + by, laid.window[2], laid.window[3] + by)
    return Laid(laid.drawing, (laid.shift[0], laid.shift[1] + by), window)


def _caption(lay: Lay, unit: Unit, left: float, top: float, width: float) -> Drawing:
    """The words of one lay, hanging from `top`."""
    lines = [
        (part, k == 0)
        for k, note in enumerate([buying_words(lay, unit), *lay_notes(lay, unit)])
        for part in typeface(k == 0).wrapped(typeface().written(note), NOTE_SIZE, width)
    ]
    return Drawing(
        tuple(
            Lettering(line, (left, top - NOTE_SIZE * LEADING * (k + 1)), NOTE_SIZE, "sheet", bold=bold)
            for k, (line, bold) in enumerate(lines)
        )
    )


def _strip(lay: Lay, strip: Strip, factor: float, unit: Unit, at: Point) -> list[Laid]:
    """A strip of cloth with its pieces, its lower left corner at a place on the page."""
    x, y = at
    pieces = lay_drawing(lay, strip.low, strip.high, factor, unit)
    edges = strip_drawing(lay, strip.low, strip.high, factor, unit)
    window = (x - 0.3, y - 0.3, x + (strip.high - strip.low) * factor + 0.3, y + lay.width * factor + 0.3)
    return [Laid(edges, at), Laid(pieces, (x - strip.low * factor, y), window)]


def _notes(lay: Lay, heading: Heading, reduction: int) -> list[str]:
    unit = heading.unit
    return [*heading.notes(_scale_name(reduction)), buying_words(lay, unit), *lay_notes(lay, unit)]


def _scale_name(reduction: int) -> str:
    return f"drawn at 1:{reduction}"


def _reduction(lay: Lay, room: float) -> int:
    """The first that lets the width of the cloth fit the room; the last where none does."""
    fits = (each for each in REDUCTIONS if ABOVE + lay.width / each + BELOW <= room)
    return next(fits, REDUCTIONS[-1])


def _strips(lay: Lay, room: float) -> list[Strip]:
    """Stretches of at most `room` mm that show all of the cloth; each ends where few pieces cross its end."""
    whole = cloth_length(lay)
    ends = [0.0]
    while whole - ends[-1] > room - (OVERLAP if len(ends) > 1 else 0.0):
        most = ends[-1] + room - (OVERLAP if len(ends) > 1 else 0.0)
        ends.append(_break(lay, ends[-1] + (most - ends[-1]) * (1 - EARLY), most))
    ends.append(whole)
    return [Strip(max(0.0, low - OVERLAP), high) for low, high in pairwise(ends)]


def _break(lay: Lay, low: float, high: float) -> float:
    """The place between two where the fewest pieces lie across the cloth, the farther along the better."""
    spans = np.array([(laid.outline[:, 0].min(), laid.outline[:, 0].max()) for laid in lay.laid]).reshape(-1, 2)
    places = np.arange(high, low, -5.0)
    crossing = ((spans[:, :1] < places) & (places < spans[:, 1:])).sum(axis=0)
    return float(places[int(crossing.argmin())])
