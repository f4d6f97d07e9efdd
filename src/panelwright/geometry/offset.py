"""The cut line of a piece: each edge of its outline moved out by its own allowance."""

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

import numpy as np
import shapely

from panelwright.errors import GeometryError
from panelwright.geometry.arrays import Array, frozen
from panelwright.geometry.corner import Arm, CornerStyle, Run, at_fold, dot, meet
from panelwright.geometry.curve import Curve
from panelwright.geometry.mouth import shared
from panelwright.geometry.strip import Strip, strips
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.geometry.union import NARROW, CutRun, united

# A corner that turns right by less than this still counts as running on smoothly (sine of the angle).
_STRAIGHT = -1e-4


@dataclass(frozen=True)
class Allowance:
    """One edge of an outline and what is added outside it.

    Attributes:
        curve: the edge, anticlockwise round its piece.
        width: mm, not below 0.
        fold: the edge lies on the fold of the cloth: nothing is added, and nothing goes beyond its line.
        corner: how the allowances are finished where this edge ends (see `corner.meet`).
        turned: whose allowance is squared or folded back there, that of `this` edge or of the `next`.

    Raises:
        GeometryError: if the width is not a number from 0 up, or a fold has one.
    """

    curve: Curve
    width: float
    fold: bool = False
    corner: CornerStyle = "mitre"
    turned: Literal["this", "next"] = "this"

    def __post_init__(self) -> None:
        if not 0.0 <= self.width <= TOLERANCES.extent:
            raise GeometryError(f"an allowance is a width from 0 mm up, not {self.width} mm")
        if self.fold and self.width:
            raise GeometryError(f"an edge on the fold takes no allowance, not {self.width} mm")


@dataclass(frozen=True)
class CutLine:
    """A cut line.

    Attributes:
        points: shape (m, 2), closed (the first is not repeated), anticlockwise.
        runs: (k, first, last): points `first` … `last` (inclusive, wrapping) belong to edge k. An edge that
            other allowances hide in part has several; a squared or folded end belongs to neither edge.
    """

    points: Array
    runs: tuple[CutRun, ...]


@lru_cache(maxsize=512)
def cut_line(edges: tuple[Allowance, ...]) -> CutLine:
    """The boundary of a piece with its allowances, within `TOLERANCES.polyline` of the true offset.

    Args:
        edges: the outline, anticlockwise; each edge starts where the one before it ends.

    Each edge takes the strip of all points at most `width` outside it and square to it, ending square at its two
    ends. Corners that turn left are filled, or cut, as their style says. The cut line is the outer boundary of
    the outline and all strips together: where a hollow is tighter than its allowance, or another edge's allowance
    covers a place, it follows that union. At a fold it lies on the edge, and the allowances beside it end on the
    fold's own line. Where a narrow notch leaves an edge aslant, the allowances at its mouth end on its middle line.

    The answer is remembered by content: a facing with the shell's outline and widths costs nothing.

    Raises:
        GeometryError: if the edges do not follow one another.

    >>> corners = [(0, 0), (40, 0), (40, 30), (0, 30)]
    >>> edges = [Allowance(Curve.straight(a, b), 10.0) for a, b in zip(corners, corners[1:] + corners[:1])]
    >>> line = cut_line(tuple(edges)).points
    >>> line.min(axis=0).tolist(), line.max(axis=0).tolist()
    ([-10.0, -10.0], [50.0, 40.0])
    """
    for before, after in zip(edges, edges[1:] + edges[:1], strict=True):
        if not np.array_equal(before.curve.end, after.curve.start):
            raise GeometryError("the edges of an outline do not follow one another")
    bare = strips([edge.curve for edge in edges], [edge.width for edge in edges])
    runs = [strip.run for strip in bare]
    lines = [strip.line for strip in bare]
    plain, filled, notches = all(strip.regular for strip in bare), [], []
    for k, edge in enumerate(edges):
        n = (k + 1) % len(edges)
        corner, arms = complex(bare[k].line[-1]), _arms(edge, edges[n], bare[k], bare[n])
        if edge.fold or edges[n].fold:
            runs[k], runs[n] = _beside_fold(runs[k], runs[n], corner, arms, edge.fold)
        elif dot(arms[0].out, arms[1].normal) > _STRAIGHT:
            runs[k], runs[n] = meet(runs[k], runs[n], corner, arms, edge.corner, 0 if edge.turned == "this" else 1)
            filled.append(k)
        elif edge.width or edges[n].width:
            plain = False
            notches += [k] if dot(arms[0].out, arms[1].out) > math.cos(NARROW) else []
    if plain:
        points, owned = _chained(runs)
        if shapely.is_valid(shapely.polygons(points)):
            return CutLine(frozen(points), owned)
    for k in notches:
        runs = shared(lines, runs, k)
    folds = [k for k, edge in enumerate(edges) if edge.fold]
    points, owned = united(lines, runs, [edge.width for edge in edges], filled, folds, bool(notches))
    return CutLine(frozen(points), owned)


def _arms(edge: Allowance, after: Allowance, here: Strip, there: Strip) -> tuple[Arm, Arm]:
    """The two edges at the corner where `edge` ends."""
    first = Arm(here.leave, -1j * here.leave, edge.width)
    return first, Arm(-there.enter, -1j * there.enter, after.width)


def _beside_fold(before: Run, after: Run, corner: complex, arms: tuple[Arm, Arm], ends_fold: bool) -> tuple[Run, Run]:
    """The allowance beside a fold ends on the fold's line; the fold's own run goes on to that place."""
    if ends_fold:
        after = at_fold(after[::-1], corner, arms[0].normal, arms[1])[::-1]
        return np.append(before, after[0]), after
    before = at_fold(before, corner, arms[1].normal, arms[0])
    return before, np.append(before[-1], after)


def _chained(runs: list[Run]) -> tuple[Array, tuple[CutRun, ...]]:
    """One closed line of all runs; a point that ends one and starts the next stands once and belongs to both."""
    after = runs[1:] + runs[:1]
    shared = [bool(abs(run[-1] - there[0]) < TOLERANCES.same_point) for run, there in zip(runs, after, strict=True)]
    ring = np.concatenate([run[:-1] if one else run for run, one in zip(runs, shared, strict=True)])
    owned, first = [], 0
    for k, (run, one) in enumerate(zip(runs, shared, strict=True)):
        last = first + len(run) - 1
        owned.append((k, first, last % len(ring)))
        first = last if one else last + 1
    return np.column_stack([ring.real, ring.imag]), tuple(owned)
