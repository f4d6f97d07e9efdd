"""A range of sizes from one design: every size's cutting pattern, a nested drawing, and the grade report."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path
from typing import Final

from panelwright.app.findings_text import FINDINGS_FILE, findings_text
from panelwright.app.garment import STAGES, Garment, make_garment
from panelwright.app.garment_design import GarmentDesign
from panelwright.app.garment_folder import PATTERN_FILE, write_garment
from panelwright.app.one_of_several import making
from panelwright.app.output_folder import open_folder
from panelwright.app.paper import OVERVIEW, PaperChoice
from panelwright.app.progress import Progress, part_of, unheard
from panelwright.app.sign_off import page_of
from panelwright.body.measurements import Measurements
from panelwright.body.size_table import size
from panelwright.body.units import Unit
from panelwright.checks.inspection import by_severity
from panelwright.drawing.heading import Heading
from panelwright.drawing.nested_sheet import nested_overview, nested_sheets
from panelwright.drawing.sheet import Sheet
from panelwright.errors import InputError
from panelwright.finding import Finding
from panelwright.grading.grade_report import GradeReport, grade_report
from panelwright.grading.nested_piece import NestedPiece, Reference, nested, sizes_apart
from panelwright.output.pattern_file import write_pattern
from panelwright.output.pdf import write_pdf
from panelwright.output.svg import write_svg
from panelwright.saved_file import save

GRADE_FILE: Final = "grade.json"
NESTED_FILE: Final = "nested-quarter-scale.pdf"
LARGE_FILE: Final = "nested-full-scale.pdf"
WHERE: Final[dict[Reference, str]] = {
    "waist": "at the front end of each waist line (on the centre front: the waist at centre front)",
    "bottom": "at the lower corner towards the front",
    "top": "at the upper corner towards the front",
}


@dataclass(frozen=True, eq=False, repr=False)
class SizeRange:
    """What `make_range` returns.

    Attributes:
        design: of all sizes.
        garments: bust girth in cm -> the garment, the smallest first.
        reference: at which the sizes are nested.
        unit: of the wording.
    """

    design: GarmentDesign
    garments: dict[int, Garment]
    reference: Reference
    unit: Unit

    @cached_property
    def _nested(self) -> tuple[tuple[NestedPiece, ...], tuple[str, ...]]:
        return nested({bust: garment.cutting for bust, garment in self.garments.items()}, self.reference)

    @property
    def pieces(self) -> tuple[NestedPiece, ...]:
        """The pieces that are alike in every size."""
        return self._nested[0]

    @cached_property
    def report(self) -> GradeReport:
        """How far each corner moves from size to size."""
        return grade_report(self.pieces, self._nested[1], self.reference, self.unit)

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Those of the grade, and the errors of every size, which say it."""
        errors = [
            replace(found, message=f"Size {bust}: {found.message}")
            for bust, made in self.garments.items()
            for found in made.findings
            if found.severity == "error"
        ]
        return by_severity((*errors, *self.report.findings))


def make_range(
    design: GarmentDesign,
    busts: Sequence[int],
    reference: Reference = "waist",
    progress: Progress = unheard,
    unit: Unit = Unit.CM,
    table: Mapping[int, Measurements] | None = None,
) -> SizeRange:
    """The garments of a design in several sizes.

    Args:
        design: of all of them.
        busts: which sizes, by bust girth in cm.
        reference: at which they are nested.
        progress: told what comes next.
        unit: of the wording.
        table: bust girth in cm -> measurements of a size; None: our own table.

    Raises:
        InputError: if there are fewer than two sizes, the table lacks one, or one cannot be made.
        BlockError: if one has no block; the message names the size.
    """
    sizes_apart(busts)
    wearers = {bust: size(bust) if table is None else _listed(table, bust) for bust in sorted(busts)}
    garments = {}
    for number, (bust, wearer) in enumerate(wearers.items()):
        told = part_of(progress, number * STAGES, len(wearers) * STAGES)
        with making(f"size {bust}"):
            garments[bust] = make_garment(wearer, design, told, unit)
    return SizeRange(design, garments, reference, unit)


def _listed(table: Mapping[int, Measurements], bust: int) -> Measurements:
    if bust not in table:
        raise InputError(f"the table has no size {bust}; its sizes are {', '.join(map(str, table))}", "busts")
    return table[bust]


def write_range(made: SizeRange, folder: Path, choice: PaperChoice, sheets: bool = False) -> tuple[Path, ...]:
    """Write the range into an open folder: a folder for each size, nested drawings, grade report and its findings.

    Args:
        made: the range.
        folder: an open folder.
        choice: paper, unit and date.
        sheets: every size's sheets, lays and sign-off page too.

    Raises:
        InputError: if no piece is alike in every size; then nothing is written.
        OutputError: if a file cannot be written.
    """
    nested_drawings = _nested_drawings(made, choice)
    written: list[Path] = []
    for bust, garment in made.garments.items():
        own = open_folder(folder / f"size-{bust}")
        if sheets:
            written += write_garment(garment, own, choice)
            continue
        write_pattern(garment.cutting, garment.findings, own / PATTERN_FILE)
        text = findings_text(made.design.title, garment.wearer.ref, garment.findings)
        save(own / FINDINGS_FILE, text.encode())
        written += [own / PATTERN_FILE, own / FINDINGS_FILE]
    for name, pages in nested_drawings.items():
        write_pdf(pages, folder / name, f"{made.design.title}, nested sizes", choice.made_on)
        written.append(folder / name)
    write_svg(nested_overview(made.pieces, _heading(made, choice), WHERE[made.reference]), folder / OVERVIEW)
    save(folder / GRADE_FILE, (json.dumps(made.report.document(), indent=2) + "\n").encode())
    save(folder / FINDINGS_FILE, findings_text(f"{made.design.title}, nested sizes", "", made.findings).encode())
    return (*written, folder / OVERVIEW, folder / GRADE_FILE, folder / FINDINGS_FILE)


def _nested_drawings(made: SizeRange, choice: PaperChoice) -> dict[str, tuple[Sheet, ...]]:
    """File -> its pages."""
    if not made.pieces:
        raise InputError("no piece of this design is alike in every size, so there is nothing to nest", "busts")
    heading = _heading(made, choice)
    papers = {NESTED_FILE: page_of(choice.paper), LARGE_FILE: None}
    where = WHERE[made.reference]
    return {name: nested_sheets(made.pieces, heading, where, paper) for name, paper in papers.items()}


def _heading(made: SizeRange, choice: PaperChoice) -> Heading:
    return Heading(made.design.title, "", choice.made_on, choice.unit)
