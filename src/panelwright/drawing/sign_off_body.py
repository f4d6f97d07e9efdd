"""The wearer's measurements on the sign-off page: which were taken and which are estimates."""

from collections.abc import Sequence
from typing import Final

from panelwright.body.measurements import Measurements
from panelwright.body.term import TermId
from panelwright.body.terms import TERMS
from panelwright.body.units import Unit, format_angle
from panelwright.drawing.amount import amount
from panelwright.drawing.page_flow import Strip, beside, kept_together, space
from panelwright.drawing.paragraph import BODY, Column, paragraph, section, table
from panelwright.pattern.pattern import Pattern

COLUMNS: Final = 3
GUTTER: Final = 5.0
ESTIMATED: Final = "Estimated, not measured: this body may differ. Measure these before you cut good cloth."
NONE_ESTIMATED: Final = "All of them were measured; none is an estimate."


def body_strips(pattern: Pattern, wearer: Measurements | None, unit: Unit, width: float) -> list[Strip]:
    """What was taken and what was estimated, with the amounts where the wearer's measurements are at hand."""
    strips = [section("The wearer’s measurements", width)]
    if wearer is not None:
        strips.append(_grid([_entry(wearer, id, unit) for id in wearer.taken], width))
    estimated = _estimated(pattern, wearer, unit)
    if not estimated:
        return [*strips, paragraph(NONE_ESTIMATED, width)]
    return [
        *strips,
        *kept_together([space(1.0), paragraph(ESTIMATED, width, BODY, bold=True), _grid(estimated, width)]),
    ]


def _estimated(pattern: Pattern, wearer: Measurements | None, unit: Unit) -> list[tuple[str, str]]:
    if wearer is not None:
        return [_entry(wearer, id, unit) for id in wearer.estimated if id in pattern.estimated]
    labels = {str(id): term.label for id, term in TERMS.items()}
    return [(_opening(labels.get(id, id.replace("_", " "))), "") for id in pattern.estimated]


def _entry(wearer: Measurements, id: TermId, unit: Unit) -> tuple[str, str]:
    is_angle = TERMS[id].quantity == "angle"
    return _opening(TERMS[id].label), format_angle(wearer[id]) if is_angle else amount(wearer[id], unit)


def _grid(entries: Sequence[tuple[str, str]], width: float) -> Strip:
    """Label and amount, filled column by column."""
    wide = (width - (COLUMNS - 1) * GUTTER) / COLUMNS
    each = -(-len(entries) // COLUMNS)
    runs = [entries[k : k + each] for k in range(0, len(entries), each)] if entries else []
    columns = [Column("", 0.68), Column("", 0.32, "right")]
    return beside([(k * (wide + GUTTER), table(columns, run, wide)) for k, run in enumerate(runs)])


def _opening(text: str) -> str:
    return text[:1].upper() + text[1:]
