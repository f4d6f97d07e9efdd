"""Paper pieces of plain make whose shape is known: long and narrow, hollow, bent, of a few corners or many."""

import numpy as np
from intake.photo_truth import PaperPiece, turning, unique

from panelwright.geometry.arrays import Array

LEAST_TURN = np.radians(25.0)
Edge = tuple[tuple[float, float], float]  # where it starts; how far its middle bulges out, share of its chord
SHAPES: dict[str, tuple[tuple[float, float, float], ...]] = {
    "strip": ((0, 0, 0), (180, 0, 0), (180, 14, 0), (0, 14, 0)),
    "waistband": ((0, 0, 0.05), (150, 10, 0), (148, 30, -0.05), (-1, 20, 0)),
    "front": ((0, 0, 0), (55, 3, -0.06), (50, 60, -0.3), (38, 95, 0), (14, 102, -0.28), (0, 84, 0)),
    "back": ((0, 0, 0), (50, 2, 0.05), (48, 58, -0.22), (42, 98, 0), (12, 106, -0.12), (0, 102, 0)),
    "sleeve": ((10, 0, 0.02), (60, 0, -0.04), (74, 60, 0), (37, 92, 0), (0, 60, -0.04)),
    "facing": ((0, 0, 0), (22, 0, 0), (24, 45, -0.32), (76, 45, 0), (78, 0, 0), (100, 0, 0), (96, 80, 0.1), (4, 80, 0)),
    "collar": ((0, 0, -0.08), (110, 4, 0), (118, 24, 0.07), (-4, 20, 0)),
    "yoke": ((0, 0, -0.06), (90, 0, -0.1), (100, 34, 0), (66, 42, -0.25), (34, 42, 0), (0, 34, -0.1)),
    "leg": ((6, 0, 0), (44, 0, -0.02), (56, 110, -0.18), (46, 150, 0.01), (10, 152, 0.05), (0, 105, 0)),
    "gusset": ((0, 0, 0), (40, 0, 0), (20, 36, 0)),
    "cup": ((0, 0, 0.28), (52, 0, 0.2), (26, 40, 0.2)),
    "pocket": ((0, 0, 0), (18, -8, 0), (36, 0, 0), (36, 40, 0), (0, 40, 0)),
}


def shaped(name: str, size: float, marked: bool) -> PaperPiece:
    """A shape at a size; `marked` draws grain, levels, notches on it, and a fold where its left edge is straight."""
    corners = np.array([(x, y) for x, y, _ in SHAPES[name]], float) * size
    bulges = [bulge for _, _, bulge in SHAPES[name]]
    outline = np.concatenate(
        [bent(a, b, c) for a, b, c in zip(corners, np.roll(corners, -1, axis=0), bulges, strict=True)]
    )
    at = [int(np.argmin(np.hypot(*(outline - corner).T))) for corner in corners]
    sharp = np.array([outline[k] for k in at if abs(turning(outline, k)) > LEAST_TURN]).reshape(-1, 2)
    plain = PaperPiece(outline, unique(sharp), (), ())
    return drawn_on(plain, corners, bulges[-1] == 0) if marked else plain


def bent(start: Array, end: Array, bulge: float) -> Array:
    """Points of an edge but for its last, bulging to its right by a share of its chord."""
    along = end - start
    out = np.array([along[1], -along[0]]) * bulge
    share = np.linspace(0, 1, max(2, int(np.hypot(*along) / 0.5)) if bulge else 2)[:-1, None]
    return start + share * along + 4 * share * (1 - share) * out


def drawn_on(plain: PaperPiece, corners: Array, straight: bool) -> PaperPiece:
    """The piece with what a maker draws on it; a fold only where its last edge is `straight`."""
    low, high = plain.outline.min(axis=0), plain.outline.max(axis=0)
    grain = spanning(plain.outline, 0, low[0] + 0.42 * (high[0] - low[0]), 0.15, 0.8)
    levels = tuple(
        line
        for share in ((0.3, 0.62) if high[1] - low[1] > 50 else ())
        if (line := spanning(plain.outline, 1, low[1] + share * (high[1] - low[1]), 0.0, 1.0)) is not None
    )
    places = [k for k in range(len(corners)) if np.hypot(*(corners[k] - corners[k - 1])) > 25]
    notches = tuple(tick(plain.outline, (corners[k] + corners[k - 1]) / 2) for k in places[:2])
    upright = straight and len(corners) > 4 and abs(corners[-1][0] - corners[0][0]) < 1e-6
    fold = np.array([corners[-1], corners[0]]) if upright else None
    lines = (*([grain] if grain is not None else []), *levels)
    return PaperPiece(plain.outline, plain.corners, lines, notches, levels, fold)


def spanning(outline: Array, axis: int, at: float, first: float, last: float) -> Array | None:
    """The stretch at one x (axis 0) or y (axis 1) between the outermost crossings of an outline, or a part of it."""
    a, b = outline, np.roll(outline, -1, axis=0)
    crosses = (a[:, axis] <= at) != (b[:, axis] <= at)
    if crosses.sum() != 2:
        return None
    share = (at - a[crosses, axis]) / (b[crosses, axis] - a[crosses, axis])
    other = np.sort(a[crosses, 1 - axis] + share * (b - a)[crosses, 1 - axis])
    ends = other[0] + np.array([first, last]) * (other[1] - other[0])
    points = np.full((2, 2), at)
    points[:, 1 - axis] = ends
    return points


def tick(outline: Array, near: Array) -> Array:
    """A notch where the outline is nearest to a place, 4 mm long, square to it."""
    k = int(np.argmin(np.hypot(*(outline - near).T)))
    a, b = outline[k], outline[(k + 1) % len(outline)]
    onto = a if np.hypot(*(b - a)) < 2 else (a + b) / 2
    way = (b - a) / np.linalg.norm(b - a)
    return np.array([onto, onto + 4 * np.array([-way[1], way[0]])])
