"""The heading of a sheet: what it is, for whom, when, at which scale."""

from dataclasses import dataclass
from datetime import date
from typing import Final, Self

from panelwright.body.terms import TERMS
from panelwright.body.units import Unit
from panelwright.checks.wearer_estimates import FIRST
from panelwright.drawing.drawing import Drawing, Lettering, Sign, Stroke
from panelwright.drawing.path import Path
from panelwright.drawing.pen import HAIRLINE
from panelwright.drawing.typeface import typeface
from panelwright.pattern.pattern import Pattern

TITLE_SIZE: Final = 6.0
NOTE_SIZE: Final = 3.2
LEADING: Final = 1.3
_MONTHS: Final = (
    "January", "February", "March", "April", "May", "June", "July",
    "August", "September", "October", "November", "December",
)  # fmt: skip


@dataclass(frozen=True)
class Heading:
    """What stands at the head of every sheet of one garment.

    Attributes:
        title: of the garment.
        wearer: neutral reference, never a name; empty where it is for nobody.
        made_on: the day that the caller gives, or None to leave it out.
        unit: of the lengths that are written.
        estimated: measurements that were not taken.
    """

    title: str
    wearer: str
    made_on: date | None = None
    unit: Unit = Unit.CM
    estimated: tuple[str, ...] = ()

    @classmethod
    def of(cls, pattern: Pattern, title: str, made_on: date | None = None, unit: Unit = Unit.CM) -> Self:
        """The heading of a pattern's sheets."""
        return cls(title, pattern.worn_by, made_on, unit, pattern.estimated)

    def notes(self, scale_name: str) -> list[str]:
        """The lines under the title."""
        day = [date_text(self.made_on)] if self.made_on else []
        whose = [f"Wearer {self.wearer}"] if self.wearer else []
        facts = [*whose, *day, scale_name, f"lengths in {self.unit.words}"]
        return [" · ".join(facts), *([self._estimates] if self.estimated else [])]

    @property
    def _estimates(self) -> str:
        """The estimates to measure first by name, the others by number: the findings list them all."""
        first = [TERMS[id].label for id in FIRST if id in self.estimated]
        others = len(set(self.estimated)) - len(first)
        if not first:
            return f"Estimated, not measured: {others}, see the findings."
        more = f", and {others} more: see the findings" if others else ""
        return f"Estimated, measure before cutting: {', '.join(first)}{more}."


def date_text(day: date) -> str:
    """`25 November 2026`, whatever the machine's language."""
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"


def heading_drawing(heading: Heading, notes: list[str], name: str, left: float, top: float, width: float) -> Drawing:
    """The heading between `left` and `left + width`, hanging from `top`; the sheet's name stands at its right."""
    bold, plain = typeface(True), typeface()
    room = width - plain.width(name, NOTE_SIZE) - 6.0
    signs: list[Sign] = []
    y = top
    first, *others = bold.wrapped(bold.written(heading.title), TITLE_SIZE, room) or [""]
    second = [bold.shortened(" ".join(others), TITLE_SIZE, room)] if others else []
    for line in (first, *second):
        y -= TITLE_SIZE * (1.0 if not signs else LEADING)
        signs.append(Lettering(line, (left, y + 0.2 * TITLE_SIZE), TITLE_SIZE, "sheet", bold=True))
    signs.append(Lettering(name, (left + width, top - 0.8 * TITLE_SIZE), NOTE_SIZE, "sheet", anchor="right"))
    for note in notes:
        for line in plain.wrapped(plain.written(note), NOTE_SIZE, width):
            y -= NOTE_SIZE * LEADING
            signs.append(Lettering(line, (left, y), NOTE_SIZE, "sheet"))
    y -= 0.6 * NOTE_SIZE
    signs.append(Stroke(Path.polyline([(left, y), (left + width, y)]), HAIRLINE, "sheet"))
    return Drawing(tuple(signs))
