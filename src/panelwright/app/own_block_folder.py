"""Writing your own block into a folder: pattern file, findings, pictures, sheets."""

from pathlib import Path
from typing import Final

from panelwright.app.findings_text import FINDINGS_FILE, findings_text
from panelwright.app.garment_folder import PATTERN_FILE
from panelwright.app.own_block import OwnBlock
from panelwright.app.own_block_picture import truing_sheet
from panelwright.app.paper import OVERVIEW, PaperChoice, PrintJob
from panelwright.app.progress import Progress, part_of, unheard
from panelwright.output.pattern_file import write_pattern
from panelwright.output.svg import write_svg
from panelwright.saved_file import save

TRUING_PICTURE: Final = "truing.svg"


def files_in_all(choice: PaperChoice) -> int:
    """How many files `write_own_block` writes."""
    return 4 + len(choice.scales)


def write_own_block(own: OwnBlock, folder: Path, choice: PaperChoice, progress: Progress = unheard) -> tuple[Path, ...]:
    """Write the pattern, its findings, pictures and sheets into an open folder; each file whole or not at all.

    Returns:
        The files, `pattern.json` first.

    Raises:
        InputError: if a piece is larger than the chosen paper can show.
        OutputError: if a file cannot be written.
    """
    whole, title = files_in_all(choice), own.title
    pattern_file, findings_file = folder / PATTERN_FILE, folder / FINDINGS_FILE
    picture = folder / TRUING_PICTURE
    progress(0, whole, pattern_file.name)
    write_pattern(own.cutting, own.findings, pattern_file)
    progress(1, whole, findings_file.name)
    save(findings_file, findings_text(title, own.pattern.worn_by, own.findings).encode())
    progress(2, whole, picture.name)
    job = PrintJob(own.cutting, title, choice, own.block)
    write_svg(truing_sheet(own.truing, job.heading, own.is_trued, own.paper.turned_down), picture)
    progress(3, whole, OVERVIEW)
    overview = job.write_overview(folder)
    sheets = job.write_sheets(folder, part_of(progress, 4, whole))
    return pattern_file, findings_file, picture, overview, *sheets
