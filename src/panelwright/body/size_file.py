"""A teacher's own table of sizes as JSON, format `panelwright-sizes/1`.

    {"format": "panelwright-sizes/1", "unit": "cm", "sizes": [
      {"bust_girth": 86, "underbust_girth": 73, "waist_girth": 70, "hip_girth": 94, "back_neck_to_waist": 39.5},
      {"bust_girth": 90, "underbust_girth": 77, "waist_girth": 74, "hip_girth": 98, "back_neck_to_waist": 39.9}]}

Each size is measured as a wearer is, and named by its bust girth in whole cm, as our own sizes are.
"""

import math
from pathlib import Path
from typing import Final

from panelwright.body import measurement_file
from panelwright.body.measurements import Measurements
from panelwright.body.units import Unit
from panelwright.errors import InputError
from panelwright.json_text import parse_object, read_text, refuse_other_format
from panelwright.quotation import quoted

FORMAT: Final = "panelwright-sizes/1"
KEYS: Final = ("format", "unit", "sizes")
MOST_SIZES: Final = 40


def load_sizes(path: Path) -> dict[int, Measurements]:
    """The sizes in a file: bust girth in whole cm -> measurements, the smallest first.

    Raises:
        InputError: if it cannot be read or used; the message begins with the file's name.
    """
    text = read_text(path, "that is more than a table of sizes needs")
    try:
        return read_sizes(text)
    except InputError as error:
        raise type(error)(f"{quoted(path.name)}: {error}", error.where) from error


def read_sizes(text: str) -> dict[int, Measurements]:
    """The sizes in the text of a file.

    Raises:
        InputError: if it is not of this format, or a size is named twice; the message names the size.
        MeasurementError: if no body can have such measurements.
    """
    document = parse_object(text)
    refuse_other_format(document, FORMAT, "give a table of sizes after --table")
    for name in document:
        if name not in KEYS:
            raise InputError(f"{quoted(name)} is not a known field; those known are {', '.join(KEYS)}", quoted(name))
    entries = document.get("sizes")
    if not isinstance(entries, list) or not 2 <= len(entries) <= MOST_SIZES:
        raise InputError(f"sizes must be a list of 2 to {MOST_SIZES} sizes, each with its measurements", "sizes")
    found: dict[int, Measurements] = {}
    for number, entry in enumerate(entries, 1):
        where = f"sizes[{number}]"
        try:
            bust, wearer = _size(entry, document.get("unit"))
        except InputError as error:
            raise type(error)(f"{where}: {error}", where) from error
        if bust in found:
            raise InputError(
                f"{where} is size {bust} once more: sizes are named by their bust girth in whole cm, so two must "
                "differ by a centimetre or more",
                where,
            )
        found[bust] = wearer
    return dict(sorted(found.items()))


def _size(entry: object, unit: object) -> tuple[int, Measurements]:
    """(bust girth in whole cm, measurements) of one entry."""
    document = {"format": measurement_file.FORMAT, "ref": "size-0", "unit": unit, "measurements": entry}
    _, own, taken = measurement_file.taken_in(document)
    # Half up, as people round: Python's own rounding calls 85.5 and 86.5 both 86.
    bust = math.floor(Measurements.of("size-0", taken, own)["bust_girth"] / Unit.CM.millimetres + 0.5)
    return bust, Measurements.of(f"size-{bust}", taken, own)
