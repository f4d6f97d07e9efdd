"""Refusing what no wearer can have: a value out of all bounds, or two values that cannot be of one body."""

import math
from collections.abc import Collection, Mapping

from panelwright.body.relations import RELATIONS, Relation
from panelwright.body.term import Term, TermId
from panelwright.body.terms import REQUIRED, TERMS
from panelwright.body.units import Unit, format_angle, format_length
from panelwright.errors import MeasurementError

# A limit is missed only by more than this, mm: less than a tape shows, more than rounding makes.
SLACK = 0.01


def refuse_missing(given: Collection[TermId]) -> None:
    """Raise MeasurementError if a required measurement is not among those given."""
    missing = [TERMS[id] for id in REQUIRED if id not in given]
    if len(missing) == 1:
        term = missing[0]
        raise MeasurementError(
            f"{term.label} is missing; take it: {term.how[0].lower()}{term.how[1:]}".rstrip("."), term.id
        )
    if missing:
        labels = ", ".join(term.label for term in missing[:-1])
        raise MeasurementError(
            f"{labels} and {missing[-1].label} are missing: a block cannot do without them", missing[0].id
        )


def refuse_out_of_bounds(term: Term, amount: float, unit: Unit) -> None:
    """Raise MeasurementError if nobody measures `amount` (mm or radians); `unit` is what the person used."""
    if not math.isfinite(amount):
        raise MeasurementError(f"{term.label} is not a finite number: measure it again", term.id)
    if term.possible.hold(amount):
        return
    if amount < 0.0 < term.possible.least:
        kind = "girth" if term.id.endswith("girth") else "length"
        given = _apart(term, amount, term.possible.least, unit)[0]
        raise MeasurementError(
            f"{term.label} of {given} cannot be: a {kind} is not negative; take the minus sign away",
            term.id,
        )
    below = amount < term.possible.least
    limit = term.possible.least if below else term.possible.most
    value, shown = _apart(term, amount, limit, unit)
    raise MeasurementError(
        f"{term.label} of {value} is {'below' if below else 'above'} {shown}, "
        f"the {'least' if below else 'most'} that is possible: {_remedy(term, amount, unit)}",
        term.id,
    )


def refuse_contradictions(amounts: Mapping[TermId, float], unit: Unit, estimated: Collection[TermId] = ()) -> None:
    """Raise MeasurementError for the first relation that the amounts (mm, radians) break."""
    for relation in RELATIONS:
        if relation.subject in amounts and relation.other in amounts:
            _refuse_pair(relation, amounts, unit, estimated)


def _refuse_pair(
    relation: Relation, amounts: Mapping[TermId, float], unit: Unit, estimated: Collection[TermId]
) -> None:
    amount, other = amounts[relation.subject], amounts[relation.other]
    least, most = relation.possible(other)
    if least - SLACK <= amount <= most + SLACK:
        return
    below = amount < least
    subject, basis = TERMS[relation.subject], TERMS[relation.other]
    value, shown = _apart(subject, amount, least if below else most, unit)
    doubted = [term for term in (subject, basis) if term.id not in estimated] or [subject]
    note = " (estimated)" if basis.id in estimated else ""
    raise MeasurementError(
        f"{subject.label} of {value} is {'below' if below else 'above'} {shown}, "
        f"the {'least' if below else 'most'} that is possible with {basis.label} "
        f"{format_length(other, unit)}{note}: measure {' and '.join(term.label for term in doubted)} again",
        doubted[0].id,
    )


def _remedy(term: Term, amount: float, unit: Unit) -> str:
    """What to do about an impossible amount: often it was read in another unit."""
    if term.quantity == "length":
        for other in Unit:
            meant = amount / unit.millimetres * other.millimetres
            if term.likely.hold(meant):
                return f'it looks like {other.words}; if so, write "unit": "{other.value}"'
    return "measure it again"


def _apart(term: Term, amount: float, limit: float, unit: Unit) -> tuple[str, str]:
    """The amount and its limit as texts that differ: in finer millimetres where rounding makes them equal."""
    if term.quantity == "angle":
        return format_angle(amount), format_angle(limit)
    value, shown = format_length(amount, unit), format_length(limit, unit)
    if value == shown:
        return format_length(amount, Unit.MM), format_length(limit, Unit.MM)
    return value, shown
