"""Paper pieces whose shape is known: the cut lines of the demo's garments."""

from dataclasses import dataclass
from functools import cache

import numpy as np
from shapely import Polygon, box

from panelwright.app.demo.troupe import DANCED, designs, troupe
from panelwright.app.garment import make_garment
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.geometry.arrays import Array, turn

LEAST_TURN = np.radians(25.0)


@dataclass(frozen=True, eq=False)
class PaperPiece:
    """A piece of paper on the table, mm, y up.

    Attributes:
        outline: closed polyline, anticlockwise, first point not repeated.
        corners: shape (k, 2).
        lines: what is drawn on it, polylines; the first is the grain line.
        notches: (on the cut line, inwards), shape (2, 2) each.
        levels: those of the lines that run across the piece as levels.
        fold: the stretch of the outline that lies on the fold, shape (2, 2), anticlockwise; drawn as a bracket.
        cuts: notches that are cut with scissors, as in `notches`.
    """

    outline: Array
    corners: Array
    lines: tuple[Array, ...]
    notches: tuple[Array, ...]
    levels: tuple[Array, ...] = ()
    fold: Array | None = None
    cuts: tuple[Array, ...] = ()

    def placed(self, angle: float, shift: Array) -> "PaperPiece":
        c, s = np.cos(angle), np.sin(angle)
        move = lambda points: points @ np.array([[c, s], [-s, c]]) + shift  # noqa: E731
        return PaperPiece(
            move(self.outline),
            move(self.corners),
            tuple(map(move, self.lines)),
            tuple(map(move, self.notches)),
            tuple(map(move, self.levels)),
            None if self.fold is None else move(self.fold),
            tuple(map(move, self.cuts)),
        )


@cache
def cutting_pattern(design: str, wearer: str) -> CuttingPattern:
    dancer = next(each for each in troupe() if each.wearer.ref == wearer)
    cut = next(each for each in designs() if each.design.ref == design)
    return make_garment(dancer.wearer, cut.design).cutting


def garments() -> list[tuple[str, str]]:
    return [(design, wearer) for design, wearers in DANCED.items() for wearer in wearers]


def outer_pieces(design: str, wearer: str, scale: float = 0.25) -> list[PaperPiece]:
    """The outer pieces of a garment as paper, each about its own middle."""
    found = []
    for piece, cut in cutting_pattern(design, wearer).pieces:
        if piece.layer != "outer":
            continue
        outline = cut.cut_line * scale
        middle = (outline.min(axis=0) + outline.max(axis=0)) / 2
        lines = [np.array([piece.grain.start, piece.grain.end]) * scale - middle] if piece.grain else []
        lines += [line.curve.polyline() * scale - middle for line in piece.inside]
        notches = tuple(np.array([mark.to, mark.at]) * scale - middle for mark in cut.notches)
        at = sorted({span.first for span in cut.spans} | {span.last for span in cut.spans})
        corners = np.array([outline[k] - middle for k in at if abs(turning(outline, k)) > LEAST_TURN]).reshape(-1, 2)
        levels = tuple(line.curve.polyline() * scale - middle for line in piece.inside if line.kind == "level")
        found.append(PaperPiece(outline - middle, unique(corners), tuple(lines), notches, levels))
    return found


def turning(outline: Array, k: int, reach: float = 1.5) -> float:
    """By how much the outline turns within `reach` mm on either side of point k."""
    before, after = along(outline, k, -reach), along(outline, k, reach)
    return turn(outline[k] - before, after - outline[k])


def along(outline: Array, k: int, reach: float) -> Array:
    """The point `reach` mm from point k along the outline."""
    ring = np.roll(outline, -k, axis=0)
    if reach < 0:
        ring = np.roll(ring[::-1], 1, axis=0)
    ring = np.vstack([ring, ring[:1]])
    arcs = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(ring, axis=0).T))])
    return np.array([np.interp(abs(reach), arcs, ring[:, axis]) for axis in (0, 1)])


def unique(points: Array, apart: float = 0.5) -> Array:
    kept: list[Array] = []
    for point in points:
        if all(np.hypot(*(point - other)) > apart for other in kept):
            kept.append(point)
    return np.array(kept).reshape(-1, 2)


def laid_out(pieces: list[PaperPiece], rng: np.random.Generator, gap: float, wide: float) -> list[PaperPiece]:
    """The pieces in rows not wider than `wide`, each a little turned, at least `gap` from each other."""
    laid, x, y, high = [], 0.0, 0.0, 0.0
    for piece in pieces:
        flat = np.ptp(piece.outline, axis=0)
        angle = rng.normal(0.0, 0.12) + (np.pi / 2 if flat[0] > wide / 2 else 0.0)
        turned = piece.placed(angle, np.zeros(2))
        low, size = turned.outline.min(axis=0), np.ptp(turned.outline, axis=0)
        if x and x + size[0] > wide:
            x, y, high = 0.0, y + high + gap, 0.0
        laid.append(turned.placed(0.0, np.array([x, y]) - low))
        x, high = x + size[0] + gap * rng.uniform(1.0, 2.0), max(high, size[1])
    return laid


def bounds(points: Array) -> Polygon:
    return box(*points.min(axis=0), *points.max(axis=0))
