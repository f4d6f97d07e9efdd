"""Plain words for one kind of step, or one part of the garment, and for its fields, as a page shows them."""

from collections.abc import Mapping
from dataclasses import dataclass, field

Limits = tuple[float, float]


@dataclass(frozen=True)
class FieldWords:
    """What a page says about a field of a step or of the whole garment.

    Attributes:
        label: `width of the strap`.
        choices: value -> label, of a field with a choice, and of a text that only these can be.
        limits: least and most in the field's unit, where the step (or the options) and not its form holds them;
            the widest of the step's types.
        when: field -> values: the field acts only while every one of these fields has one of its values.
        about: one line of explanation, where the label does not say enough.
        also: how else a choice may be said in a file -> the choice that it stands for.
        usual: what holds where it is left out, where no number says it, `down to the hem`.
        like: the field whose value holds where it is left out.
    """

    label: str
    choices: Mapping[str, str] = field(default_factory=dict)
    limits: Limits | None = None
    when: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    about: str = ""
    also: Mapping[bool, str] = field(default_factory=dict)
    usual: str = ""
    like: str = ""


@dataclass(frozen=True)
class GroupWords:
    """What a page says about fields that stand together.

    Attributes:
        name: `ease`.
        label: `Ease`.
        about: a sentence or two.
        holds: how the names of its fields begin; where several groups say so, the longest beginning counts.
    """

    name: str
    label: str
    about: str
    holds: tuple[str, ...]


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
