"""`panelwright write`: a pattern file to a drawing for other programs."""

from argparse import Namespace
from pathlib import Path

from panelwright.app.drawing_out import drawing_form, pattern_in, write_drawing
from panelwright.cli.console import Console
from panelwright.cli.given import given_out
from panelwright.errors import InputError
from panelwright.output.pattern_file import read_pattern


def run(arguments: Namespace, console: Console) -> int:
    """Write the drawing; returns the exit status."""
    out = Path(arguments.out) if arguments.out is not None else None
    form = drawing_form(arguments.to, out)
    if len(arguments.files) != 1:
        raise InputError(
            f"`panelwright write` takes one pattern file or its folder, but {len(arguments.files) or 'none'} "
            f"{'were' if arguments.files else 'was'} given",
            "command line",
        )
    source = pattern_in(Path(arguments.files[0]))
    path = given_out(arguments, f"{source.stem}.{form}")
    cutting = read_pattern(source)
    write_drawing(cutting, form, path)
    count = len(cutting.pieces)
    console.answer(
        {"status": 0, "command": "write", "pattern": str(source), "form": form, "files": [str(path)], "pieces": count},
        f"The {count} pieces of {source.name} are in {path}, in millimetres at full scale. Measure one piece in the "
        "other program before you cut.",
    )
    return 0
