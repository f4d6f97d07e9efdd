"""Writing a garment into a folder: pattern file, findings, picture and sheets."""

from pathlib import Path
from typing import Final

from panelwright.app.findings_text import FINDINGS_FILE, findings_text
from panelwright.app.garment import Garment
from panelwright.app.paper import OVERVIEW, PaperChoice, PrintJob
from panelwright.app.progress import Progress, part_of, unheard
from panelwright.output.pattern_file import write_pattern
from panelwright.saved_file import save

PATTERN_FILE: Final = "pattern.json"


def files_in_all(choice: PaperChoice) -> int:
    """How many files `write_garment` writes."""
    return 3 + len(choice.scales)


def write_garment(
    garment: Garment, folder: Path, choice: PaperChoice | None = None, progress: Progress = unheard
) -> tuple[Path, ...]:
    """Write a garment's files into an open folder; each is there whole or not at all.

    Args:
        garment: what is written.
        folder: an open folder; files of the same names are replaced.
        choice: paper, units, date and scales; A4, centimetres, no date and all scales by default.
        progress: told before each file; may raise CancelledError, which leaves the files written so far.

    Returns:
        The files, `pattern.json` first.

    Raises:
        InputError: if a piece is larger than the chosen paper can show.
        OutputError: if a file cannot be written.
    """
    choice = choice or PaperChoice()
    title, whole = garment.design.title, files_in_all(choice)
    pattern_file, findings_file = folder / PATTERN_FILE, folder / FINDINGS_FILE
    progress(0, whole, pattern_file.name)
    write_pattern(garment.cutting, garment.findings, pattern_file)
    progress(1, whole, findings_file.name)
    save(findings_file, findings_text(title, garment.wearer.ref, garment.findings).encode())
    progress(2, whole, OVERVIEW)
    job = PrintJob(garment.cutting, title, choice, garment.block.pattern)
    overview = job.write_overview(folder)
    sheets = job.write_sheets(folder, part_of(progress, 3, whole))
    return pattern_file, findings_file, overview, *sheets
