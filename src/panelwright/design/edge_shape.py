"""The default shapes of a top edge or hem between the centre front and the side."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Literal, get_args

from panelwright.design.profile import Node

TopShape = Literal["straight", "scooped", "sweetheart", "v", "square"]
HemShape = Literal["straight", "shaped", "pointed"]
TOP_SHAPES: tuple[str, ...] = get_args(TopShape)
HEM_SHAPES: tuple[str, ...] = get_args(HemShape)

SCOOP = (0.5, 0.66)  # half the way to the side it has risen two thirds
V_STRAIGHT = 0.62  # share of the way to the side over which a V is straight
SQUARE_CORNER = 0.62  # share of the centre panel
SQUARE_LEAN = 0.16  # outwards for every mm up
SQUARE_FARTHEST = 0.86  # share of the centre panel where its wall ends at the latest
LEAST_SQUARE = 0.04  # of the way to the side; a lower wall is not drawn with corners
PEAK_SHARE, LEAST_PEAK = 0.22, 0.04  # a sweetheart's rise over the side's level: of its dip, and of the way to the side
# Rise per mm of a default line at its point. A steeper one leaves no room for the allowances of its two sides.
STEEPEST_POINT = 0.6


@dataclass(frozen=True)
class Front:
    """What a shape has to work with, in mm round the body and above the side's level.

    Attributes:
        side: way of the side.
        drop: rise of the centre (below the side: negative).
        bust: way of the line over the bust.
        first: way of the first seam.
        headroom: how far the line may rise over the bust before the block ends.
        pointed: a point at the centre instead of a right angle.
    """

    side: float
    drop: float
    bust: float
    first: float
    headroom: float
    pointed: bool


def straight(front: Front) -> tuple[Node, ...]:
    """Level at both ends; between them it rises steadily and turns from hollow to round once."""
    return Node(0.0, front.drop), Node(front.side, 0.0)


def scooped(front: Front) -> tuple[Node, ...]:
    """Round and deep at the centre, most of the rise before the side; bends evenly where its two halves meet."""
    share, risen = SCOOP
    a, b = share * front.side, (1 - share) * front.side
    depth = -front.drop
    slope = 1.5 * depth * (risen / a**2 + (1 - risen) / b**2) / (1 / a + 1 / b)
    return Node(0.0, front.drop), Node(a, front.drop + risen * depth, (slope, slope)), Node(front.side, 0.0)


def sweetheart(front: Front) -> tuple[Node, ...]:
    """A dip at the centre, highest over the bust, falling to the side. The dip is a point unless asked otherwise."""
    peak = 0.0
    if front.drop < 0:
        peak = min(max(PEAK_SHARE * -front.drop, LEAST_PEAK * front.side), max(front.headroom, 0.0))
    slope = min(2 * (peak - front.drop) / front.bust, STEEPEST_POINT) if front.pointed else 0.0
    return Node(0.0, front.drop, (0.0, slope)), Node(front.bust, peak), Node(front.side, 0.0)


def v(front: Front) -> tuple[Node, ...]:
    """Straight from a point at the centre, then rounding off into the side's level."""
    turn = V_STRAIGHT * front.side
    slope = -2 * front.drop / (front.side + turn)
    return (
        Node(0.0, front.drop, (0.0, slope), straight=True),
        Node(turn, front.drop + slope * turn, (slope, slope)),
        Node(front.side, 0.0),
    )


def pointed(front: Front) -> tuple[Node, ...]:
    """A basque: from a point at the centre in one even sweep to the side."""
    if not front.pointed:
        return straight(front)
    slope = -2 * front.drop / front.side
    # A point that is cut into the piece has its two allowances between its sides; one that stands out has room.
    slope = max(slope, -STEEPEST_POINT)
    return Node(0.0, front.drop, (0.0, slope)), Node(front.side, 0.0)


def square(front: Front) -> tuple[Node, ...]:
    """Level from the centre to a corner inside the centre panel, up a leaning wall to a second corner, then level."""
    if abs(front.drop) < LEAST_SQUARE * front.side:
        return straight(front)
    low = SQUARE_CORNER * front.first
    high = min(low + SQUARE_LEAN * abs(front.drop), SQUARE_FARTHEST * front.first)
    return (
        Node(0.0, front.drop),
        Node(low, front.drop, corner=True, straight=True),
        Node(high, 0.0, corner=True),
        Node(front.side, 0.0),
    )


SHAPES: Mapping[str, Callable[[Front], tuple[Node, ...]]] = {
    "straight": straight,
    "scooped": scooped,
    "sweetheart": sweetheart,
    "v": v,
    "square": square,
    "shaped": straight,
    "pointed": pointed,
}
