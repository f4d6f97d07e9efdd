"""`panelwright sizes`: one design in a range of sizes, nested, with a grade report."""

from argparse import Namespace
from pathlib import Path

from panelwright.app.design_file import load_design
from panelwright.app.output_folder import open_folder
from panelwright.app.size_range import make_range, write_range
from panelwright.body.size_file import load_sizes
from panelwright.cli.console import Console
from panelwright.cli.given import given_files, given_folder, given_paper
from panelwright.cli.outcome import tell
from panelwright.errors import InputError
from panelwright.grading.nested_piece import checked_reference
from panelwright.quotation import quoted


def run(arguments: Namespace, console: Console) -> int:
    """Make the range and write it; returns the exit status."""
    choice, reference = given_paper(arguments), checked_reference(arguments.at)
    table = None if arguments.table is None else load_sizes(Path(arguments.table))
    busts = list(table) if table is not None and arguments.busts is None else _busts(arguments.busts)
    (path,) = given_files(arguments, "a design file")
    design = load_design(path)
    folder = open_folder(given_folder(arguments, f"{design.ref}-sizes"))
    made = make_range(design, busts, reference, console.progress, choice.unit, table)
    written = write_range(made, folder, choice, arguments.sheets)
    facts: dict[str, object] = {
        "command": "sizes",
        "design": design.ref,
        "sizes": list(made.garments),
        "reference": reference,
        "folder": str(folder),
    }
    lead = f"{design.title} in {len(made.garments)} sizes is in {folder}:"
    return tell(console, facts, lead, made.findings, written)


def _busts(text: str | None) -> list[int]:
    if text is None:
        raise InputError("say which sizes, by bust girth in cm: --busts 80,84,88", "busts")
    try:
        return [int(part) for part in text.split(",")]
    except ValueError as error:
        raise InputError(f"--busts takes bust girths in whole cm like 80,84,88, not {quoted(text)}", "busts") from error
