"""The measurements in words: what a page asks for, and how each is taken."""

import math
from collections.abc import Mapping
from typing import Final

from panelwright.app.board_piece import Document
from panelwright.body.measurement_file import field_name
from panelwright.body.term import Bounds, Term, TermId
from panelwright.body.terms import OF_THE_ARM, TERMS
from panelwright.body.torso_shape import GIRTHS
from panelwright.pattern import level as levels

# The level of the body that a measurement tells the height or the girth of.
LEVEL_OF: Final[Mapping[TermId, str]] = {
    **{term: level for level, term in GIRTHS.items()},
    "bust_point_span": levels.BUST,
    "bust_height": levels.BUST,
    "side_neck_to_bust_point": levels.BUST,
    "bust_point_to_underbust": levels.UNDERBUST,
    "underarm_to_waist": levels.UPPER_BUST,
    "waist_to_top_hip": levels.TOP_HIP,
    "waist_to_hip": levels.HIP,
    "back_neck_to_waist": levels.WAIST,
}


def measurement_vocabulary() -> list[Document]:
    """Every measurement in the order in which it is asked for; docs/board.md is the contract.

    Limits are those beyond which a value is refused, mm; degrees for an angle. `likely` are those beyond which it is
    questioned.
    """
    return [_told(term) for term in TERMS.values()]


def _told(term: Term) -> Document:
    told: Document = {
        "name": field_name(term),
        "label": term.label,
        "how": term.how,
        "note": term.note,
        "required": term.required,
        "for_sleeves": term.id in OF_THE_ARM,
        "quantity": term.quantity,
        **_limits(term.possible, term),
        "likely": _limits(term.likely, term),
    }
    if term.id in LEVEL_OF:
        told["level"] = LEVEL_OF[term.id]
    return told


def _limits(bounds: Bounds, term: Term) -> Document:
    if term.quantity == "angle":
        return {"least_deg": round(math.degrees(bounds.least), 4), "most_deg": round(math.degrees(bounds.most), 4)}
    return {"least_mm": bounds.least, "most_mm": bounds.most}
