"""`panelwright make`: measurements and a design to a checked cutting pattern, with its sheets."""

from argparse import Namespace
from dataclasses import replace

from panelwright.app.design_file import load_design
from panelwright.app.garment import STAGES, make_garment
from panelwright.app.garment_folder import PATTERN_FILE, files_in_all, write_garment
from panelwright.app.output_folder import open_folder
from panelwright.app.progress import part_of
from panelwright.app.stale_sheets import content, remove_stale_sheets
from panelwright.cli.console import Console
from panelwright.cli.given import given_fitting, given_folder, given_paper, given_planning, given_wearer
from panelwright.cli.outcome import tell


def run(arguments: Namespace, console: Console) -> int:
    """Make the garment and write it; returns the exit status."""
    choice, planning = given_paper(arguments), given_planning(arguments)
    wearer, (design_path,) = given_wearer(arguments, "a design file")
    design, fitting = load_design(design_path), given_fitting(arguments)
    folder = open_folder(given_folder(arguments, f"{design.ref}-{wearer.ref}"))
    before = content(folder / PATTERN_FILE)
    whole = STAGES + files_in_all(choice)
    garment = replace(
        make_garment(wearer, design, part_of(console.progress, 0, whole), choice.unit, fitting=fitting),
        planning=planning,
    )
    written = write_garment(garment, folder, choice, part_of(console.progress, STAGES, whole))
    unchanged = content(folder / PATTERN_FILE) == before
    removed = () if unchanged else remove_stale_sheets(folder, written)
    facts: dict[str, object] = {
        "command": "make",
        "wearer": wearer.ref,
        "design": design.ref,
        "folder": str(folder),
        "without_errors": garment.without_errors,
    }
    return tell(console, facts, f"{design.title} for {wearer.ref} is in {folder}:", garment.findings, written, removed)
