"""The step that cuts a hem."""

from dataclasses import dataclass
from typing import ClassVar

from panelwright.design.body_chart import half_chart
from panelwright.design.edge_cut import cut_edge
from panelwright.design.edge_shape import HEM_SHAPES, HemShape
from panelwright.design.finished_edge import EdgeDesign, FreePoint
from panelwright.design.position import Height
from panelwright.design.step import OneEdge, blamed, checked_uid
from panelwright.errors import DesignError
from panelwright.pattern.line import Line
from panelwright.pattern.pattern import Pattern

SPOKEN = "hem"


@dataclass(frozen=True)
class Hem(OneEdge):
    """Cuts everything below a line round the body.

    Slots: `line`, the new edge.

    Attributes:
        uid: permanent name in the design.
        shape: `straight` (at one level), `shaped` (from one level at the centre to another at the side, rising or
            falling steadily) or `pointed` (a basque: one sweep from a point at the centre front).
        centre, side: heights at the centre front and at the side.
        back: height at the centre back; None: the side's level all along the back.
        points: free points; the line is bent through them between its anchors.
        point_at_centre: a point at the centre front instead of a right angle. None: as the shape has it.

    Raises:
        DesignError: if the shape is unknown, a straight hem is given two levels, or a pointed one no point.
    """

    kind: ClassVar[str] = "hem"

    uid: str
    shape: HemShape
    centre: Height
    side: Height
    back: Height | None = None
    points: tuple[FreePoint, ...] = ()
    point_at_centre: bool | None = None

    def __post_init__(self) -> None:
        checked_uid(self.uid)
        if self.shape not in HEM_SHAPES:
            raise DesignError(f"a hem is {', '.join(HEM_SHAPES)}, not {self.shape!r}", f"step {self.uid}")
        if self.shape == "straight" and not self.centre == self.side == (self.back or self.side):
            raise DesignError(
                f"{SPOKEN}: a straight hem runs at one height all round; choose shaped for several",
                f"step {self.uid}",
            )
        if self.shape == "pointed" and self.point_at_centre is False:
            raise DesignError(
                f"{SPOKEN}: a pointed hem has a point at the centre; choose shaped for a right angle",
                f"step {self.uid}",
            )

    @property
    def label(self) -> str:
        """`Hem: shaped`."""
        return f"Hem: {self.shape}"

    @property
    def design(self) -> EdgeDesign:
        """The line it cuts along."""
        pointed = self.shape == "pointed" if self.point_at_centre is None else self.point_at_centre
        return EdgeDesign(self.shape, self.centre, self.side, self.back, self.points, pointed)

    def apply(self, pattern: Pattern, block: Pattern) -> Pattern:
        """The pattern without what lies below the line.

        Raises:
            DesignError: if the line leaves the block, crosses itself or the top edge, or leaves less than 15 mm of a
                seam.
        """
        with blamed(self.uid, SPOKEN):
            style = self.design.line(half_chart(block))
            return cut_edge(pattern, style, Line(f"{self.uid}/line", "Hem", self.uid), "above")
