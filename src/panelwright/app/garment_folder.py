"""Writing a garment into a folder: pattern file, findings, picture, sheets, lays and sign-off page."""

from pathlib import Path
from typing import Final

from panelwright.app.findings_text import FINDINGS_FILE, findings_text
from panelwright.app.garment import Garment
from panelwright.app.lay import LAY_FILE, write_lays
from panelwright.app.paper import OVERVIEW, SIGN_OFF_FILE, PaperChoice, PrintJob
from panelwright.app.progress import Progress, part_of, unheard
from panelwright.app.sign_off import write_sign_off
from panelwright.output.pattern_file import write_pattern
from panelwright.saved_file import save

PATTERN_FILE: Final = "pattern.json"


def files_in_all(choice: PaperChoice) -> int:
    """How many files `write_garment` writes."""
    return 6 + len(choice.scales)


def write_garment(
    garment: Garment, folder: Path, choice: PaperChoice | None = None, progress: Progress = unheard
) -> tuple[Path, ...]:
    """Write a garment's files into an open folder; each is there whole or not at all.

    Without any cloth that takes its pieces there are no lay files.

    The last of them, the sign-off page, bears the wearer's measurements: its name says that it is private.

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
    progress(whole - 3, whole, LAY_FILE)
    lays = write_lays(garment.lays, garment.cutting, title, folder, choice) if garment.lays else ()
    progress(whole - 1, whole, SIGN_OFF_FILE)
    unlaid = " ".join(finding.message.rstrip(".") for finding in garment.findings if finding.code == "cannot-be-laid")
    sign_off = write_sign_off(garment, job, folder, garment.lays, unlaid)
    return pattern_file, findings_file, overview, *sheets, *lays, sign_off
