"""Measurements that were estimated instead of taken."""

from panelwright.body.terms import TERMS
from panelwright.finding import Finding
from panelwright.pattern.pattern import Pattern


def check_estimates(pattern: Pattern) -> tuple[Finding, ...]:
    """`estimated`, one advice that lists them all."""
    if not pattern.estimated:
        return ()
    labels = {str(id): term.label for id, term in TERMS.items()}
    names = ", ".join(labels.get(id, id.replace("_", " ")) for id in pattern.estimated)
    message = f"Estimated, not measured: {names}."
    remedy = "Measure these before cutting and make the block again."
    count = len(pattern.estimated)
    return (Finding("estimated", "advice", pattern.wearer, count, 0, message, remedy, unit="measurements"),)
