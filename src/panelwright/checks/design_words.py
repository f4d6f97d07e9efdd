"""Where a maker changes what is drawn: the step of the design that drew a line, and its fields."""

from panelwright.pattern.pattern import Pattern


def drawing_step(pattern: Pattern, line: str) -> str | None:
    """`the step "neckline"`, the step that drew a line, or None where none did: the block, a pattern from outside."""
    origin = pattern.line(line).origin
    return next((f'the step "{step.uid}"' for step in pattern.steps if step.uid == origin), None)


def line_words(pattern: Pattern, line: str) -> str:
    """What the maker calls a line, in small letters: `top edge`."""
    return pattern.line(line).label.lower()


def ease_field(level: str) -> str:
    """Where a design says the ease of a level: `block.ease_cm, "waist"`."""
    return f'block.ease_cm, "{level}"'
