"""Our own small table of women's sizes, named by the bust girth in cm, for demos and samples without a wearer.

The classes of bust girth are those of EN 13402-3 (by 4 cm, above 102 cm by 6). Waist and hip girths are
nominal, from memory. Underbust girth and back length are our own choice: a cup of 12 cm rising to 16 and a
back of 39.4 cm rising to 42. A size is no wearer: measure whoever will wear it before cutting.
"""

from collections.abc import Mapping
from types import MappingProxyType

from panelwright.body.measurements import Measurements
from panelwright.body.units import Unit
from panelwright.errors import InputError

# bust: (underbust, waist, hip, back neck point to waist), cm
_TABLE: Mapping[int, tuple[float, float, float, float]] = MappingProxyType(
    {
        76: (64, 60, 84, 39.4),
        80: (68, 64, 88, 39.6),
        84: (71, 68, 92, 39.8),
        88: (75, 72, 96, 40.0),
        92: (79, 76, 100, 40.2),
        96: (82, 80, 104, 40.4),
        100: (86, 84, 108, 40.6),
        104: (90, 88, 112, 40.8),
        110: (95, 94, 117, 41.1),
        116: (101, 100, 122, 41.4),
        122: (106, 106, 127, 41.7),
        128: (112, 112, 132, 42.0),
    }
)
SIZES: tuple[int, ...] = tuple(_TABLE)


def size(bust_cm: int) -> Measurements:
    """The measurements of a size named by its bust girth in cm; its reference is `size-88`.

    Raises:
        InputError: if the table has no such size; the message names the nearest.
    """
    if bust_cm not in _TABLE:
        nearest = min(SIZES, key=lambda other: abs(other - bust_cm))
        raise InputError(
            f"there is no size {bust_cm}: sizes run from {SIZES[0]} to {SIZES[-1]} cm of bust, "
            f"the nearest is {nearest}",
            "size",
        )
    underbust, waist, hip, back = _TABLE[bust_cm]
    taken_cm = {
        "bust_girth": bust_cm,
        "underbust_girth": underbust,
        "waist_girth": waist,
        "hip_girth": hip,
        "back_neck_to_waist": back,
    }
    taken = {term: length_cm * Unit.CM.millimetres for term, length_cm in taken_cm.items()}
    return Measurements.of(f"size-{bust_cm}", taken, Unit.CM)
