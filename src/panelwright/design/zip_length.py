"""The length of a zip as it is sold."""

from typing import Final

# Lengths sold, cm, read in a stockist's list.
SOLD_CM: Final = (
    10, 13, 15, 18, 20, 23, 25, 28, 30, 33, 36, 38, 41, 43, 46, 51, 53, 56, 61, 66, 69, 71, 76,
)  # fmt: skip
_SAME: Final = 0.05  # mm


def sold_length(opening: float) -> float | None:
    """The shortest length sold that is at least `opening`, mm; None where the opening is longer than all of them."""
    return next((cm * 10.0 for cm in SOLD_CM if cm * 10.0 >= opening - _SAME), None)
