"""What "as usual" comes to for this design on this wearer: lengths that steps reckon or have by default."""

from typing import Final

from panelwright.design.closure import ClosureStep
from panelwright.design.closure_form import FIELDS
from panelwright.design.step import Step
from panelwright.design.strap import Strap
from panelwright.design.tie import Tie
from panelwright.pattern.pattern import Pattern

# What a working is called behind its step -> the field that gives another length instead.
_RECKONED: Final = {"zip": "zip_cm", "cord": "cord_cm", "length": "length_cm"}
# The length of a frill or a waistband is that of its edge; their own field says how far they reach.
_BY_LENGTH: Final = (Strap, Tie)


def usual_values(step: Step, pattern: Pattern) -> dict[str, float]:
    """Field of the design file -> mm that holds where the field is left out.

    Args:
        step: one that was carried out.
        pattern: what the design came to.
    """
    found = _of_closure(step) if isinstance(step, ClosureStep) else {}
    for working in pattern.workings:
        uid, _, name = working.id.partition("/")
        if uid == step.uid and name in _RECKONED and (name != "length" or isinstance(step, _BY_LENGTH)):
            found[_RECKONED[name]] = working.reckoned
    for closure in pattern.closures:
        if closure.id == step.uid:
            found["opening_cm"] = closure.opening
    return found


def _of_closure(step: ClosureStep) -> dict[str, float]:
    """Sizes that its fastening has: where the design says one, that is what the field shows."""
    if isinstance(step.fastening, str):
        return {}
    sizes = {field: getattr(step.fastening, known) for field, known in FIELDS[step.fastening.kind].items()}
    return {field: size for field, size in sizes.items() if isinstance(size, float) and size > 0}
