"""What was checked and what was found, for the sign-off page."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from panelwright.body.units import Unit
from panelwright.checks.rule_family import DRAFTING_CODES, FamilyResult, family_results
from panelwright.checks.tally import counts_in_words
from panelwright.drawing.amount import value_and_limit
from panelwright.drawing.drawing import Drawing, Stroke
from panelwright.drawing.page_flow import Strip, beside, kept_together
from panelwright.drawing.paragraph import BODY, Column, paragraph, section, table
from panelwright.drawing.path import Path
from panelwright.drawing.pen import RULE
from panelwright.file_words import without_file_words
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern

INDENT: Final = 6.0
NUMBERS: Final = 42.0
BOX: Final = 2.6
HEADINGS: Final = {
    "error": "Errors: do not cut before these are put right",
    "warning": "Warnings: decide about each, and tick it, before you cut",
    "advice": "Advice",
}


def passed_strips(cutting: CuttingPattern, findings: Sequence[Finding], width: float) -> list[Strip]:
    """A row for each family of drafting rules: of how many things how many are right."""
    columns = [Column("", 0.2, "right", bold=True), Column("", 0.28), Column("", 0.52)]
    rows = [_row(result) for result in family_results(cutting, findings)]
    others = [finding for finding in findings if finding.code not in DRAFTING_CODES]
    words = f"The wearer, fit and sewing: {counts_in_words(others)}."
    return [section("Checks passed", width), *table(columns, rows, width), paragraph(words, width)]


def finding_strips(findings: Sequence[Finding], unit: Unit, width: float) -> list[Strip]:
    """Every open finding with its number, its limit and its remedy, the gravest first; a box to tick at warnings."""
    if not findings:
        return [section("Open findings", width), paragraph("None.", width)]
    strips = []
    for severity, heading in HEADINGS.items():
        own = [finding for finding in findings if finding.severity == severity]
        if own:
            first, *others = [_entry(number, finding, unit, width) for number, finding in enumerate(own, 1)]
            strips += [*kept_together([section(heading, width), first]), *others]
    return strips


def _row(result: FamilyResult) -> list[str]:
    family = result.family
    if result.at_fault is None:
        return ["not judged", family.things, family.says]
    right = max(result.looked_at - result.at_fault, 0)
    fault = "" if result.passed else ": see the errors"
    return [f"{right} of {result.looked_at}" if result.looked_at else "no", family.things, family.says + fault]


def _entry(number: int, finding: Finding, unit: Unit, width: float) -> Strip:
    """Number or box, sentences and, at the right, what was found and the limit."""
    value, limit = value_and_limit(finding, unit)
    wide = width - INDENT - NUMBERS
    words = [
        paragraph(f"{_sentence(finding.message)}", wide, BODY, bold=finding.severity != "advice"),
        paragraph(f"What to do: {_sentence(finding.remedy)}", wide),
    ]
    numbers = [paragraph(f"found {value}", NUMBERS - 4.0), paragraph(f"limit {limit}", NUMBERS - 4.0)]
    mark = _tick_box() if finding.severity == "warning" else paragraph(f"{number}.", INDENT)
    entry = beside([(0.0, [mark]), (INDENT, words), (width - NUMBERS + 4.0, numbers)])
    return replace(entry, height=entry.height + 1.0)


def _tick_box() -> Strip:
    box = Stroke(Path.box(0.3, -BOX - 0.5, BOX, BOX), RULE, "sheet")
    return Strip(Drawing((box,)), BOX + 1.0)


def _sentence(text: str) -> str:
    text = without_file_words(text.strip())
    text = text[:1].upper() + text[1:]
    return text if text.endswith((".", "?", "!")) else f"{text}."
