"""Which kinds of step a block cannot carry, whatever they say, and why."""

from typing import Final

from panelwright.design.body_chart import half_chart
from panelwright.design.shoulder_needed import BODY_NEEDED, reaches_shoulder
from panelwright.design.step_file import FORMS
from panelwright.errors import PanelwrightError
from panelwright.pattern.pattern import Pattern

# These place nothing by levels.
_WITHOUT_LEVELS: Final = ("unfold", "closure")
# A strip can be sewn on wherever there is a top edge, once its length is given.
_WITHOUT_BODY: Final = ("strap",)
_LEVELS_NEEDED: Final = (
    "it is placed by the levels of the block, and this one cannot be used so ({why}): trace the same levels across "
    "every panel"
)


def steps_not_possible(block: Pattern) -> dict[str, str]:
    """Kind of step -> why this block carries none, one sentence; kinds that it may carry are not in it.

    Nothing is said of a block that was made from measurements: there it depends on what the design chooses.
    """
    if block.body:
        return {}
    told = {}
    charted = _chart_fault(block)
    for form in FORMS:
        kind = form.makes
        if kind.needs_shoulder and kind.kind not in _WITHOUT_BODY and not reaches_shoulder(block):
            told[kind.kind] = BODY_NEEDED
        elif charted and kind.kind not in _WITHOUT_LEVELS:
            told[kind.kind] = _LEVELS_NEEDED.format(why=charted)
    return told


def _chart_fault(block: Pattern) -> str:
    try:
        half_chart(block)
    except PanelwrightError as error:
        return str(error)
    return ""
