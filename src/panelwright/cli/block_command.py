"""`panelwright block`: measurements to a fitted block."""

from argparse import Namespace
from pathlib import Path

from panelwright.app.block_folder import BLOCK_FILE, make_bare_block, write_block
from panelwright.app.design_file import load_design
from panelwright.app.output_folder import open_folder
from panelwright.app.progress import part_of
from panelwright.app.stale_sheets import content, remove_stale_sheets
from panelwright.cli.console import Console
from panelwright.cli.given import given_fitting, given_folder, given_paper, given_wearer
from panelwright.cli.outcome import tell


def run(arguments: Namespace, console: Console) -> int:
    """Make the block and write it; returns the exit status."""
    choice = given_paper(arguments)
    wearer, _ = given_wearer(arguments)
    options = load_design(Path(arguments.options)).block if arguments.options is not None else None
    fitting = given_fitting(arguments)
    folder = open_folder(given_folder(arguments, f"block-{wearer.ref}"))
    before = content(folder / BLOCK_FILE)
    whole = 2 + 3 + len(choice.scales)
    bare = make_bare_block(wearer, options, part_of(console.progress, 0, whole), choice.unit, fitting)
    written = write_block(bare, folder, choice, part_of(console.progress, 2, whole))
    unchanged = content(folder / BLOCK_FILE) == before
    removed = () if unchanged else remove_stale_sheets(folder, written)
    facts: dict[str, object] = {"command": "block", "wearer": wearer.ref, "folder": str(folder)}
    return tell(console, facts, f"The block for {wearer.ref} is in {folder}:", bare.findings, written, removed)
