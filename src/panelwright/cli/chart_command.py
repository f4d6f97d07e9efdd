"""`panelwright chart`: a blank measuring chart."""

from argparse import Namespace
from pathlib import Path

from panelwright.app.measuring_chart import write_measuring_chart
from panelwright.app.paper import PaperChoice
from panelwright.app.sign_off import page_of
from panelwright.cli.console import Console
from panelwright.errors import InputError
from panelwright.quotation import quoted

CHART_FILE = "measuring-chart.pdf"


def run(arguments: Namespace, console: Console) -> int:
    """Write the chart; returns the exit status."""
    choice = PaperChoice.named(arguments.paper, arguments.units)
    path = Path(arguments.out if arguments.out is not None else CHART_FILE)
    if path.is_dir():
        raise InputError(f"{quoted(str(path))} is a folder: give a file like {CHART_FILE}", "out")
    write_measuring_chart(path, choice.unit, page_of(choice.paper))
    console.answer(
        {"status": 0, "command": "chart", "files": [str(path)]},
        f"The measuring chart is in {path}. Print it at 100 %, and keep what is written on it private.",
    )
    return 0
