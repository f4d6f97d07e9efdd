"""The steps of a design file with what is remarked on them: which are switched off, and what their maker noted."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from panelwright.design.step import Step


@dataclass(frozen=True)
class StepList:
    """What a design file lists.

    Attributes:
        steps: all of them in order, those that are switched off too.
        off: uids of steps that are kept and not carried out.
        notes: uid -> what the maker noted on the step.
    """

    steps: tuple[Step, ...]
    off: frozenset[str] = frozenset()
    notes: Mapping[str, str] = field(default_factory=dict)
