"""A learner's table for tests: a pattern's pieces as typed points at quarter scale, with faults of a known size."""

from dataclasses import dataclass, field

import numpy as np

from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

SPACING = 6.0  # between points, about, mm of the paper


@dataclass(frozen=True)
class Faults:
    """What the learner did, mm of the paper.

    Attributes:
        corners: (piece, number of the corner) -> how far it is moved, (x, y); its two lines go to it straight.
        bows: (piece, number of the edge) -> how far the middle of the edge is pushed out of the piece.
        without: pieces that were not drawn.
        noise: each point is off by at most this in x and in y.
        seed: of the noise and of how the pieces lie.
        lying: whether the pieces lie turned anyhow and every other one mirrored.
        names: id -> what the learner calls it.
    """

    corners: dict[tuple[str, int], tuple[float, float]] = field(default_factory=dict)
    bows: dict[tuple[str, int], float] = field(default_factory=dict)
    without: tuple[str, ...] = ()
    noise: float = 0.0
    seed: int = 1
    lying: bool = False
    names: dict[str, str] = field(default_factory=dict)
    scale: int = 4


def table(pattern: Pattern, faults: Faults) -> dict[str, object]:
    """The file, format `panelwright-drawn/1`, in mm."""
    hand = np.random.default_rng(faults.seed)
    pieces = [piece for piece in pattern.pieces if piece.layer == "outer" and piece.id not in faults.without]
    return {
        "format": "panelwright-drawn/1",
        "unit": "mm",
        "scale": faults.scale,
        "pieces": [_piece(piece, faults, hand, k % 2 == 0) for k, piece in enumerate(pieces)],
    }


def drawn_points(piece: Piece, faults: Faults) -> list[np.ndarray]:
    """The points of each edge with the faults in them and without noise, mm of the paper."""
    return [_edge(piece, k, faults) for k in range(len(piece.edges))]


def run_length(points: np.ndarray) -> float:
    """Length of straight stretches through points."""
    return float(np.hypot(*np.diff(points, axis=0).T).sum())


def _edge(piece: Piece, k: int, faults: Faults) -> np.ndarray:
    curve = piece.edges[k].curve
    share = np.linspace(0.0, 1.0, max(3, round(curve.length / faults.scale / SPACING)))
    points = np.array([curve.point(s * curve.length) for s in share]) / faults.scale
    start, end = (faults.corners.get((piece.id, n % len(piece.edges)), (0.0, 0.0)) for n in (k, k + 1))
    points = points + np.outer(1 - share, start) + np.outer(share, end)
    way = np.gradient(points, axis=0)
    outward = np.column_stack([way[:, 1], -way[:, 0]]) / np.hypot(*way.T)[:, None]
    bowed: np.ndarray = points + faults.bows.get((piece.id, k), 0.0) * np.sin(np.pi * share)[:, None] ** 2 * outward
    return bowed


def _piece(piece: Piece, faults: Faults, hand: np.random.Generator, mirrored: bool) -> dict[str, object]:
    edges = [points + hand.uniform(-faults.noise, faults.noise, points.shape) for points in drawn_points(piece, faults)]
    for before, after in zip(edges, edges[1:] + edges[:1], strict=True):
        after[0] = before[-1]
    first = 0
    if faults.lying:
        angle, shift = hand.uniform(-np.pi, np.pi), hand.uniform(-90.0, 90.0, 2)
        turn = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
        if mirrored:
            turn = turn @ np.diag([-1.0, 1.0])
        edges = [points @ turn.T + shift for points in edges]
        first = int(hand.integers(len(edges)))
    begun = edges[first:] + edges[:first]
    return {"id": faults.names.get(piece.id, piece.id), "edges": [{"points": points.tolist()} for points in begun]}
