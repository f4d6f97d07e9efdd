"""The command line's front door."""

import os
import sys
from collections.abc import Sequence
from importlib import import_module

from panelwright.cli.arguments import parse
from panelwright.cli.console import Console
from panelwright.errors import CancelledError, InputError, PanelwrightError

FINE, ERRORS_FOUND, BAD_INPUT, STOPPED = 0, 1, 2, 130


def main(argv: Sequence[str] | None = None) -> int:
    """Run a command.

    Args:
        argv: the words after the program's name; those of this process by default.

    Returns:
        The exit status: 0 fine, 1 a check found errors, 2 something given cannot be used, 130 stopped.
    """
    words = list(sys.argv[1:] if argv is None else argv)
    console = Console("--json" in words)
    try:
        return _run(words, console)
    except (KeyboardInterrupt, CancelledError):
        console.fault("stopped; files that were complete are kept, no file is half written", "", STOPPED)
        return STOPPED
    except BrokenPipeError:
        # Whoever read our output has gone; Python would complain once more while closing it.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return FINE
    except PanelwrightError as error:
        where = error.where if isinstance(error, InputError) else ""
        console.fault(str(error), where, BAD_INPUT)
        return BAD_INPUT


def _run(words: Sequence[str], console: Console) -> int:
    if words and words[0] == "--version":
        from panelwright import __version__

        console.answer({"version": __version__}, f"Panelwright {__version__}")
        return FINE
    try:
        arguments = parse(words)
    except SystemExit:  # after --help
        return FINE
    # Each command is imported when it is asked for, so that help is quick.
    command = import_module(f"panelwright.cli.{arguments.command}_command")
    status: int = command.run(arguments, console)
    return status
