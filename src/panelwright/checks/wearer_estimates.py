"""Measurements that were estimated instead of taken."""

from typing import Final

from panelwright.body.term import TermId
from panelwright.body.terms import TERMS
from panelwright.finding import Finding
from panelwright.pattern.pattern import Pattern

# Those that a bodice's fit hangs on most, in the order in which to take them (CP).
FIRST: Final[tuple[TermId, ...]] = (
    "upper_bust_girth",
    "bust_point_to_underbust",
    "bust_point_span",
    "side_neck_to_bust_point",
    "underarm_to_waist",
)


def check_estimates(pattern: Pattern) -> tuple[Finding, ...]:
    """`estimated`, one advice that lists them all."""
    if not pattern.estimated:
        return ()
    labels = {str(id): term.label for id, term in TERMS.items()}
    message = f"Estimated, not measured: {', '.join(labels.get(id, _words(id)) for id in pattern.estimated)}."
    first = ", ".join(labels[id] for id in FIRST if id in pattern.estimated)
    remedy = f"Measure before cutting{', first of all ' if first else ''}{first}, and make the block again."
    count = len(pattern.estimated)
    return (Finding("estimated", "advice", pattern.wearer, count, 0, message, remedy, unit="measurements"),)


def _words(id: str) -> str:
    return id.replace("_", " ")
