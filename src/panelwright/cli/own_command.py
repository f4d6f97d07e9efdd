"""`panelwright own`: your own block, from its points on paper to a checked pattern and its sheets."""

from argparse import Namespace
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path

from panelwright.app.design_file import load_design
from panelwright.app.drawn_file import load_drawn
from panelwright.app.garment_folder import PATTERN_FILE
from panelwright.app.output_folder import open_folder
from panelwright.app.own_block import make_own_block
from panelwright.app.own_block_folder import files_in_all, write_own_block
from panelwright.app.progress import part_of
from panelwright.app.stale_sheets import content, remove_stale_sheets
from panelwright.body.measurement_file import load_measurements
from panelwright.cli.console import Console
from panelwright.cli.given import given_files, given_folder, given_paper
from panelwright.cli.outcome import tell
from panelwright.intake.truing import TruingChange


def run(arguments: Namespace, console: Console) -> int:
    """Make the pattern and write it; returns the exit status."""
    choice = given_paper(arguments)
    if arguments.scale is None:
        choice = replace(choice, scales=("quarter", "full"))
    (path,) = given_files(arguments, "a file of your own pieces")
    drawn = load_drawn(path)
    wearer = load_measurements(Path(arguments.wearer)) if arguments.wearer is not None else None
    design = load_design(Path(arguments.design)) if arguments.design is not None else None
    folder = open_folder(given_folder(arguments, f"{drawn.ref}-pattern"))
    before = content(folder / PATTERN_FILE)
    whole = 1 + files_in_all(choice)
    console.progress(0, whole, "pattern")
    own = make_own_block(drawn, wearer, design, arguments.true, choice.unit)
    written = write_own_block(own, folder, choice, part_of(console.progress, 1, whole))
    unchanged = content(folder / PATTERN_FILE) == before
    removed = () if unchanged else remove_stale_sheets(folder, written)
    facts: dict[str, object] = {
        "command": "own",
        "wearer": own.pattern.wearer,
        "design": own.pattern.design,
        "folder": str(folder),
        "trued": own.is_trued,
        "changes": _told(own.truing.changes),
        "left_as_drawn": _told(own.paper.turned_down),
    }
    left = len(own.paper.kept)
    but = f" but for {left} {'edge' if left == 1 else 'edges'} left as drawn" if left else ""
    done = f"trued{but}" if own.is_trued else f"as it was drawn; add --true to have it trued{but}"
    lead = f"{own.title} for {own.pattern.wearer} is in {folder}, {done}:"
    return tell(console, facts, lead, own.findings, written, removed)


def _told(changes: Iterable[TruingChange]) -> list[dict[str, object]]:
    return [{"piece": change.piece, "edge": change.edge, "most_mm": change.most, "at": change.at} for change in changes]
