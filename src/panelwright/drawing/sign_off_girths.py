"""Finished measurements beside the wearer's, for the sign-off page."""

from typing import Final

from panelwright.body.measurements import Measurements
from panelwright.body.term import TermId
from panelwright.body.units import Unit
from panelwright.drawing.amount import amount, signed
from panelwright.drawing.page_flow import Strip, space
from panelwright.drawing.paragraph import SMALL, Column, paragraph, section, table
from panelwright.pattern import level as levels
from panelwright.pattern.level import Level
from panelwright.pattern.line import CENTRE_BACK, CENTRE_FRONT, SIDE
from panelwright.pattern.pattern import Pattern

# The measurement that a level's girth is; a level that is not here lies between two that were measured.
GIRTHS: Final[dict[str, TermId]] = {
    levels.UPPER_BUST: "upper_bust_girth",
    levels.BUST: "bust_girth",
    levels.UNDERBUST: "underbust_girth",
    levels.WAIST: "waist_girth",
    levels.TOP_HIP: "top_hip_girth",
    levels.HIP: "hip_girth",
}
SHOULDER: Final = "shoulder"
# Lines whose finished length a wearer can hold a tape to, and the measurement to compare where there is one.
LENGTHS: Final[dict[str, tuple[str, TermId | None]]] = {
    CENTRE_FRONT: ("Centre front", None),
    SIDE: ("Side seam", None),
    CENTRE_BACK: ("Centre back", None),
    SHOULDER: ("Shoulder seam", "shoulder_length"),
}
NOT_TAKEN: Final = "*"
NO_GIRTH: Final = "No girth runs whole round this garment: hold a tape to the toile."
IN_PART: Final = "in part"
ABOUT_PART: Final = "in part: an edge of the garment crosses this level, so that nothing of one girth goes round there"
CLOSE: Final = (
    Column("Girth", 0.34),
    Column("Wearer", 0.22, "right"),
    Column("Ease", 0.2, "right"),
    Column("Finished", 0.24, "right", bold=True),
)
# Where the closed edges stand apart or lap.
APART: Final = (
    Column("Girth", 0.25),
    Column("Wearer", 0.19, "right"),
    Column("Ease", 0.17, "right"),
    Column("Finished", 0.19, "right", bold=True),
    Column("Edges", 0.2, "right"),
)
ALONG: Final = (Column("Length", 0.34), Column("Wearer", 0.22, "right"), Column("Finished", 0.44, "right", bold=True))


def girth_strips(pattern: Pattern, wearer: Measurements | None, unit: Unit, width: float) -> list[Strip]:
    """A row for each girth and length of the closed garment; a star marks what was not measured."""
    girths = _girths(pattern, wearer, unit)
    lengths = [row for line in LENGTHS if (row := _length(line, pattern, wearer, unit))]
    apart = any(level.gap or level.overlap for level in pattern.levels)
    strips = [section("Finished measurements", width)]
    if girths:
        strips += table(APART if apart else CLOSE, girths if apart else [row[:-1] for row in girths], width)
    else:
        strips.append(paragraph(NO_GIRTH, width))
    if lengths:
        compared = any(body for _, body, _ in lengths)
        strips += [space(1.0), *table(ALONG, lengths, width)] if compared else _alone(lengths, width)
    if any(IN_PART in row for row in girths):
        strips.append(paragraph(ABOUT_PART, width, SMALL))
    if any(NOT_TAKEN in cell for row in (*girths, *lengths) for cell in row):
        strips.append(paragraph(f"{NOT_TAKEN} not measured: estimated, or between two levels that were", width, SMALL))
    return strips


def _girths(pattern: Pattern, wearer: Measurements | None, unit: Unit) -> list[list[str]]:
    """From the top of the garment down; a level that an edge crosses goes round in part, and is told so."""
    rows = {level.id: _girth(level, pattern, unit) for level in pattern.levels}
    outer = [piece for piece in pattern.pieces if piece.layer == "outer"]
    left = {line.id for piece in outer for line in piece.inside if line.kind == "guide"} - {*rows}
    rows |= {id: [_label(id), _body(id, wearer, unit), "–", IN_PART, ""] for id in left & {*GIRTHS}}
    known = [*levels.LEVELS, *(id for id in rows if id not in levels.LEVELS)]
    return [rows[id] for id in known if id in rows]


def _label(level: str) -> str:
    return level.replace("-", " ").capitalize()


def _body(level: str, wearer: Measurements | None, unit: Unit) -> str:
    if wearer is None:
        return "–"
    term = GIRTHS[level]
    return amount(wearer[term], unit) + (NOT_TAKEN if wearer.value(term).source == "estimated" else "")


def _girth(level: Level, pattern: Pattern, unit: Unit) -> list[str]:
    term = GIRTHS.get(level.id)
    star = NOT_TAKEN if term is None or term in pattern.estimated else ""
    return [
        level.label,
        amount(level.body_girth, unit) + star,
        signed(level.ease, unit),
        amount(level.finished_girth, unit),
        _apart(level, unit),
    ]


def _apart(level: Level, unit: Unit) -> str:
    parts = [
        f"{amount(level.gap, unit)} gap" if level.gap else "",
        f"{amount(level.overlap, unit)} lap" if level.overlap else "",
    ]
    return ", ".join(filter(None, parts)) or "–"


def _alone(lengths: list[list[str]], width: float) -> list[Strip]:
    columns = [Column("Length", 0.5), Column("Finished", 0.5, "right", bold=True)]
    return [space(1.0), *table(columns, [[label, own] for label, _, own in lengths], width)]


def _length(line: str, pattern: Pattern, wearer: Measurements | None, unit: Unit) -> list[str] | None:
    sides: dict[str, float] = {}
    for piece, edge in pattern.pieces_on_line(line):
        if piece.layer == "outer":
            sides[edge.side] = sides.get(edge.side, 0.0) + edge.curve.length
    if not sides:
        return None
    label, term = LENGTHS[line]
    body = ""
    if term and wearer:
        star = NOT_TAKEN if wearer.value(term).source == "estimated" else ""
        body = amount(wearer[term], unit) + star
    return [label, body, amount(max(sides.values()), unit)]
