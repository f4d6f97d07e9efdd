"""How far pieces read from a photo are from the truth: each laid on its true outline as well as it goes."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from intake.photo_truth import PaperPiece
from scipy.optimize import linear_sum_assignment
from scipy.spatial import cKDTree

from panelwright.geometry.arrays import Array, cross
from panelwright.intake.drawn_piece import DrawnPiece

CORNER = 1.0  # mm within which a corner counts as found
SLIGHT = np.radians(8.0)  # within 1.5 mm on either side: where the paper turns by more, a corner found is not false


@dataclass(frozen=True, eq=False)
class Compared:
    """Of one piece: distances of its outline from the true one, mm; which piece it is; whether each true corner is
    found; how many corners were found where there is none; the move that lays it on the truth.
    """

    errors: Array
    truth: int
    corners: Array
    extra: int
    turn: Array
    shift: Array

    def moved(self, points: Array) -> Array:
        return points @ self.turn + self.shift


def compared(found: Sequence[DrawnPiece], truth: Sequence[PaperPiece]) -> list[Compared]:
    """Each found piece with the true piece that it fits best; no true piece twice, unless too many are found."""
    every = [[one(piece, k, true) for k, true in enumerate(truth)] for piece in found]
    if len(found) > len(truth):
        return [min(fits, key=lambda fit: fit.errors.mean()) for fits in every]
    off = np.array([[fit.errors.mean() for fit in fits] for fits in every]).reshape(len(found), len(truth))
    return [every[k][true] for k, true in zip(*linear_sum_assignment(off), strict=True)]


def outline_of(piece: DrawnPiece) -> Array:
    return np.concatenate([edge.curve.polyline(0.02)[:-1] for edge in piece.edges])


def one(piece: DrawnPiece, number: int, true: PaperPiece) -> Compared:
    points, target = spaced(outline_of(piece), 0.5), spaced(true.outline, 0.1)
    tree = cKDTree(target)
    middle, goal = points.mean(axis=0), target.mean(axis=0)
    starts = [rotation(angle) for angle in np.radians(np.arange(0, 360, 15))]
    starts.sort(key=lambda r: tree.query((points[::8] - middle) @ r + goal)[0].mean())
    turn, shift = min((settled(points, target, tree, r, goal - middle @ r) for r in starts[:3]), key=lambda m: m[2])[:2]
    errors = shapely.distance(shapely.points(points @ turn + shift), shapely.LinearRing(true.outline))
    corners = np.array([edge.curve.start for edge in piece.edges]) @ turn + shift
    hit = cKDTree(corners).query(true.corners)[0] < CORNER if len(true.corners) else np.ones(0, bool)
    before, after = target - np.roll(target, 15, axis=0), np.roll(target, -15, axis=0) - target
    bends = target[np.abs(np.arctan2(cross(before, after), (before * after).sum(axis=1))) > SLIGHT]
    off = cKDTree(bends).query(corners)[0] > 1.5 if len(bends) else np.ones(len(corners), bool)
    return Compared(errors, number, hit, int(off.sum()), turn, shift)


def settled(points: Array, target: Array, tree: cKDTree, turn: Array, shift: Array) -> tuple[Array, Array, float]:
    """The move that a start ends in, and how far the points are off after it, mm.

    First onto the nearest points, which brings it near from anywhere; then across the outline alone, so that a piece
    of round edges slides along them to its place.
    """
    for _ in range(12):
        near = target[tree.query(points @ turn + shift)[1]]
        turn, shift = laid(points, near)
    ways = np.roll(target, -3, axis=0) - np.roll(target, 3, axis=0)
    normals = np.column_stack([ways[:, 1], -ways[:, 0]]) / np.hypot(*ways.T)[:, None]
    for _ in range(25):
        moved = points @ turn + shift
        away, at = tree.query(moved)
        kept = away < max(3 * float(np.median(away)), 0.3)
        middle = moved.mean(axis=0)
        arms = (moved - middle)[kept]
        out = normals[at[kept]]
        terms = np.column_stack([out, arms[:, 0] * out[:, 1] - arms[:, 1] * out[:, 0]])
        x, y, angle = np.linalg.lstsq(terms, ((target[at] - moved)[kept] * out).sum(axis=1), rcond=None)[0]
        more = rotation(float(np.clip(angle, -0.05, 0.05)))
        turn, shift = turn @ more, (shift - middle) @ more + middle + [x, y]
    return turn, shift, float(tree.query(points @ turn + shift)[0].mean())


def laid(points: Array, onto: Array) -> tuple[Array, Array]:
    """The turn (no mirroring) and shift that carry points closest to others."""
    p, q = points - points.mean(axis=0), onto - onto.mean(axis=0)
    turn = rotation(float(np.arctan2((p[:, 0] * q[:, 1] - p[:, 1] * q[:, 0]).sum(), (p * q).sum())))
    return turn, onto.mean(axis=0) - points.mean(axis=0) @ turn


def rotation(angle: float) -> Array:
    return np.array([[np.cos(angle), np.sin(angle)], [-np.sin(angle), np.cos(angle)]])


def spaced(points: Array, step: float) -> Array:
    ring = np.vstack([points, points[:1]])
    arcs = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(ring, axis=0).T))])
    at = np.arange(0.0, arcs[-1], step)
    return np.column_stack([np.interp(at, arcs, ring[:, axis]) for axis in (0, 1)])
