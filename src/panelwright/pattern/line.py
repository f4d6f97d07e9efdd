"""A line: what has identity on a pattern. Edges come and go; the line that they lie on stays."""

import re
from dataclasses import dataclass
from typing import Final

CENTRE_FRONT: Final = "centre-front"
FRONT_PRINCESS: Final = "front-princess"
SIDE: Final = "side"
BACK_PRINCESS: Final = "back-princess"
CENTRE_BACK: Final = "centre-back"
TOP: Final = "top"
NECKLINE: Final = "neckline"
SHOULDER: Final = "shoulder"
ARMHOLE: Final = "armhole"
HEM: Final = "hem"
# A skirt's own ends, which are finished edges; a bodice block's `top` and `hem` are levels that a design cuts off.
WAIST_EDGE: Final = "waist-edge"
SKIRT_HEM: Final = "skirt-hem"

BLOCK: Final = "block"


@dataclass(frozen=True)
class Line:
    """A named line of the block, or one made by a step.

    Lines that run up the body are directed upwards; lines that run round it, from centre front to
    centre back. A line divides what lies on its left from what lies on its right.

    Attributes:
        id: `front-princess`, or `<step uid>/<slot>` for a line that a step made.
        label: what the maker calls it.
        origin: `block` or the uid of the step that made it.
    """

    id: str
    label: str
    origin: str = BLOCK


def is_hem(line: Line) -> bool:
    """Whether a line is a garment's hem, the block's own or one that a step made; not the waist seam it became."""
    return line.id == HEM or line.label == "Hem" or line.id.rpartition("/")[2] == SKIRT_HEM


def is_centre_front(line: str) -> bool:
    """Whether a line is a centre front by its name, `centre-front` or that of a step's slot, `s3/centre-front`."""
    return {"centre", "front"} <= set(re.split(r"[^a-z]+", line.lower()))
