"""Writing the sign-off page of a garment: it bears the wearer's measurements, so hand it to nobody else."""

from collections.abc import Sequence
from pathlib import Path

from panelwright.app.garment import Garment
from panelwright.app.paper import SIGN_OFF_FILE, PrintJob
from panelwright.checks.cautions import cautions
from panelwright.drawing.paper import PAPERS, Paper
from panelwright.drawing.sign_off_sheet import SignOff, sign_off_sheets
from panelwright.lay.lay import Lay
from panelwright.output.pdf import write_pdf


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
    told = cautions(garment.cutting.pattern, garment.design.wearing)
    remarks = garment.design.remarks
    facts = SignOff(garment.cutting, garment.findings, job.quarter, garment.wearer, lays, unlaid, told, remarks)
    path = folder / SIGN_OFF_FILE
    title = f"{job.title}, {garment.wearer.ref}, sign-off, private"
    write_pdf(sign_off_sheets(facts, job.heading, page_of(job.choice.paper)), path, title, job.choice.made_on)
    return path


def page_of(paper: Paper) -> Paper:
    """The page that is handed over: A4 where the sheets are on A3."""
    return PAPERS["A4"] if paper == PAPERS["A3"] else paper
