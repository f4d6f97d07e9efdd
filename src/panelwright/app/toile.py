"""A toile: one layer of a garment to try on, with balance lines, wide allowances and a sheet for the fitting notes."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cached_property
from pathlib import Path
from typing import Final

import numpy as np
import shapely
from shapely import LineString

from panelwright.app.findings_text import FINDINGS_FILE, findings_text
from panelwright.app.garment_design import GarmentDesign
from panelwright.app.garment_folder import PATTERN_FILE
from panelwright.app.hand_pack import numbered, whose
from panelwright.app.paper import OVERVIEW, PaperChoice, PrintJob
from panelwright.app.progress import Progress, part_of, unheard
from panelwright.app.sign_off import page_of
from panelwright.checks.inspection import by_severity, check_drafting
from panelwright.drawing.heading import Heading
from panelwright.drawing.sheet import Sheet
from panelwright.drawing.toile_sheet import toile_sheets
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.finish.finishing import finish
from panelwright.finish.options import Cloths, Finish
from panelwright.geometry.curve import Curve
from panelwright.output.pattern_file import write_pattern
from panelwright.output.pdf import write_pdf
from panelwright.pattern import line as lines
from panelwright.pattern.mark import InsideLine
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.saved_file import save

# Common practice: 2.5 cm at side and centre back, so that they can be let out.
WIDE: Final = 25.0
# Own choice: enough on the other seams to let out a little, and to clip.
OTHER: Final = 15.0
WIDE_LINES: Final = (lines.SIDE, lines.CENTRE_BACK)
# Without a side seam, those on both sides of the panel that stands there.
INSTEAD_OF_SIDE: Final = (("front-underarm", "back-underarm"), (lines.FRONT_PRINCESS, lines.BACK_PRINCESS))
BALANCE: Final = "balance-line"
CLOTH: Final = "toile cloth"
NOTES_FILE: Final = "fitting-sheet.pdf"
SCALES: Final = ("quarter", "full")
FITTING: Final = "fitting"
PRINTS: Final = (*SCALES, FITTING)


class Toile:
    """The toile of a garment: its shell cut once more, in one layer.

    Args:
        shell: the garment's pattern after all steps; it names the wearer, or nobody.
        design: of the garment.
        choice: paper, units and date; sheets at quarter and full scale.
        worn: findings of the garment; those that a toile answers are told with it.
    """

    def __init__(
        self, shell: Pattern, design: GarmentDesign, choice: PaperChoice, worn: Sequence[Finding] = ()
    ) -> None:
        self._shell, self._design, self._worn = shell, design, worn
        self.choice = replace(choice, scales=SCALES)
        self.title = f"Toile: {design.title}"

    @cached_property
    def cutting(self) -> CuttingPattern:
        """Its pieces: no facing, lining or interfacing; a balance line along the grain of each, levels right across."""
        shell = replace(self._shell, title=self.title)
        own = self._design.finish
        wide = dict.fromkeys(_wide_lines(shell), WIDE)
        plain = Finish(
            allowance=OTHER,
            lines=wide,
            cloths=Cloths(outer=CLOTH),
            extra_notches=own.extra_notches,
            notch_distance=own.notch_distance,
            unit=self.choice.unit,
        )
        made = finish(shell, plain)
        balanced = made.pattern.with_pieces(*(_balanced(piece) for piece in made.pattern.pieces))
        return replace(made, pattern=balanced)

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """What breaks a drafting rule, and what the garment's own checks say of ease, strain and estimates."""
        told = ("tight", "fitted-tight", "ease-unusual", "other-wearer", "estimated", "panel-strain", "seam-off-body")
        worn = (found for found in self._worn if found.code in told)
        return by_severity((*check_drafting(self.cutting, self.choice.unit), *worn))

    def write(self, folder: Path, progress: Progress = unheard) -> tuple[Path, ...]:
        """Write pattern file, findings, fitting sheet, picture and sheets into an open folder.

        Raises:
            InputError: if a piece is larger than the chosen paper can show.
            OutputError: if a file cannot be written.
        """
        choice, wearer = self.choice, self._shell.worn_by
        pattern_file, findings_file, notes = (folder / name for name in (PATTERN_FILE, FINDINGS_FILE, NOTES_FILE))
        whole = files_in_all()
        progress(0, whole, pattern_file.name)
        write_pattern(self.cutting, self.findings, pattern_file)
        save(findings_file, findings_text(self.title, wearer, self.findings).encode())
        progress(1, whole, notes.name)
        title = ", ".join(filter(None, [self.title, wearer, "fitting sheet"]))
        write_pdf(self.sheets(FITTING), notes, title, choice.made_on)
        progress(2, whole, OVERVIEW)
        overview = self._job.write_overview(folder)
        sheets = self._job.write_sheets(folder, part_of(progress, 3, whole))
        return pattern_file, findings_file, notes, overview, *sheets

    def sheets(self, which: str) -> Sequence[Sheet]:
        """The sheets of a scale, `quarter` or `full`, or the `fitting` sheet.

        Raises:
            InputError: if a piece is larger than the chosen paper can show.
        """
        if which != FITTING:
            return self._job.sheets(which)
        choice, pattern = self.choice, self.cutting.pattern
        heading = Heading.of(pattern, self.title, choice.made_on, choice.unit)
        sheets = toile_sheets(tuple(self.cutting.pieces), pattern, heading, page_of(choice.paper))
        return numbered(sheets, self.title, whose(pattern.worn_by))

    @cached_property
    def _job(self) -> PrintJob:
        return PrintJob(self.cutting, self.title, self.choice)


def files_in_all() -> int:
    """How many stages of writing are told."""
    return 3 + len(SCALES)


def _wide_lines(pattern: Pattern) -> Iterator[str]:
    """Lines of the pattern that take the wide allowance."""
    sewn = {edge.line for piece in pattern.pieces for edge in piece.edges if edge.kind in ("seam", "opening")}
    wanted = set(WIDE_LINES)
    if lines.SIDE not in {_slot(line) for line in sewn}:
        wanted |= set(next((pair for pair in INSTEAD_OF_SIDE if pair[0] in sewn), ()))
    yield from (line for line in sorted(sewn) if _slot(line) in wanted)


def _slot(line: str) -> str:
    return line.rpartition("/")[2]


def _balanced(piece: Piece) -> Piece:
    """The piece with its grain drawn through from edge to edge."""
    way = piece.grain.vector / piece.grain.length
    middle = (np.array(piece.grain.start) + np.array(piece.grain.end)) / 2
    far = float(np.ptp(np.array(piece.outline.bounds))) * 2 + piece.grain.length
    cut = shapely.intersection(piece.outline, LineString([middle - far * way, middle + far * way]))
    through = max(shapely.get_parts(cut), key=lambda part: part.length)
    start, end = np.array(through.coords[0]), np.array(through.coords[-1])
    taken = {line.id for line in piece.inside}
    if BALANCE in taken:
        return piece
    return replace(piece, inside=(*piece.inside, InsideLine(BALANCE, "guide", Curve.straight(start, end))))
