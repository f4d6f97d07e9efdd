"""What there is to say of a wearer's measurements while they are still being written down."""

import math

from panelwright.app.board_piece import Document
from panelwright.body.estimates import ESTIMATES, as_far_as_known
from panelwright.body.measurement_file import field_name, taken_in
from panelwright.body.measurements import check_ref
from panelwright.body.plausibility import Amounts, questions_about
from panelwright.body.refusal import refuse_contradictions, refuse_out_of_bounds
from panelwright.body.term import TermId
from panelwright.body.terms import REQUIRED, TERMS
from panelwright.body.units import Unit
from panelwright.errors import InputError
from panelwright.finding import Finding

_FORMULAS = {estimate.term: estimate.formula for estimate in ESTIMATES}


def checked_measurements(document: dict[str, object]) -> Document:
    """The answer to a measurement document that may be incomplete; docs/board.md is the contract.

    Every measurement that was taken and every estimate that those are enough for, what is unlikely, the required ones
    that are missing, and the first fault if the document cannot be used: then there are no values and no questions.
    Lengths are mm, angles degrees; sentences are in the document's unit.

    >>> told = checked_measurements({"format": "panelwright-measurements/1", "ref": "w-07", "unit": "cm",
    ...                              "measurements": {"bust_girth": 88}})
    >>> told["missing"]
    ['underbust_girth', 'waist_girth', 'hip_girth', 'back_neck_to_waist']
    """
    try:
        ref, unit, given = taken_in(document)
        check_ref(ref)
        taken = {id: given[id] for id in TERMS if id in given}
        known = _known(taken, unit)
    except InputError as error:
        return {"values": [], "questions": [], "missing": [], "refused": _refused(error)}
    return {
        "values": [_value(id, known[id], id not in taken) for id in TERMS if id in known],
        "questions": [_question(finding) for finding in questions_about(taken, known, unit)],
        "missing": [_name(id) for id in REQUIRED if id not in taken],
        "refused": None,
    }


def _known(taken: Amounts, unit: Unit) -> dict[TermId, float]:
    """The taken measurements and what can be estimated from them; refuses what no wearer can have."""
    for id, amount in taken.items():
        refuse_out_of_bounds(TERMS[id], amount, unit)
    refuse_contradictions(taken, unit)
    known = as_far_as_known(taken)
    refuse_contradictions(known, unit, [id for id in known if id not in taken])
    return known


def _value(id: TermId, amount: float, estimated: bool) -> Document:
    is_angle = TERMS[id].quantity == "angle"
    told: Document = {"name": _name(id), "estimated": estimated}
    told["deg" if is_angle else "mm"] = round(math.degrees(amount) if is_angle else amount, 4)
    if estimated:
        told["formula"] = _FORMULAS[id]
    return told


def _question(finding: Finding) -> Document:
    return {
        "measurement": _as_field(finding.subject),
        "message": finding.message,
        "remedy": finding.remedy,
        "severity": finding.severity,
    }


def _refused(error: InputError) -> Document:
    return {"message": str(error), "where": _as_field(error.where)}


def _name(id: TermId) -> str:
    return field_name(TERMS[id])


def _as_field(place: str) -> str:
    """The name that a measurement has in the document, where `place` is one."""
    return next((field_name(term) for id, term in TERMS.items() if id == place), place)
