"""A front with a neckline that is a quarter of a circle: facings of it have closed forms."""

from itertools import pairwise
from math import cos, pi, sin

import numpy as np

from panelwright.geometry.curve import Curve
from panelwright.pattern.edge import Edge
from panelwright.pattern.line import CENTRE_FRONT, HEM, NECKLINE, SIDE, Line
from panelwright.pattern.mark import Grain
from panelwright.pattern.material import Region
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam, Span

RADIUS = 80.0
CENTRE = np.array([0.0, 300.0])
WIDE = 220.0


def quarter(radius: float, pieces: int = 4) -> Curve:
    """From the fold to the shoulder round `CENTRE`: 4 cubics are within 1e-4 mm of the circle."""
    cubics = []
    step = pi / 2 / pieces
    reach = 4 / 3 * np.tan(step / 4) * radius
    for k in range(pieces):
        points, ways = [], []
        for angle in (-pi / 2 - k * step, -pi / 2 - (k + 1) * step):
            points.append(CENTRE + radius * np.array([cos(angle), sin(angle)]))
            ways.append(np.array([sin(angle), -cos(angle)]))
        cubics.append([points[0], points[0] + reach * ways[0], points[1] - reach * ways[1], points[1]])
    for before, after in pairwise(cubics):
        after[0] = before[3]
    return Curve(np.array(cubics))


def front() -> Pattern:
    """Half of a front on the fold: round neckline, shoulder, straight side, straight hem."""
    neck = quarter(RADIUS)
    corners = [neck.end, np.array([-WIDE, 300.0]), np.array([-WIDE, 0.0]), np.array([0.0, 0.0]), neck.start]
    named = [("seam", "yoke"), ("seam", SIDE), ("finished", HEM), ("fold", CENTRE_FRONT)]
    edges = [Edge("CF.neckline", NECKLINE, "left", "finished", neck)]
    for (kind, line), start, end in zip(named, corners, corners[1:], strict=False):
        edges.append(Edge(f"CF.{line}", line, "left", kind, Curve.straight(start, end)))  # type: ignore[arg-type]
    grain = Grain((-60.0, 20.0), (-60.0, 180.0))
    piece = Piece("CF", "Front", tuple(edges), "half_on_fold", "both", grain, material=(Region("CF"),))
    lines = tuple(Line(id, id.replace("-", " ").capitalize()) for id in (NECKLINE, "yoke", SIDE, HEM, CENTRE_FRONT))
    seams = tuple(
        Seam(line, "join", (Span("CF", f"CF.{line}"),), (Span("CF", f"CF.{line}", hand="mirror"),), region)
        for line, region in (("yoke", "front"), (SIDE, "side"))
    )
    return Pattern((piece,), seams, lines, ())
