"""Whether bones are laid last: a step that follows may cut or move what their lengths were measured on."""

from panelwright.finding import Finding
from panelwright.pattern.pattern import Pattern

BONES = "bones"


def check_bones_order(pattern: Pattern) -> tuple[Finding, ...]:
    """`bones-not-last`, a warning: other steps follow the one that lays bones."""
    kinds = [step.kind for step in pattern.steps]
    if BONES not in kinds:
        return ()
    first = kinds.index(BONES)
    after = [step for step in pattern.steps[first:] if step.kind != BONES]
    if not after:
        return ()
    bones = pattern.steps[first].uid
    message = (
        f'The step "{bones}" lays bones on the pattern as it stood there, and "{after[0].uid}" changes it afterwards: '
        "lengths and channels of the bones may be wrong."
    )
    remedy = f'Put the step "{bones}" last in the design.'
    return (Finding("bones-not-last", "warning", bones, len(after), 0, message, remedy, unit="steps"),)
