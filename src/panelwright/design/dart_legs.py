"""The legs of a dart that keeps only a share of its value: open as far as its point."""

from typing import Final

import numpy as np

from panelwright.geometry.arrays import Array, turn
from panelwright.geometry.curve import Curve

OPEN: Final = 0.25  # at the point, of the angle between the straight lines from there to the ends of the mouth
STEPS: Final = 10


def opened(first: Curve, second: Curve) -> tuple[Curve, Curve]:
    """The legs, drawn straighter where they would meet or cross before the dart's point.

    Legs that bulge towards each other cross when much of what lies between them is taken away. Both are flattened
    alike, by as many tenths as are needed; the direction in which they leave the mouth stays, so that the edge that the
    dart opens into still runs on smoothly when it is closed.

    Args:
        first: from the mouth to the point, in the sense of the outline.
        second: from the point back to the mouth.
    """
    legs = first, second.reversed()
    least = OPEN * turn(legs[0].chord, legs[1].chord)
    for step in range(STEPS + 1):
        flat = _flattened(legs[0], step / STEPS), _flattened(legs[1], step / STEPS)
        if turn(flat[0].end_tangent, flat[1].end_tangent) >= least:
            break
    return (flat[0], flat[1].reversed()) if step else (first, second)


def _flattened(leg: Curve, share: float) -> Curve:
    """The leg with all but its start and the direction there brought nearer to its chord by a share."""
    if not share:
        return leg
    along = leg.chord / np.linalg.norm(leg.chord)
    across = np.array([-along[1], along[0]])
    points: Array = leg.points.copy()
    points[2:-1] -= share * np.outer((points[2:-1] - leg.start) @ across, across)
    return Curve.from_points(points)
