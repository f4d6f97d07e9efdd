"""Where a maker changes what is drawn: the step of the design that drew a line, and its fields."""

from panelwright.file_words import in_file
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Seam
from panelwright.pattern.step_name import step_name


def drawing_step(pattern: Pattern, line: str) -> str | None:
    """`the step “Hem: straight”`, which drew a line, or None where none did: the block, a pattern from outside."""
    origin = pattern.line(line).origin
    return next((f"the step {step_name(pattern, origin)}" for step in pattern.steps if step.uid == origin), None)


def line_words(pattern: Pattern, line: str) -> str:
    """What the maker calls a line, in small letters but for names of pieces: `top edge`, `skirt hem`, `F–SB`."""
    label = pattern.line(line).label.replace(",", "")
    return label if label[1:] != label[1:].lower() else label.lower()


def edge_words(pattern: Pattern, line: str) -> str:
    """What the maker calls the edge on a line: `side edge`, or `edge 4` where it has only a number."""
    words = line_words(pattern, line)
    return words if words.startswith("edge ") else f"{words} edge"


def met_words(pattern: Pattern, line: str) -> str:
    """The same in a sentence: `the hem`, or `edge 4`, whose number is its name."""
    words = line_words(pattern, line)
    return words if words.startswith("edge ") else f"the {words}"


def seam_words(seam: Seam) -> str:
    """`Front princess seam`, at the head of a sentence."""
    words = seam.id.replace("-", " ")
    return f"{words[:1].upper()}{words[1:]} seam"


def ease_field(level: str) -> str:
    """Where a design says the ease of a level: `at the waist in the design`, and how a file says it."""
    return f"at the {level.replace('-', ' ')} in the design" + in_file(f'block.ease_cm, "{level}"')
