"""Measurements that were estimated instead of taken."""

from typing import Final

from panelwright.body.term import TermId
from panelwright.body.terms import TERMS
from panelwright.finding import Finding
from panelwright.pattern.pattern import Pattern

# Those that a bodice's fit hangs on most, in the order in which to take them (CP), and what each settles.
FIRST: Final[dict[TermId, str]] = {
    "upper_bust_girth": "how close the top edge sits",
    "bust_point_to_underbust": "where the cup ends",
    "bust_point_span": "where the front princess seams run",
    "side_neck_to_bust_point": "how low the bust sits on the block",
    "underarm_to_waist": "how high the side may reach",
}


def check_estimates(pattern: Pattern) -> tuple[Finding, ...]:
    """`estimated`, one advice that lists them all."""
    if not pattern.estimated:
        return ()
    labels = {str(id): term.label for id, term in TERMS.items()}
    listed = ", ".join(labels.get(id, _words(id)) for id in pattern.estimated)
    message = f"Estimated, not measured: {listed}. An estimate is what is usual; this body may differ."
    first = ", ".join(f"{labels[id]} ({settles})" for id, settles in FIRST.items() if id in pattern.estimated)
    remedy = f"Measure before cutting{', first of all ' if first else ''}{first}, and make the pattern again."
    count = len(pattern.estimated)
    return (Finding("estimated", "advice", pattern.wearer, count, 0, message, remedy, unit="measurements"),)


def _words(id: str) -> str:
    return id.replace("_", " ")
