"""What was read off a drawing file, and what was guessed while reading it."""

from dataclasses import dataclass

from panelwright.intake.drawn_pattern import DrawnPattern


@dataclass(frozen=True)
class Guess:
    """Something that the file does not say for certain, for a person to confirm or change.

    Attributes:
        about: what it is about, `unit`, `layer "14"`, `piece SF`.
        taken: what was taken for true, `millimetres`, `stitch`.
        why: the reason, one sentence without its full stop.
        choices: what else it may be; empty where there is no choice, only something to know.
        sure: whether the file all but says so.
    """

    about: str
    taken: str
    why: str
    choices: tuple[str, ...] = ()
    sure: bool = True


@dataclass(frozen=True)
class Reading:
    """A drawing file, read.

    Attributes:
        drawn: the pattern.
        guesses: in the order in which a person would look at them: unit, scale, layers, pieces.
        form: `DXF` or `SVG`.
        unit: mm to one unit of the file.
    """

    drawn: DrawnPattern
    guesses: tuple[Guess, ...]
    form: str
    unit: float
