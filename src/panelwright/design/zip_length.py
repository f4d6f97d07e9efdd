"""The length of a zip as it is sold."""

from typing import Final

# Lengths sold, cm, read in a stockist's list.
SOLD_CM: Final = (
    10, 13, 15, 18, 20, 23, 25, 28, 30, 33, 36, 38, 41, 43, 46, 51, 53, 56, 61, 66, 69, 71, 76,
)  # fmt: skip
_SAME: Final = 0.05  # mm
_INCH: Final = 25.4  # mm


def sold_length(opening: float) -> float | None:
    """The shortest length sold that is at least `opening`, mm; None where the opening is longer than all of them."""
    return next((cm * 10.0 for cm in SOLD_CM if cm * 10.0 >= opening - _SAME), None)


def is_sold(length: float) -> bool:
    """Whether a zip of so many mm is in the list, in whole cm or as the whole inches that the cm were rounded from."""
    inches = round(length / _INCH)
    whole_inches = abs(length - inches * _INCH) <= _SAME and round(inches * _INCH / 10.0) in SOLD_CM
    return whole_inches or any(abs(length - cm * 10.0) <= _SAME for cm in SOLD_CM)


def nearest_sold(length: float) -> tuple[float, ...]:
    """The lengths sold next below and next above, mm; one of them at the ends of the list."""
    below = [cm * 10.0 for cm in SOLD_CM if cm * 10.0 <= length][-1:]
    above = [cm * 10.0 for cm in SOLD_CM if cm * 10.0 > length][:1]
    return (*below, *above)
