"""The blank measuring chart: every measurement with its picture, how it is taken, and boxes to write into."""

from collections.abc import Sequence
from pathlib import Path as FilePath
from typing import Final

from panelwright.app.measuring_picture import measuring_drawing
from panelwright.body.measurement_file import field_name
from panelwright.body.term import Term
from panelwright.body.terms import OF_THE_ARM, TERMS
from panelwright.body.units import Unit
from panelwright.checks.wearer_estimates import FIRST
from panelwright.drawing.drawing import Drawing, Lettering, Sign, Stroke
from panelwright.drawing.page_flow import Strip, flowed, hung, kept_together, space
from panelwright.drawing.paper import PAPERS, Paper
from panelwright.drawing.paragraph import BODY, SMALL, paragraph, section
from panelwright.drawing.path import Path
from panelwright.drawing.pen import HAIRLINE, RULE
from panelwright.drawing.sheet import Laid, Sheet
from panelwright.drawing.typeface import typeface
from panelwright.output.pdf import write_pdf

TITLE: Final = "Measuring chart"
PICTURE: Final = (26.0, 30.5)
BOX: Final = (26.0, 10.0)
BOXES: Final = ("first", "again")
GAP: Final = 3.0
FIELD: Final = 9.0
FOOT: Final = 6.0
SHORT: Final = 3  # rows that stay on one page
BEFORE: Final = (
    "Ask before you touch, and let the wearer hold the tape where they would rather. Stop when anything hurts.",
    "Measure over the undergarment that will be worn, standing as usual, breathing normally. Pull no tape tight: a "
    "bodice that is cut to a tight tape makes breath shallow and can bring on fainting.",
    "Tie a narrow tape or elastic round the waist first (the dashed line): every height is taken from it.",
    "Take each measurement twice, and a third time where the two differ by more than a finger's breadth.",
    "The chart is private. Write a reference like w-07 on it and no name; keep it as you keep the fitting book.",
)
EMPTY: Final = "what is left empty is estimated: measure it before cutting"


def write_measuring_chart(path: FilePath, unit: Unit = Unit.CM, paper: Paper = PAPERS["A4"]) -> None:
    """Write the chart as a PDF; it is there whole or not at all.

    Args:
        path: of the file.
        unit: what lengths will be written in.
        paper: of its pages.

    Raises:
        OutputError: if it cannot be written.
    """
    write_pdf(measuring_chart(unit, paper), path, TITLE)


def measuring_chart(unit: Unit = Unit.CM, paper: Paper = PAPERS["A4"]) -> tuple[Sheet, ...]:
    """The pages of the chart."""
    room = paper.inner_height - FOOT
    pages = flowed(_strips(unit, paper.inner_width), room)
    sheets = []
    for number, strips in enumerate(pages, 1):
        name = f"page {number} of {len(pages)}"
        foot = Lettering(f"{TITLE}, {name}, private", (paper.margin, paper.margin), SMALL, "sheet")
        laid = (*hung(strips, paper.margin, paper.height - paper.margin), Laid(Drawing((foot,))))
        sheets.append(Sheet(paper.width, paper.height, f"{TITLE}, {name}", laid))
    return tuple(sheets)


def _strips(unit: Unit, width: float) -> list[Strip]:
    required = [term for term in TERMS.values() if term.required]
    asked = [TERMS[id] for id in FIRST if not TERMS[id].required]
    for_sleeves = [TERMS[id] for id in OF_THE_ARM]
    others = [term for term in TERMS.values() if term not in (*required, *asked, *for_sleeves)]
    strips = [*_head(unit, width), space(2.0)]
    for title, terms in (
        ("Needed: no block without them", required),
        (f"These improve the fit most; {EMPTY}", asked),
        (f"As many of these as you can; {EMPTY}", others),
        ("For sleeves", for_sleeves),
    ):
        rows = [_row(term, unit, width) for term in terms]
        first = len(rows) if len(rows) <= SHORT else 1
        strips += [*kept_together([section(title, width), *rows[:first]]), *rows[first:], space(3.0)]
    return strips


def _head(unit: Unit, width: float) -> list[Strip]:
    title = Lettering(TITLE, (0.0, -6.0), 7.0, "sheet", bold=True)
    words = Lettering(f"all lengths in {unit.words}", (width, -6.0), BODY, "sheet", anchor="right")
    rules = [paragraph(f"– {line}", width, SMALL + 0.1, indent=2.0) for line in BEFORE]
    return [Strip(Drawing((title, words)), 9.0), _fields(("Reference", "Date", "Measured by"), width), *rules]


def _fields(names: Sequence[str], width: float) -> Strip:
    """Lines to write on, side by side."""
    signs: list[Sign] = []
    wide = width / len(names)
    for k, name in enumerate(names):
        left = k * wide
        signs.append(Lettering(name, (left, -FIELD + 2.5), BODY, "sheet"))
        start = left + typeface().width(name, BODY) + 2.0
        signs.append(Stroke(Path.polyline([(start, -FIELD + 2.0), (left + wide - 4.0, -FIELD + 2.0)]), RULE, "sheet"))
    return Strip(Drawing(tuple(signs)), FIELD)


def _row(term: Term, unit: Unit, width: float) -> Strip:
    """One measurement: picture, words, two boxes."""
    boxes_at = width - len(BOXES) * (BOX[0] + GAP)
    left = PICTURE[0] + GAP
    wide = boxes_at - left - GAP
    words = [
        paragraph(f"{term.label[0].upper()}{term.label[1:]}", wide, BODY + 0.5, bold=True),
        paragraph(term.how, wide, BODY),
        *([paragraph(term.note, wide, SMALL)] if term.note and term.quantity == "length" else []),
        paragraph(f"in the file: {field_name(term)}", wide, SMALL - 0.3),
    ]
    drawings = [measuring_drawing(term, *PICTURE).moved((0.0, -PICTURE[1]))]
    top = 3.0
    for strip in words:
        drawings.append(strip.drawing.moved((left, -top)))
        top += strip.height + 0.6
    for k, name in enumerate(BOXES):
        drawings.append(_box(name, _sign(term, unit)).moved((boxes_at + k * (BOX[0] + GAP), -6.0)))
    height = max(PICTURE[1], top) + 0.5
    rule = Stroke(Path.polyline([(0.0, -height), (width, -height)]), HAIRLINE, "sheet")
    return Strip(Drawing.together([*drawings, Drawing((rule,))]), height + 0.5)


def _box(name: str, sign: str) -> Drawing:
    """A box to write into, hanging from the origin, with its name over it and the unit inside it."""
    frame = Stroke(Path.box(0.0, -BOX[1], *BOX), RULE, "sheet")
    over = Lettering(name, (0.0, 1.0), SMALL, "sheet")
    inside = Lettering(sign, (BOX[0] - 1.5, -BOX[1] + 2.0), SMALL, "sheet", anchor="right")
    return Drawing((frame, over, inside))


def _sign(term: Term, unit: Unit) -> str:
    return "°" if term.quantity == "angle" else unit.value
