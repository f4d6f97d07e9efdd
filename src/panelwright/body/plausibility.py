"""Questions about measurements that a body may have but few do: often the tape slipped or was misread."""

import math
from collections.abc import Iterator, Mapping

from panelwright.body.estimates import bust_height_from_side_neck, usual_upper_bust
from panelwright.body.measurements import Measurements
from panelwright.body.relations import RELATIONS, Relation
from panelwright.body.term import TermId
from panelwright.body.terms import TERMS
from panelwright.body.units import Unit, format_angle, format_length
from panelwright.finding import Finding

Amounts = Mapping[TermId, float]
BUST_LEVELS_APART = 40.0  # mm; the formula is from memory, so only a large difference is worth a question
UPPER_BUST_OVER = 20.0  # mm over the bust, or over what is usual with a small one; from memory


def questions(measurements: Measurements, unit: Unit = Unit.CM) -> tuple[Finding, ...]:
    """A warning for each taken measurement, or pair of them, that is unlikely; estimates are not questioned.

    Value and limit are in mm, or degrees for an angle; `unit` is for the wording. Codes:
    `measurement-unlikely`, `measurements-unlikely-together`, `bust-levels-disagree`.
    """
    taken = {id: measurements[id] for id in measurements.taken}
    return questions_about(taken, {value.term: value.amount for value in measurements.values}, unit)


def questions_about(taken: Amounts, known: Amounts, unit: Unit = Unit.CM) -> tuple[Finding, ...]:
    """The same of measurements that may be incomplete.

    Args:
        taken: mm or radians, in the order of the terms.
        known: those and the estimates that they are enough for.
    """
    found = [finding for id in taken for finding in _question_one(taken[id], id, unit)]
    for relation in RELATIONS:
        if relation.subject in taken and relation.other in taken:
            found.extend(_question_pair(taken, relation, unit))
    if {"upper_bust_girth", "bust_girth", "underbust_girth"} <= taken.keys():
        found.extend(_question_upper_bust(taken, unit))
    if "side_neck_to_bust_point" in taken and {"bust_girth", "back_neck_to_waist"} <= known.keys():
        found.extend(_question_bust_levels(known, unit))
    return tuple(found)


def _question_one(amount: float, id: TermId, unit: Unit) -> Iterator[Finding]:
    term = TERMS[id]
    if term.likely.hold(amount):
        return
    below = amount < term.likely.least
    limit = term.likely.least if below else term.likely.most
    is_angle = term.quantity == "angle"
    value, shown = (format_angle(x) if is_angle else format_length(x, unit) for x in (amount, limit))
    yield Finding(
        "measurement-unlikely",
        "warning",
        id,
        math.degrees(amount) if is_angle else amount,
        math.degrees(limit) if is_angle else limit,
        f"{term.label.capitalize()} of {value} is {_side(below)} than most: {_least(below)} {shown} is usual.",
        f"Measure {term.label} again, or go on if it is right.",
        unit="°" if is_angle else "mm",
    )


def _question_pair(taken: Amounts, relation: Relation, unit: Unit) -> Iterator[Finding]:
    amount, other = taken[relation.subject], taken[relation.other]
    bounds = relation.likely(other)
    if bounds.hold(amount):
        return
    below = amount < bounds.least
    limit = bounds.least if below else bounds.most
    subject, basis = TERMS[relation.subject], TERMS[relation.other]
    yield Finding(
        "measurements-unlikely-together",
        "warning",
        relation.subject,
        amount,
        limit,
        f"{subject.label.capitalize()} of {format_length(amount, unit)} is {_side(below)} than most with "
        f"{basis.label} {format_length(other, unit)}: {_least(below)} {format_length(limit, unit)} is usual.",
        f"Measure {subject.label} and {basis.label} again, or go on if both are right.",
    )


def _question_upper_bust(taken: Amounts, unit: Unit) -> Iterator[Finding]:
    """Above the breasts a tape reads less than over them, unless they are small."""
    amount, bust = taken["upper_bust_girth"], taken["bust_girth"]
    limit = max(bust, usual_upper_bust(taken)) + UPPER_BUST_OVER
    if amount <= limit:
        return
    shown, over, under, most = (
        format_length(length, unit) for length in (amount, bust, taken["underbust_girth"], limit)
    )
    yield Finding(
        "measurements-unlikely-together",
        "warning",
        "upper_bust_girth",
        amount,
        limit,
        f"Upper bust girth of {shown} is larger than most with bust girth {over} and underbust girth {under}: at most "
        f"{most} is usual.",
        "Measure upper bust girth and bust girth again: the tape of the upper bust lies high under the arms and above "
        "the fullness of the bust. Go on if both are right.",
    )


def _question_bust_levels(known: Amounts, unit: Unit) -> Iterator[Finding]:
    implied = bust_height_from_side_neck(known, known["side_neck_to_bust_point"])
    apart = abs(implied - known["bust_height"])
    if apart <= BUST_LEVELS_APART:
        return
    yield Finding(
        "bust-levels-disagree",
        "warning",
        "side_neck_to_bust_point",
        apart,
        BUST_LEVELS_APART,
        f"Side neck point to bust point puts the bust level {format_length(apart, unit)} away from the bust "
        f"height of {format_length(known['bust_height'], unit)}; "
        f"up to {format_length(BUST_LEVELS_APART, unit)} is usual.",
        "Measure side neck point to bust point and the bust height again.",
    )


def _side(below: bool) -> str:
    return "smaller" if below else "larger"


def _least(below: bool) -> str:
    return "at least" if below else "at most"
