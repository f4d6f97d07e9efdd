"""The JSON Schema of a measurement file, made from the terms.

`measurements.schema.json` is this schema as it is published; a test holds the two together.
"""

from panelwright.body.measurement_file import FORMAT, KEYS, field_name
from panelwright.body.measurements import REF_PATTERN
from panelwright.body.term import Term
from panelwright.body.terms import REQUIRED, TERMS
from panelwright.body.units import ANGLE_PATTERN, LENGTH_PATTERN, Unit


def measurement_schema() -> dict[str, object]:
    """The schema, draft 2020-12, ready for JSON."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": FORMAT,
        "description": (
            "What was measured on one wearer. Numbers are in `unit`; texts may name their own. Possible sizes "
            "and contradictions are checked by the program."
        ),
        "type": "object",
        "properties": {
            "format": {"const": FORMAT},
            "ref": {
                "description": "Neutral reference of the wearer, never a name.",
                "type": "string",
                "pattern": REF_PATTERN,
            },
            "unit": {"enum": [unit.value for unit in Unit]},
            "measurements": {
                "type": "object",
                "properties": {field_name(term): _entry(term) for term in TERMS.values()},
                "required": list(REQUIRED),
                "additionalProperties": False,
            },
        },
        "required": list(KEYS),
        "additionalProperties": False,
    }


def _entry(term: Term) -> dict[str, object]:
    is_angle = term.quantity == "angle"
    number = {"type": "number", "minimum": 0} if is_angle else {"type": "number", "exclusiveMinimum": 0}
    text = {
        "type": "string",
        "maxLength": 40,
        "pattern": ANGLE_PATTERN if is_angle else LENGTH_PATTERN,
    }
    clause = {"$comment": f"ISO 8559-1:2017, {term.clause}"} if term.clause else {}
    return {
        "title": term.label,
        "description": f"{term.how} {term.note}".strip(),
        **clause,
        "anyOf": [number, text],
    }
