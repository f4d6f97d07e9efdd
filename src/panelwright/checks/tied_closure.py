"""Edges that ties are to hold, and no tie that does."""

from panelwright.file_words import in_file
from panelwright.finding import Finding
from panelwright.pattern.closure import Closure
from panelwright.pattern.line import SIDE
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.step_name import step_name


def check_tied_closures(pattern: Pattern) -> tuple[Finding, ...]:
    """`ties-missing`, a warning: a closure of type tie, and no step sews a tie to its edges.

    A back that runs on as a tie closes itself: it has no seam between its edges.
    """
    return tuple(
        _finding(closure, pattern)
        for closure in pattern.closures
        if closure.kind == "tie" and closure.seam and (closure.place == SIDE or not _ties(pattern, closure))
    )


def _ties(pattern: Pattern, closure: Closure) -> int:
    """How many strips are sewn to the line that the closure opens."""
    attached = (seam.a + seam.b for seam in pattern.seams if seam.kind == "attach")
    return sum(any(pattern.edge(span).line == closure.place for span in spans) for spans in attached)


def _finding(closure: Closure, pattern: Pattern) -> Finding:
    place = closure.place.replace("-", " ")
    if closure.place == SIDE:
        remedy = (
            "Make ties of your own for it, or let a zip or hooks close it in the step "
            f"{step_name(pattern, closure.id)}: "
            "no step sews ties to one side alone."
        )
    else:
        remedy = (
            f"Add a tie that is sewn to the {place}{in_file(f'a step of kind tie, from {closure.place}')} after the "
            "step "
            f"{step_name(pattern, closure.id)}."
        )
    message = f"The {place} is to be held by ties, and the pattern has 0 ties there: nothing closes it."
    return Finding("ties-missing", "warning", closure.id, 0, 1, message, remedy, unit="ties")
