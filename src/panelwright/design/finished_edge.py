"""What a top edge and a hem share: anchors, free points, and the line drawn through them."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from panelwright.design.body_chart import BodyChart
from panelwright.design.edge_shape import SHAPES, Front
from panelwright.design.position import BodyPoint, Height, height_at, place_on
from panelwright.design.profile import FreePlace, Node, Profile, laid_out, shaped, way_of
from panelwright.design.smooth_curve import SmoothCurve
from panelwright.design.style_line import StyleLine, style_line
from panelwright.pattern import line as lines

LINES_KEPT = 32
PROFILES_KEPT = 128  # a height that is looked for between levels asks for forty
BUST_SHARE = 0.45  # of the way to the side, where no princess seam runs over the bust


@dataclass(frozen=True)
class FreePoint:
    """A place that the maker moved a line to.

    Attributes:
        at: the place on the wearer.
        corner: the line turns sharply there.
    """

    at: BodyPoint
    corner: bool = False


@dataclass(frozen=True)
class EdgeDesign:
    """A top edge or hem as a design says it.

    Attributes:
        shape: a key of `edge_shape.SHAPES`.
        centre, side: heights at the centre front and at the side.
        back: height at the centre back; None: the side's level all along the back.
        points: free points that bend the line between its anchors, or move an anchor when they lie on its line.
        pointed: a point at the centre front instead of a right angle.
    """

    shape: str
    centre: Height
    side: Height
    back: Height | None = None
    points: tuple[FreePoint, ...] = ()
    pointed: bool = False

    def profile(self, chart: BodyChart, seams: tuple[float, ...] | None = None) -> Profile:
        """The line on the chart of a half.

        Args:
            chart: of the block's half.
            seams: ways of the upright lines, if those of a line that runs nearly so are known.

        Raises:
            DesignError: if the block lacks a level or line, or two free points lie one above the other.
        """
        return self._built(chart, seams) if seams else _profile(self, chart)

    def line(self, chart: BodyChart) -> StyleLine:
        """The line on every panel.

        Raises:
            DesignError: as `profile` and `style_line` do.
        """
        return _line(self, chart)

    def _built(self, chart: BodyChart, seams: tuple[float, ...] | None) -> Profile:
        heights = [height_at(chart, float(k), self.side) for k in range(len(chart.uprights))]
        places = [(place_on(chart, point.at), point.corner) for point in self.points]

        def build(seams: tuple[float, ...]) -> Profile:
            course = SmoothCurve.monotone(seams, heights)
            side = way_of(seams, chart.side)
            profile = shaped(seams, course, self._nodes(chart, seams, course, side))
            free = [FreePlace(way_of(seams, place.across), place.height, corner) for place, corner in places]
            return profile.bent(free, (0.0, side, seams[-1]), self.pointed)

        return build(seams) if seams else laid_out(chart, height_at(chart, chart.side, self.side), build)

    def _nodes(self, chart: BodyChart, seams: tuple[float, ...], course: SmoothCurve, side: float) -> Sequence[Node]:
        bust = _bust(chart, seams, side)
        top = chart.rows[-1].height
        front = Front(
            side=side,
            drop=height_at(chart, 0.0, self.centre) - course.at(0.0)[0],
            bust=bust,
            first=seams[1],
            headroom=top - course.at(bust)[0],
            pointed=self.pointed,
        )
        end = float(len(chart.panels))
        rise = height_at(chart, end, self.back) - course.at(seams[-1])[0] if self.back else 0.0
        return *SHAPES[self.shape](front), Node(seams[-1], rise)


def _bust(chart: BodyChart, seams: tuple[float, ...], side: float) -> float:
    over = [seams[k] for k, line in enumerate(chart.uprights) if line.line == lines.FRONT_PRINCESS]
    return over[0] if over and over[0] < side else BUST_SHARE * side


@lru_cache(maxsize=PROFILES_KEPT)
def _profile(design: EdgeDesign, chart: BodyChart) -> Profile:
    """Kept, because handles ask for the same one again."""
    return design._built(chart, None)


@lru_cache(maxsize=LINES_KEPT)
def _line(design: EdgeDesign, chart: BodyChart) -> StyleLine:
    """Kept, because a line in the hand is shown before the pieces are cut along it."""
    return style_line(chart, design.profile(chart), (design.pointed, False))
