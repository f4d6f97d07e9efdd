"""The program: the command line and the page, brought together above both."""

import sys
from collections.abc import Callable, Sequence
from pathlib import Path

from panelwright.cli.main import main as command_line


def main(argv: Sequence[str] | None = None) -> int:
    """Run a command; `cli.main` tells what comes back."""
    return command_line(argv, _serve)


def _serve(workroom: Path, port: int | None, browser: bool, ready: Callable[[str], None]) -> None:
    from panelwright.web.serve import serve  # only `panelwright open` needs it, and help is quick

    serve(workroom, port, browser, ready)


if __name__ == "__main__":
    sys.exit(main())
