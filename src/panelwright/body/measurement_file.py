"""Reading and writing a wearer's measurements as JSON, format `panelwright-measurements/1`.

    {"format": "panelwright-measurements/1", "ref": "w-07", "unit": "cm",
     "measurements": {"bust_girth": 88.5, "waist_girth": "28 1/4 in", "shoulder_slope_deg": 23, ...}}

Numbers are in the file's unit, texts may name their own. Only what was taken is written: estimates are
reckoned anew by whoever reads it. `measurements.schema.json` beside this module is the published contract;
possible sizes and contradictions are beyond a schema and are checked here.
"""

import difflib
import json
import math
from collections.abc import Iterable
from pathlib import Path

from panelwright.body.measurements import Measurements
from panelwright.body.term import Term, TermId
from panelwright.body.terms import TERMS
from panelwright.body.units import Unit, parse_angle, parse_length
from panelwright.errors import InputError
from panelwright.json_text import parse_object, read_text, refuse_other_format
from panelwright.quotation import quoted
from panelwright.saved_file import save

FORMAT = "panelwright-measurements/1"
KEYS = ("format", "ref", "unit", "measurements")


def field_name(term: Term) -> str:
    """A term's name in the file: an angle has its unit in it, `shoulder_slope_deg`."""
    return f"{term.id}_deg" if term.quantity == "angle" else term.id


FIELDS = {field_name(term): term for term in TERMS.values()}


def load_measurements(path: Path) -> Measurements:
    """The measurements in a file.

    Raises:
        InputError: if it cannot be read, is larger than 1 MB, is not of this format, or holds what cannot
            be used (MeasurementError); the message begins with the file's name.
    """
    text = read_text(path, "give a file of one wearer's measurements")
    try:
        return read_measurements(text)
    except InputError as error:
        raise type(error)(f"{quoted(path.name)}: {error}", error.where) from error


def read_measurements(text: str) -> Measurements:
    """The measurements in the text of a file.

    Raises:
        InputError: if the text is not of this format; the message names the field.
        MeasurementError: if no wearer can have these measurements.
    """
    ref, unit, taken = taken_in(parse_object(text))
    return Measurements.of(ref, taken, unit)


def taken_in(document: dict[str, object]) -> tuple[str, Unit, dict[TermId, float]]:
    """(reference, unit, term id -> mm or radians) of a document, which may lack required measurements.

    Raises:
        InputError: if it is not of this format; the message names the field. Nothing is said here of whether a wearer
            can have these measurements.
    """
    refuse_other_format(document, FORMAT, "the measurements go first, the design after them")
    _refuse_unknown(document, KEYS, "field")
    ref, unit = document.get("ref"), _unit(document.get("unit"))
    if not isinstance(ref, str):
        raise InputError("ref must be a neutral reference in quotes, like w-07", "ref")
    fields = _object(document.get("measurements"), "measurements")
    _refuse_unknown(fields, FIELDS, "measurement")
    return ref, unit, {FIELDS[name].id: _amount(name, entry, unit) for name, entry in fields.items()}


def measurement_document(measurements: Measurements, unit: Unit = Unit.CM) -> dict[str, object]:
    """What was taken, ready for JSON, in the given unit; estimates are left out."""
    amounts = {}
    for id in measurements.taken:
        term, amount = TERMS[id], measurements[id]
        in_unit = math.degrees(amount) if term.quantity == "angle" else amount / unit.millimetres
        amounts[field_name(term)] = round(in_unit, 9)
    return {"format": FORMAT, "ref": measurements.ref, "unit": unit.value, "measurements": amounts}


def save_measurements(measurements: Measurements, path: Path, unit: Unit = Unit.CM) -> None:
    """Write what was taken to a file.

    Raises:
        OutputError: if it cannot be written.
    """
    text = json.dumps(measurement_document(measurements, unit), indent=2) + "\n"
    save(path, text.encode())


def _object(value: object, what: str) -> dict[str, object]:
    if not isinstance(value, dict):
        raise InputError(f"{what} must hold named values in braces {{ }}", what)
    return value


def _refuse_unknown(fields: Iterable[str], known: Iterable[str], kind: str) -> None:
    names = tuple(known)
    for name in fields:
        if name not in names:
            near = difflib.get_close_matches(name[:80].lower(), names, n=1, cutoff=0.5)
            remedy = f"did you mean {near[0]}?" if near else f"those known are {', '.join(names)}"
            raise InputError(f"{quoted(name)} is not a known {kind}; {remedy}", quoted(name))


def _unit(value: object) -> Unit:
    if isinstance(value, str) and value in tuple(Unit):
        return Unit(value)
    raise InputError('unit must be "mm", "cm" or "in"', "unit")


def _amount(name: str, entry: object, unit: Unit) -> float:
    """An entry of the file in mm or radians."""
    is_angle = FIELDS[name].quantity == "angle"
    if isinstance(entry, str):
        try:
            return parse_angle(entry) if is_angle else parse_length(entry, unit)
        except InputError as error:
            raise InputError(f"{name}: {error}", name) from error
    if isinstance(entry, bool) or not isinstance(entry, int | float):
        raise InputError(f'{name} must be a number, or a text like "34 3/4 in"', name)
    try:
        number = float(entry)
    except OverflowError:
        number = math.inf
    return math.radians(number) if is_angle else number * unit.millimetres
