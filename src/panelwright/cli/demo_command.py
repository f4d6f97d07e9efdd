"""`panelwright demo`: the festival troupe's first garments."""

from argparse import Namespace
from datetime import date
from pathlib import Path

from panelwright.app.demo.make_demo import make_demo
from panelwright.app.paper import PaperChoice
from panelwright.checks.tally import counted, counts_in_words
from panelwright.cli.console import Console
from panelwright.cli.outcome import status_of

FOLDER = "panelwright-demo"


def run(arguments: Namespace, console: Console) -> int:
    """Make the demo and tell where it is; returns the exit status."""
    folder = Path(arguments.folder if arguments.folder is not None else FOLDER)
    demo = make_demo(folder, PaperChoice(made_on=date.today()), console.progress)
    status = status_of(demo.findings)
    facts = {
        "status": status,
        "command": "demo",
        "folder": str(folder),
        "open_first": str(demo.index),
        "garments": [
            {"wearer": entry.wearer, "title": entry.title, "files": entry.files, "counts": counted(entry.findings)}
            for entry in demo.entries
        ],
        "toile": demo.fitting.toile,
        "fitted": demo.fitting.fitted,
        "sizes": demo.sizes.folder,
        "counts": counted(demo.findings),
    }
    words = [
        f"{len(demo.entries)} garments of the lantern-festival troupe, a toile with its fitting and a range of sizes "
        f"are in {folder}.",
        f"Findings: {counts_in_words(demo.findings)}; each garment's findings.txt says what to do.",
        f"Open first: {demo.index}",
    ]
    console.answer(facts, "\n".join(words))
    return status
