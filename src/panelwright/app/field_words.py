"""Plain words for one kind of step and for its fields, as a page shows them."""

from collections.abc import Mapping
from dataclasses import dataclass, field

Limits = tuple[float, float]


@dataclass(frozen=True)
class FieldWords:
    """What a page says about a field of a step.

    Attributes:
        label: `width of the strap`.
        choices: value -> label, of a field with a choice.
        limits: least and most in the field's unit, where the step and not its form holds them; the widest of the
            step's types.
        when: field -> values: the field acts only while every one of these fields has one of its values.
    """

    label: str
    choices: Mapping[str, str] = field(default_factory=dict)
    limits: Limits | None = None
    when: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


@dataclass(frozen=True)
class StepWords:
    """What a page says about a kind of step.

    Attributes:
        label: `Top edge`.
        about: one sentence.
        fields: name in the design file -> words.
    """

    label: str
    about: str
    fields: Mapping[str, FieldWords]
