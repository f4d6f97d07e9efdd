"""A strap that grows out of its panels: what is chosen about it, and what was drawn on each panel."""

from dataclasses import dataclass
from typing import Final, Literal

from panelwright.geometry.curve import Curve

Slot = Literal["neckline", "shoulder", "armhole"]

ARMHOLE_ROUNDING: Final = 1.5  # times that of the neckline


@dataclass(frozen=True)
class StrapCut:
    """What is chosen about a grown strap, mm.

    Attributes:
        inner: distance of its inner edge from the side neck point along the shoulder.
        width, foot_width: across it, at the shoulder and where it stands on the top edge.
        rounding: along both edges of the corner that is rounded off; None leaves corners.
        may_widen: whether the foot may be wider where there is no room otherwise.
    """

    inner: float
    width: float
    foot_width: float
    rounding: float | None
    may_widen: bool = False

    def rounded(self, outwards: bool) -> float | None:
        """The rounding of its armhole edge (outwards) or of its neckline edge."""
        return self.rounding and self.rounding * (ARMHOLE_ROUNDING if outwards else 1.0)

    @property
    def outer(self) -> float:
        """Distance of its outer edge from the side neck point."""
        return self.inner + self.width

    @property
    def middle(self) -> float:
        """Distance of its middle from the side neck point."""
        return self.inner + self.width / 2


@dataclass(frozen=True)
class Part:
    """One new edge: which it is, its curve from the centre outwards, and which share of the half's edge it is."""

    slot: Slot
    curve: Curve
    share: tuple[float, float] = (0.0, 1.0)


@dataclass(frozen=True)
class PanelStrap:
    """What one panel carries.

    Attributes:
        leave: arc on its top edge where the strap starts; None: at the princess seam.
        enter: arc where it ends; None: at the princess seam.
        parts: new edges between the two, from the centre outwards.
        upright: arc on the princess line up to which the panel reaches.
    """

    leave: float | None
    enter: float | None
    parts: tuple[Part, ...]
    upright: float


@dataclass(frozen=True)
class HalfStrap:
    """The strap on one half.

    Attributes:
        panels: (inner, outer); None where a panel carries no part of it.
        lengths: of its inner and outer edge from the shoulder to the top edge, before rounding, mm.
        foot: of its middle from the princess seam along the top edge, mm, outwards above 0.
        cut: what was drawn, the width of its foot settled.
        inwards: share of the foot's width that lies inwards of `foot`; not half where the princess seam runs on up
            the strap.
    """

    panels: tuple[PanelStrap | None, PanelStrap | None]
    lengths: tuple[float, float]
    foot: float
    cut: StrapCut
    inwards: float = 0.5

    @property
    def length(self) -> float:
        """Along its middle, mm."""
        return sum(self.lengths) / 2
