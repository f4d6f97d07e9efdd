"""Whether bones are laid last: a step that follows may cut or move what their lengths were measured on."""

from panelwright.finding import Finding
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.step_name import step_name

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
    name = step_name(pattern, bones)
    message = (
        f"The step {name} lays bones on the pattern as it stood there, and {step_name(pattern, after[0].uid)} "
        "changes it "
        "afterwards: lengths and channels of the bones may be wrong."
    )
    remedy = f"Put the step {name} last in the design."
    return (Finding("bones-not-last", "warning", bones, len(after), 0, message, remedy, unit="steps"),)
