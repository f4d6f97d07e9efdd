"""A term: one measurement of the body, what it is called and how it is taken."""

from dataclasses import dataclass
from typing import Literal, NamedTuple

from panelwright.errors import InputError

TermId = Literal[
    "bust_girth",
    "underbust_girth",
    "waist_girth",
    "hip_girth",
    "back_neck_to_waist",
    "upper_bust_girth",
    "top_hip_girth",
    "bust_point_span",
    "side_neck_to_bust_point",
    "bust_height",
    "bust_point_to_underbust",
    "underarm_to_waist",
    "waist_to_top_hip",
    "waist_to_hip",
    "neck_base_girth",
    "shoulder_length",
    "shoulder_slope",
    "across_front",
    "across_back",
    "arm_length",
    "upper_arm_girth",
    "wrist_girth",
    "stature",
]
Quantity = Literal["length", "angle"]


class Bounds(NamedTuple):
    """Least and most, both allowed: mm, or radians for an angle."""

    least: float
    most: float

    def hold(self, amount: float) -> bool:
        """Whether the amount lies between the two; never for NaN."""
        return self.least <= amount <= self.most


@dataclass(frozen=True)
class Term:
    """What one measurement means.

    Attributes:
        id: name in files and in code.
        label: what a maker calls it.
        how: how to take it, in one line.
        possible: outside these a value is refused; generous, so that no real adult is turned away.
        likely: outside these a value is questioned (from memory, unless `note` names a source).
        note: more on how to take it, or where the bounds come from; may be empty.
        required: whether a block needs it taken.
        clause: clause of ISO 8559-1:2017 with this definition, or None where we are not sure of one.
        quantity: `length` (mm) or `angle` (radians).

    Raises:
        InputError: if the likely bounds don't lie inside the possible ones.
    """

    id: TermId
    label: str
    how: str
    possible: Bounds
    likely: Bounds
    note: str = ""
    required: bool = False
    clause: str | None = None
    quantity: Quantity = "length"

    def __post_init__(self) -> None:
        if not 0 <= self.possible.least <= self.likely.least < self.likely.most <= self.possible.most:
            raise InputError(f"the likely {self.label} must lie within the possible one", self.id)
