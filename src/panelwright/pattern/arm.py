"""The wearer's arm, as a block knows it for the sleeves of a design."""

from dataclasses import dataclass


@dataclass(frozen=True, repr=False)
class Arm:
    """Measures of an arm, mm; they stay out of `repr`, which ends up in logs.

    Attributes:
        length: from the end of the shoulder over the bent elbow to the wrist.
        upper_arm, wrist: girths.
        estimated: ids of those measurements that were not taken.
    """

    length: float
    upper_arm: float
    wrist: float
    estimated: tuple[str, ...] = ()
