"""Putting a cutting pattern on paper: quarter scale, full scale on tiles, one large sheet, and a picture."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property
from pathlib import Path
from typing import Final, Self

from panelwright.app.allowance_text import with_allowances_in
from panelwright.app.field_fault import nearest
from panelwright.app.progress import Progress, unheard
from panelwright.body.units import Unit
from panelwright.drawing.heading import Heading
from panelwright.drawing.large_sheets import large_sheets
from panelwright.drawing.paper import PAPERS, Paper
from panelwright.drawing.piece_drawing import PieceDrawing, draw_pieces
from panelwright.drawing.quarter_sheets import overview_sheet, quarter_sheets
from panelwright.drawing.scale import FULL, QUARTER
from panelwright.drawing.sheet import Sheet
from panelwright.drawing.tiled_sheets import tiled_sheets
from panelwright.errors import InputError
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.output.pdf import write_pdf
from panelwright.output.svg import write_svg
from panelwright.pattern.pattern import Pattern
from panelwright.quotation import quoted

OVERVIEW: Final = "overview.svg"
# It bears measurements, and its name says so, since files are passed on without their folder.
SIGN_OFF_FILE: Final = "sign-off-private.pdf"
_PAPERS: Final = {name.lower(): paper for name, paper in PAPERS.items()}
_UNITS: Final = {"cm": Unit.CM, "inches": Unit.INCH}
SCALES: Final = ("quarter", "full", "sheet")


@dataclass(frozen=True)
class PaperChoice:
    """How a pattern is printed.

    Attributes:
        paper: of pages for home printers.
        unit: of the lengths written on the sheets.
        made_on: the date on them, or None.
        scales: which of `SCALES` to print.
    """

    paper: Paper = PAPERS["A4"]
    unit: Unit = Unit.CM
    made_on: date | None = None
    scales: tuple[str, ...] = SCALES

    @classmethod
    def named(cls, paper: str = "a4", units: str = "cm", scale: str | None = None, made_on: date | None = None) -> Self:
        """The choice that a person made in words.

        Raises:
            InputError: if one of them is not known.
        """
        chosen = _PAPERS.get(paper.lower())
        if chosen is None:
            raise InputError(f"the paper {quoted(paper)} is not known; {nearest(paper, _PAPERS)}", "paper")
        if units.lower() not in _UNITS:
            raise InputError(f"the unit {quoted(units)} is not known; {nearest(units, _UNITS)}", "units")
        if scale is not None and scale.lower() not in SCALES:
            raise InputError(f"the scale {quoted(scale)} is not known; {nearest(scale, SCALES)}", "scale")
        return cls(chosen, _UNITS[units.lower()], made_on, (scale.lower(),) if scale else SCALES)


@dataclass(frozen=True, eq=False)
class PrintJob:
    """A cutting pattern on its way to paper; pieces are drawn once for each scale.

    Attributes:
        cutting: what is printed.
        title: of the garment, at the head of every sheet.
        choice: papers, scales, units, date.
        block: the block, whose old line is drawn faintly under the new one.
    """

    cutting: CuttingPattern
    title: str
    choice: PaperChoice = field(default_factory=PaperChoice)
    block: Pattern | None = None

    def write_sheets(self, folder: Path, progress: Progress = unheard) -> tuple[Path, ...]:
        """Write the chosen PDFs into an open folder; each is there whole or not at all.

        Args:
            folder: an open folder.
            progress: told before each file.

        Returns:
            The files, in the order of the choice's scales.

        Raises:
            InputError: if a piece is larger than the chosen paper can show.
            OutputError: if a file cannot be written.
        """
        written = []
        for done, scale in enumerate(self.choice.scales):
            path = folder / file_name(scale, self.choice.paper)
            progress(done, len(self.choice.scales), path.name)
            write_pdf(
                self.sheets(scale),
                path,
                ", ".join(filter(None, [self.title, self.cutting.pattern.worn_by])),
                self.choice.made_on,
            )
            written.append(path)
        return tuple(written)

    def write_overview(self, folder: Path) -> Path:
        """Write `overview.svg`, all pieces on one picture, and return where it is.

        Raises:
            OutputError: if it cannot be written.
        """
        path = folder / OVERVIEW
        write_svg(overview_sheet(self.quarter, self.heading), path)
        return path

    @cached_property
    def _worded(self) -> CuttingPattern:
        return with_allowances_in(self.cutting, self.choice.unit)

    @property
    def heading(self) -> Heading:
        """What stands at the head of every sheet."""
        return Heading.of(self.cutting.pattern, self.title, self.choice.made_on, self.choice.unit)

    @cached_property
    def quarter(self) -> tuple[PieceDrawing, ...]:
        """The pieces as they are drawn at quarter scale."""
        return draw_pieces(self._worded, QUARTER, self.block)

    @cached_property
    def _full(self) -> tuple[PieceDrawing, ...]:
        return draw_pieces(self._worded, FULL, self.block)

    def sheets(self, scale: str) -> Sequence[Sheet]:
        """The sheets of one of `SCALES`.

        Raises:
            InputError: if a piece is larger than the chosen paper can show.
        """
        if scale == "quarter":
            return quarter_sheets(self.quarter, self.heading, self.choice.paper)
        if scale == "full":
            return tiled_sheets(self._full, self.heading, self.choice.paper)
        return large_sheets(self._full, self.heading)


def file_name(scale: str, paper: Paper) -> str:
    """What the PDF of a scale is called."""
    return "large-sheet.pdf" if scale == "sheet" else f"{scale}-scale-{paper.name.lower()}.pdf"
