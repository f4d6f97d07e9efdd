"""Lengths reckoned for this wearer, with their sums, for the sign-off page."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from panelwright.body.units import Unit
from panelwright.drawing.amount import amount, span
from panelwright.drawing.page_flow import Strip, beside, kept_together
from panelwright.drawing.paragraph import BODY, SMALL, Column, paragraph, section, table
from panelwright.pattern.working import OR_LONGER, Working

COLUMNS: Final = 2
GUTTER: Final = 8.0


def working_strips(workings: Sequence[Working], unit: Unit, width: float) -> list[Strip]:
    """The workings, two beside each other: parts, sum, how far it may be off, a given length judged."""
    if not workings:
        return []
    wide = (width - (COLUMNS - 1) * GUTTER) / COLUMNS
    cards = [working_card(working, unit, wide) for working in workings]
    pairs = [
        beside([(column * (wide + GUTTER), card) for column, card in enumerate(cards[k : k + COLUMNS])])
        for k in range(0, len(cards), COLUMNS)
    ]
    first, *others = [replace(pair, height=pair.height + 2.0) for pair in pairs]
    return [*kept_together([section("Lengths reckoned for this wearer", width), first]), *others]


def working_card(working: Working, unit: Unit, width: float) -> list[Strip]:
    """One working in a column `width` mm wide."""
    columns = [Column("", 0.74), Column("", 0.26, "right")]
    rows = [[_opening(part.label), amount(part.length, unit)] for part in working.parts]
    strips = [paragraph(f"{working.what}: {amount(working.length, unit)}", width, BODY, bold=True)]
    strips += table(columns, rows, width)
    total = [Column("", 0.3, bold=True), Column("", 0.7, "right", bold=True)]
    strips += table(total, [["Reckoned", f"{amount(working.reckoned, unit)}{_room(working, unit)}"]], width)
    if working.given is not None:
        strips.append(paragraph(_judged(working, unit), width, BODY, bold=bool(working.off)))
    return [*strips, *(paragraph(words, width, SMALL) for words in (working.note, _thumb(working, unit)) if words)]


def _thumb(working: Working, unit: Unit) -> str:
    """`Rule of thumb: twice the width of the back. Here: 35.8 cm.`, the number where the rule says a length."""
    if not working.rule_of_thumb:
        return ""
    here = "" if working.rule_length is None else f" Here: {amount(working.rule_length, unit)}."
    return f"Rule of thumb: {working.rule_of_thumb}{here}"


def _room(working: Working, unit: Unit) -> str:
    """How far a length may be off: ` ± 2.0 cm`, or the lengths that are right where one side has more room."""
    if working.short == working.long:
        return f" ± {amount(working.long, unit)}" if working.long else ""
    if working.long >= OR_LONGER:
        return f"; right: {amount(working.reckoned - working.short, unit)} or longer"
    return f"; right: {span(working.reckoned - working.short, working.reckoned + working.long, unit)}"


def _judged(working: Working, unit: Unit) -> str:
    """What the maker's own length is, held against the one that was reckoned."""
    given = f"Given by the maker: {amount(working.given or 0.0, unit)}"
    if not working.off:
        return f"{given}, which is right."
    way = "shorter" if working.off < 0 else "longer"
    return (
        f"{given}, {amount(abs(working.off), unit)} {way} than reckoned: too {'short' if working.off < 0 else 'long'}."
    )


def _opening(text: str) -> str:
    return text[:1].upper() + text[1:]
