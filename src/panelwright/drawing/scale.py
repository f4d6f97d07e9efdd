"""A drawing scale, with the sizes of letters and signs that go with it on paper."""

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True)
class Scale:
    """How large a piece is drawn. Lengths but `old_line_reach` are mm on the paper.

    Attributes:
        factor: drawn length / true length.
        name: as a heading says it.
        title: letter size (the em) of a piece's name.
        body: letter size of the rest of a piece's text.
        small: letter size of the names of levels and marks.
        arrow: length of an arrow's head.
        inset: distance of the bracket from the fold that it points to.
        bar: length of the bar across a notch.
        radius: of the circle round a bust point.
        clearance: least distance of a text from any line or other text.
        old_line_reach: how far outside a piece the block's old line is followed, mm true length.
        captioned: whether the text of every piece stands under it; it is too small to hold more than a short name.
    """

    factor: float
    name: str
    title: float
    body: float
    small: float
    arrow: float
    inset: float
    bar: float
    radius: float
    clearance: float
    old_line_reach: float
    captioned: bool = False


FULL: Final = Scale(1.0, "full scale", 5.6, 3.6, 3.0, 4.0, 7.0, 4.0, 3.5, 1.2, 15.0)
QUARTER: Final = Scale(0.25, "quarter scale, 1:4", 2.6, 2.1, 1.9, 1.7, 2.6, 1.1, 1.3, 0.45, 20.0, captioned=True)
