"""What a sentence calls a step of the design: what stands in the list of steps."""

from collections.abc import Sequence

from panelwright.pattern.pattern import Pattern


def step_name(pattern: Pattern, uid: str) -> str:
    """The step of a pattern, as `named_step` has it; its own name where the pattern does not know it."""
    return named_step([(step.uid, step.label) for step in pattern.steps], uid)


def named_step(steps: Sequence[tuple[str, str]], uid: str) -> str:
    """`“Hem: straight”`, with its number where several steps are called alike.

    Args:
        steps: uid and label of each, in their order.
    """
    label = dict(steps).get(uid, uid)
    alike = [other for other, name in steps if name == label]
    return f"“{label}”, number {alike.index(uid) + 1} of {len(alike)}," if len(alike) > 1 else f"“{label}”"
