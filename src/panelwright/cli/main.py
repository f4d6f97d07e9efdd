"""The command line's front door."""

import os
import sys
from collections.abc import Sequence
from importlib import import_module
from io import TextIOWrapper

from panelwright.app.our_fault import our_fault
from panelwright.cli.arguments import parse
from panelwright.cli.console import Console
from panelwright.cli.open_command import Serve
from panelwright.errors import CancelledError, InputError, PanelwrightError

FINE, BAD_INPUT, OUR_FAULT, STOPPED = 0, 2, 3, 130


def main(argv: Sequence[str] | None = None, serve: Serve | None = None) -> int:
    """Run a command.

    Args:
        argv: the words after the program's name; those of this process by default.
        serve: what serves the page of `panelwright open`; `panelwright.__main__` has it, since neither of the two
            packages knows the other.

    Returns:
        The exit status: 0 fine, 1 a check found errors, 2 something given cannot be used, 3 our own fault, 130 stopped.
    """
    words = list(sys.argv[1:] if argv is None else argv)
    _write_any_letter()
    console = Console("--json" in words)
    try:
        return _run(words, console, serve)
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
    except Exception as error:
        console.fault(our_fault(error), "", OUR_FAULT)
        return OUR_FAULT


def _run(words: Sequence[str], console: Console, serve: Serve | None) -> int:
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
    given = (arguments, console) if arguments.command != "open" else (arguments, console, _known(serve))
    status: int = command.run(*given)
    return status


def _known(serve: Serve | None) -> Serve:
    if serve is None:
        raise InputError("the page is opened by the program itself: run `panelwright open`", "command line")
    return serve


def _write_any_letter() -> None:
    """A terminal that cannot show a sign gets a question mark for it instead of an end to the work."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="replace")
