"""Every tolerance of the geometry in one place. Lengths in mm, angles in radians."""

import math
from dataclasses import dataclass


@dataclass(frozen=True)
class Tolerances:
    """Named limits; `TOLERANCES` is the one instance that the code reads.

    Attributes:
        same_point: points nearer than this are one point (two edges sharing a corner are snapped to it).
        arc: accuracy of an arc position found by Newton's method.
        polyline: greatest distance between a cubic and the polyline that stands for it in offsets and booleans.
        coarse_polyline: the same for validity checks, where only the topology matters.
        seam: greatest difference of two seam lines that are sewn to each other.
        level: greatest difference between a level's drawn and stated girth.
        straight: greatest distance of a fold from its chord.
        right_angle: greatest error of a right angle at a fold, and of a blend across a seam.
        allowance: greatest error of a cut line's distance from its stitch line.
        fold_to_grain: greatest angle between a fold and the grain.
        grain: greatest angle between a grain line and what it should follow.
        grain_inside: how far a grain line may reach out of its piece.
        grain_share: least length of a grain line as a share of the piece's length along it.
        notch: greatest error of a notch's place.
        side_notch: least length of seam between a side seam's notch and another seam's.
        laid: greatest error of a piece's place on cloth: off the fold, askew to the grain, or out of the cloth.
        laid_overlap: greatest area that two pieces on one cloth may share, mm².
        extent: no coordinate of a garment is larger.
    """

    same_point: float = 1e-6
    arc: float = 1e-9
    polyline: float = 0.02
    coarse_polyline: float = 0.2
    seam: float = 0.05
    level: float = 1.0
    straight: float = 0.2
    right_angle: float = math.radians(1.0)
    allowance: float = 0.1
    fold_to_grain: float = math.radians(0.1)
    grain: float = math.radians(1.0)
    grain_inside: float = 0.05
    grain_share: float = 1 / 3
    notch: float = 0.05
    side_notch: float = 2.0
    laid: float = 0.05
    laid_overlap: float = 0.05
    extent: float = 20_000.0


TOLERANCES = Tolerances()
