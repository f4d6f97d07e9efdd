"""`panelwright make`: measurements and a design to a checked cutting pattern, with its sheets."""

from argparse import Namespace
from dataclasses import replace

from panelwright.app.design_file import load_design
from panelwright.app.garment import STAGES, make_garment
from panelwright.app.garment_folder import PATTERN_FILE, files_in_all, write_garment
from panelwright.app.lays_as_kept import lays_as_kept
from panelwright.app.output_folder import open_folder
from panelwright.app.progress import part_of
from panelwright.app.stale_sheets import content, remove_stale_sheets
from panelwright.cli.console import Console
from panelwright.cli.given import given_fitting, given_folder, given_lays, given_paper, given_planning, given_wearer
from panelwright.cli.outcome import tell
from panelwright.finish.cut_count import cloth_words


def run(arguments: Namespace, console: Console) -> int:
    """Make the garment and write it; returns the exit status."""
    choice, planning = given_paper(arguments), given_planning(arguments)
    wearer, (design_path,) = given_wearer(arguments, "a design file")
    design, fitting, kept = load_design(design_path), given_fitting(arguments), given_lays(arguments)
    folder = open_folder(given_folder(arguments, f"{design.ref}-{wearer.ref}"))
    before = content(folder / PATTERN_FILE)
    whole = STAGES + files_in_all(choice)
    garment = make_garment(wearer, design, part_of(console.progress, 0, whole), choice.unit, fitting=fitting)
    laid = () if kept is None else lays_as_kept(garment, kept, choice.unit)
    garment = replace(garment, planning=planning, kept=laid)
    written = write_garment(garment, folder, choice, part_of(console.progress, STAGES, whole))
    unchanged = content(folder / PATTERN_FILE) == before
    removed = () if unchanged else remove_stale_sheets(folder, written)
    facts: dict[str, object] = {
        "command": "make",
        "wearer": wearer.ref,
        "design": design.ref,
        "folder": str(folder),
        "without_errors": garment.without_errors,
        "laid_as_kept": [lay.cloth.name for lay in laid],
    }
    lead = f"{design.title} for {wearer.ref} is in {folder}"
    lead += f", {' and '.join(cloth_words(lay.cloth.name) for lay in laid)} laid as kept:" if laid else ":"
    return tell(console, facts, lead, garment.findings, written, removed)
