"""The stitches and seams that a garment is sewn with, by their numbers in ISO 4915 and ISO 4916.

Stitch types and classes, and the classes of seams: read in secondary pages of the two standards. How much thread a
stitch takes: two published formulas that agree for 301 and 401, two that differ for 504, of which the larger is taken.
"""

from collections.abc import Callable
from dataclasses import dataclass
from enum import IntEnum
from typing import Final

from panelwright.errors import InputError

THICKNESSES: Final = (0.1, 10.0)  # mm
DENSITIES: Final = (0.05, 2.0)  # stitches to a mm
HAND: Final = 3.0  # times the length that is sewn, by hand (from memory: an arm's length sews a third of it)


class SeamClass(IntEnum):
    """The classes of ISO 4916."""

    SUPERIMPOSED = 1
    LAPPED = 2
    BOUND = 3
    FLAT = 4
    DECORATIVE = 5
    EDGE_FINISHING = 6
    ATTACHED = 7
    SINGLE_PLY = 8

    @property
    def words(self) -> str:
        """`class 1, superimposed`."""
        return f"class {self.value}, {self.name.lower().replace('_', ' ')}"


@dataclass(frozen=True)
class Sewing:
    """What the cloth and the machine are like.

    Attributes:
        thickness: of all layers in the seam, mm.
        density: stitches to a mm.
        width: of an overedge stitch, mm.

    Raises:
        InputError: if a seam is thinner than 0.1 mm or thicker than 10, or a stitch shorter than 0.5 mm or longer
            than 20.
    """

    thickness: float = 0.8
    density: float = 0.4
    width: float = 4.0

    def __post_init__(self) -> None:
        for name, value, (least, most) in (
            ("the layers in a seam are", self.thickness, THICKNESSES),
            ("stitches to a mm:", self.density, DENSITIES),
            ("an overedge is", self.width, THICKNESSES),
        ):
            if not least <= value <= most:
                raise InputError(f"{name} {value:g}; give {least:g} to {most:g}", "sewing")


@dataclass(frozen=True)
class Stitch:
    """A type of stitch, or a class of them where the maker may choose.

    Attributes:
        number: in ISO 4915.
        name: what it is called at the machine.
        ratio: thread to a length of seam, for the cloth and the machine.
    """

    number: int
    name: str
    ratio: Callable[[Sewing], float]

    @property
    def words(self) -> str:
        """`301 lockstitch`."""
        return f"{self.number} {self.name}"


LOCK: Final = Stitch(301, "lockstitch", lambda s: 2 + 2 * s.thickness * s.density)
CHAIN: Final = Stitch(401, "two-thread chainstitch", lambda s: 4 + 2 * s.thickness * s.density)
OVEREDGE: Final = Stitch(
    504,
    "three-thread overedge",
    lambda s: max(
        3 + 4 * s.width * s.density + 4 * s.thickness * s.density, 5 + 4 * s.density * (s.width + s.thickness)
    ),
)
BY_HAND: Final = Stitch(200, "hand stitches", lambda _: HAND)
