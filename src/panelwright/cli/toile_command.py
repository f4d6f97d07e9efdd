"""`panelwright toile`: a garment's toile, with its sheets and a sheet for the fitting notes."""

from argparse import Namespace

from panelwright.app.design_file import load_design
from panelwright.app.garment import STAGES, make_garment
from panelwright.app.output_folder import open_folder
from panelwright.app.progress import part_of
from panelwright.app.toile import Toile, files_in_all
from panelwright.cli.console import Console
from panelwright.cli.given import given_fitting, given_folder, given_paper, given_wearer
from panelwright.cli.outcome import tell


def run(arguments: Namespace, console: Console) -> int:
    """Make the toile and write it; returns the exit status."""
    choice = given_paper(arguments)
    wearer, (design_path,) = given_wearer(arguments, "a design file")
    design, fitting = load_design(design_path), given_fitting(arguments)
    folder = open_folder(given_folder(arguments, f"{design.ref}-{wearer.ref}-toile"))
    whole = STAGES + files_in_all()
    garment = make_garment(wearer, design, part_of(console.progress, 0, whole), choice.unit, fitting=fitting)
    toile = Toile(garment.pattern, design, choice, garment.findings)
    written = toile.write(folder, part_of(console.progress, STAGES, whole))
    facts: dict[str, object] = {
        "command": "toile",
        "wearer": wearer.ref,
        "design": design.ref,
        "folder": str(folder),
    }
    return tell(
        console, facts, f"The toile of {design.title} for {wearer.ref} is in {folder}:", toile.findings, written
    )
