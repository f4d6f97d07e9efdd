"""`panelwright read`: photos or drawings of paper pieces to a table of points, for `panelwright own`."""

import math
from argparse import Namespace
from pathlib import Path
from typing import Final, TypeVar

from panelwright.app.drawn_file import save_drawn
from panelwright.app.paper_reading import PaperAnswers, read_paper
from panelwright.app.paper_reading_picture import reading_sheet
from panelwright.cli.console import Console
from panelwright.cli.given import given_out
from panelwright.errors import InputError
from panelwright.intake.drawing_unit import UNITS
from panelwright.intake.drawn_pattern import Centimetre
from panelwright.output.svg import write_svg
from panelwright.quotation import quoted

Value = TypeVar("Value")
SCALES: Final = {"full": 1.0, "quarter": 4.0}
CENTIMETRES: Final[dict[str, Centimetre]] = {"garment": "garment", "paper": "paper"}


def run(arguments: Namespace, console: Console) -> int:
    """Read the files and write the table and its picture; returns the exit status."""
    answers = PaperAnswers(
        _one_of(arguments.scale, SCALES, "scale"),
        _length(arguments.allowance, "allowance", 10.0, 60.0),
        _one_of(arguments.centimetre, CENTIMETRES, "centimetre"),
        arguments.drawing_unit and _unit(arguments.drawing_unit),
        _length(arguments.square, "square", 1.0, 200.0),
    )
    out = given_out(arguments, "own-block.json")
    picture = out.with_name(f"{out.stem}-picture.svg")
    files = [Path(name) for name in arguments.files]
    for file in files:
        if file.resolve() in (out.resolve(), picture.resolve()):
            raise InputError(f"{quoted(file.name)} would be written over: give --out another name", "out")
    reading = read_paper(files, answers)
    save_drawn(reading.drawn, out)
    write_svg(reading_sheet(reading.drawn), picture)
    facts: dict[str, object] = {
        "status": 0,
        "command": "read",
        "files": [str(out), str(picture)],
        "pieces": [piece.id for piece in reading.drawn.pieces],
        "told": list(reading.told),
        "asked": list(reading.asked),
    }
    lines = [f"Read {len(reading.drawn.pieces)} pieces into {out}; {picture} shows them with their edges numbered."]
    lines += [f"  {sentence}" for sentence in reading.told]
    if reading.asked:
        lines += ["Still to say:", *(f"  {sentence}" for sentence in reading.asked)]
    lines.append(f"Then: panelwright own {out}")
    console.answer(facts, "\n".join(lines))
    return 0


def _one_of(text: str | None, known: dict[str, Value], option: str) -> Value | None:
    if text is None:
        return None
    if text.lower() not in known:
        raise InputError(f"--{option} is {' or '.join(known)}, not {quoted(text)}", option)
    return known[text.lower()]


def _unit(text: str) -> str:
    if text.lower() not in UNITS:
        raise InputError(f"--drawing-unit is one of {', '.join(UNITS)}, not {quoted(text)}", "drawing-unit")
    return text.lower()


def _length(text: str | None, option: str, millimetres: float, most: float) -> float | None:
    """The number after an option, in mm."""
    if text is None:
        return None
    unit = "cm" if millimetres > 1 else "mm"
    try:
        value = float(text)
    except ValueError:
        value = math.nan
    if not 0.0 <= value * millimetres <= most:
        raise InputError(f"--{option} takes 0 to {most / millimetres:g} {unit}, not {quoted(text)}", option)
    return value * millimetres
