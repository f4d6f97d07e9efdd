"""How much of a tie its knot takes: a model of our own, from the thickness of the gathered cloth."""

import math
from typing import Final, Literal, get_args

from panelwright.pattern.working import Part

Knot = Literal["double", "bow"]
KNOTS: Final[tuple[str, ...]] = get_args(Knot)

PACKED: Final = 0.5  # share of a gathered tie's cross-section that is cloth and not air (own estimate, not measured)


def gathered_diameter(width: float, thickness: float, layers: int) -> float:
    """Diameter of the round cord that a tie makes when it is gathered, mm.

    Its cross-section, width · thickness · layers, is spread over a circle that is half air.

    Args:
        width: of the flat tie where it is knotted, mm.
        thickness: of one layer of cloth, mm.
        layers: of cloth in the tie, two when it is faced.
    """
    return math.sqrt(4 * width * thickness * layers / (math.pi * PACKED))


def half_knot(diameter: float) -> float:
    """Length of each of two ends that a half knot takes, mm: once round the other end.

    The middles of the two cords lie one diameter apart, so one turn is 2π · diameter (own model).
    """
    return 2 * math.pi * diameter


def knot_parts(knot: Knot, diameter: float, loop: float) -> tuple[Part, ...]:
    """What a knot takes of one end, without its tail.

    A double knot is two half knots. A bow is a half knot and a second one that is tied with two loops: each is two
    cords thick, so √2 times the diameter, and takes its own length there and back.

    Args:
        knot: which.
        diameter: of the gathered tie, mm.
        loop: length of a bow's loop from the knot to its tip, mm.
    """
    first = half_knot(diameter)
    if knot == "double":
        return (Part("double knot", 2 * first),)
    second = half_knot(math.sqrt(2) * diameter)
    return Part("knot of the bow", first + second), Part("loop of the bow, there and back", 2 * loop)
