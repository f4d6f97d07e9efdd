"""`panelwright open`: the workroom on a page, served to this computer alone."""

from argparse import Namespace
from collections.abc import Callable
from pathlib import Path
from typing import Protocol

from panelwright.app.workroom_place import usual_workroom
from panelwright.cli.console import Console
from panelwright.errors import InputError
from panelwright.quotation import quoted

MOST_PORT = 65535


class Serve(Protocol):
    """Whatever serves a page until Ctrl-C; the command line does not know it."""

    def __call__(self, workroom: Path, port: int | None, browser: bool, ready: Callable[[str], None]) -> None:
        """Serve the workroom in a file and call `ready` with the page's address."""


def run(arguments: Namespace, console: Console, serve: Serve) -> int:
    """Serve the workroom; returns the exit status when Ctrl-C has ended it."""
    file = usual_workroom() if arguments.workroom is None else _file(arguments.workroom)

    def ready(address: str) -> None:
        facts = {"status": 0, "command": "open", "workroom": str(file), "address": address}
        console.answer(facts, f"The workroom {file} is open at {address}\nCtrl-C closes it; everything is saved.")

    serve(file, _port(arguments.port), not arguments.no_browser, ready)
    return 0


def _file(name: str) -> Path:
    path = Path(name)
    try:
        is_folder = path.is_dir()
    except (OSError, ValueError):  # whoever opens it says why it cannot be opened
        is_folder = False
    if is_folder:
        raise InputError(f"{quoted(name)} is a folder: give the file that the work is saved in", "workroom")
    return path


def _port(text: str | None) -> int | None:
    if text is None:
        return None
    if text.isascii() and text.isdigit() and int(text) <= MOST_PORT:
        return int(text)
    raise InputError(f"--port takes a number from 0 to {MOST_PORT}, not {quoted(text)}", "port")
