"""`panelwright chart`: a blank measuring chart."""

from argparse import Namespace

from panelwright.app.measuring_chart import write_measuring_chart
from panelwright.app.paper import PaperChoice
from panelwright.app.sign_off import page_of
from panelwright.cli.console import Console
from panelwright.cli.given import given_out

CHART_FILE = "measuring-chart.pdf"


def run(arguments: Namespace, console: Console) -> int:
    """Write the chart; returns the exit status."""
    choice = PaperChoice.named(arguments.paper, arguments.units)
    path = given_out(arguments, CHART_FILE)
    write_measuring_chart(path, choice.unit, page_of(choice.paper))
    console.answer(
        {"status": 0, "command": "chart", "files": [str(path)]},
        f"The measuring chart is in {path}. Print it at 100 %, and keep what is written on it private.",
    )
    return 0
