"""Writing the sign-off page of a garment: it bears the wearer's measurements, so hand it to nobody else."""

from collections.abc import Sequence
from pathlib import Path

from panelwright.app.garment import Garment
from panelwright.app.garment_design import GarmentDesign
from panelwright.app.paper import SIGN_OFF_FILE, PrintJob
from panelwright.body.measurements import Measurements
from panelwright.checks.cautions import cautions
from panelwright.drawing.paper import PAPERS, Paper
from panelwright.drawing.sign_off_sheet import SignOff, sign_off_sheets
from panelwright.finding import Finding
from panelwright.lay.lay import Lay
from panelwright.output.pdf import pdf_bytes
from panelwright.saved_file import save


def write_sign_off(garment: Garment, job: PrintJob, folder: Path, lays: Sequence[Lay] = (), unlaid: str = "") -> Path:
    """Write `sign-off-private.pdf` into an open folder; it is there whole or not at all.

    Args:
        garment: what is signed off; without an error, the page says that it is ready to cut.
        job: how the garment is printed: paper, unit, date.
        folder: an open folder.
        lays: of its cloths, as far as they are known: they give the lengths to buy.
        unlaid: why there are none, one sentence, where a piece fits on no cloth.

    Raises:
        OutputError: if it cannot be written.
    """
    path = folder / SIGN_OFF_FILE
    save(path, sign_off_pdf(garment.design, garment.wearer, garment.findings, job, lays, unlaid))
    return path


def sign_off_pdf(
    design: GarmentDesign,
    wearer: Measurements | None,
    findings: Sequence[Finding],
    job: PrintJob,
    lays: Sequence[Lay] = (),
    unlaid: str = "",
) -> bytes:
    """The sign-off page as a PDF.

    Args:
        design: of the garment that is signed off.
        wearer: whose measurements it bears; None where the garment is for nobody.
        findings: of the checks, errors first; without an error the page says that it is ready to cut.
        job: its cutting pattern, and how it is printed.
        lays, unlaid: as for `write_sign_off`.
    """
    told = cautions(job.cutting.pattern, design.wearing)
    facts = SignOff(job.cutting, findings, job.quarter, wearer, lays, unlaid, told, design.remarks)
    whose = [wearer.ref] if wearer else []
    title = ", ".join([job.title, *whose, "sign-off, private"])
    return pdf_bytes(sign_off_sheets(facts, job.heading, page_of(job.choice.paper)), title, job.choice.made_on)


def page_of(paper: Paper) -> Paper:
    """The page that is handed over: A4 where the sheets are on A3."""
    return PAPERS["A4"] if paper == PAPERS["A3"] else paper
