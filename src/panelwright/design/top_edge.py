"""The step that cuts a top edge: a neckline in front, running on round the back."""

from dataclasses import dataclass
from typing import ClassVar

from panelwright.design.body_chart import half_chart
from panelwright.design.edge_cut import cut_edge
from panelwright.design.edge_shape import TOP_SHAPES, TopShape
from panelwright.design.finished_edge import EdgeDesign, FreePoint
from panelwright.design.position import Height
from panelwright.design.step import OneEdge, blamed, checked_uid
from panelwright.errors import DesignError
from panelwright.pattern.line import Line
from panelwright.pattern.pattern import Pattern

SPOKEN = "top edge"


@dataclass(frozen=True)
class TopEdge(OneEdge):
    """Cuts everything above a line round the body.

    Slots: `line`, the new edge.

    Attributes:
        uid: permanent name in the design.
        shape: `straight` (level, or rising steadily when centre and side differ), `scooped`, `sweetheart`, `v`
            or `square`.
        centre, side: heights at the centre front and at the side.
        back: height at the centre back; None: the side's level all along the back.
        points: free points; the line is bent through them between its anchors.
        point_at_centre: a point at the centre front instead of a right angle. None: as the shape has it (a V and
            a sweetheart have a point).

    Raises:
        DesignError: if the shape is unknown, or a V is asked for without its point.
    """

    kind: ClassVar[str] = "top-edge"

    uid: str
    shape: TopShape
    centre: Height
    side: Height
    back: Height | None = None
    points: tuple[FreePoint, ...] = ()
    point_at_centre: bool | None = None

    def __post_init__(self) -> None:
        checked_uid(self.uid)
        if self.shape not in TOP_SHAPES:
            raise DesignError(f"a top edge is {', '.join(TOP_SHAPES)}, not {self.shape!r}", f"step {self.uid}")
        if self.shape == "v" and self.point_at_centre is False:
            raise DesignError(
                f"{SPOKEN}: a V has a point at the centre; choose scooped for a rounded one",
                f"step {self.uid}",
            )

    @property
    def label(self) -> str:
        """`Top edge: sweetheart`."""
        return f"Top edge: {'V' if self.shape == 'v' else self.shape}"

    @property
    def design(self) -> EdgeDesign:
        """The line it cuts along."""
        pointed = self.shape in ("v", "sweetheart") if self.point_at_centre is None else self.point_at_centre
        return EdgeDesign(self.shape, self.centre, self.side, self.back, self.points, pointed)

    def apply(self, pattern: Pattern, block: Pattern) -> Pattern:
        """The pattern without what lies above the line.

        Raises:
            DesignError: if the line leaves the block, crosses itself or the hem, or leaves less than 15 mm of a seam.
        """
        with blamed(self.uid, SPOKEN):
            style = self.design.line(half_chart(block))
            return cut_edge(pattern, style, Line(f"{self.uid}/line", "Top edge", self.uid), "below")
