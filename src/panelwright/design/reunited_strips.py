"""The strips of a slashed piece put together again: one outline, with what was cut through drawn as one edge."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Final

import numpy as np

from panelwright.design.adopted_part import AdoptedPart
from panelwright.design.merged_edge import MergedEdge, merged
from panelwright.design.remnant import bounded
from panelwright.errors import DesignError, GeometryError
from panelwright.pattern.edge import Edge
from panelwright.pattern.piece import Piece
from panelwright.pattern.spoken_piece import spoken_piece

SLASH: Final = "a slash of the spread/"  # how lines and parts are called while the piece is apart
SAME: Final = 0.05  # mm
KEPT: Final = 128


@dataclass(frozen=True)
class Strip:
    """One strip between two slashes: as it was cut, and as it lies in the spread piece."""

    cut: Piece
    part: AdoptedPart


@dataclass(frozen=True, eq=False)
class ReunitedStrips:
    """The spread piece, and its edges that were made of several."""

    piece: Piece
    merges: tuple[MergedEdge, ...]


@lru_cache(maxsize=KEPT)
def reunited(old: Piece, strips: tuple[Strip, ...], before_left: bool, stays: int) -> ReunitedStrips:
    """The strips as one piece; remembered by content, as `divided` is.

    Args:
        old: the piece before it was slashed.
        strips: from the start of the spread edges.
        before_left: whether what lies before a slash is on its left, from the closed end to the open one.
        stays: which strip keeps its place, and gives the grain.

    Raises:
        DesignError: if a slash ends on a corner, or the piece laps over itself.
    """
    outline = _Outline(old, strips, before_left)
    edges, merges = outline.edges()
    return ReunitedStrips(outline.piece(edges, strips[stays].part.piece), merges)


@dataclass(frozen=True, eq=False)
class _Outline:
    """The outline of all strips together; attributes as of `reunited`."""

    old: Piece
    strips: tuple[Strip, ...]
    before_left: bool

    def piece(self, edges: tuple[Edge, ...], stays: Piece) -> Piece:
        """The piece of these edges, with everything that the strips hold."""
        parts = [strip.part.piece for strip in self.strips]
        try:
            return Piece.closed(
                edges,
                id=stays.id,
                label=self.old.label,
                extent=self.old.extent,
                hand=self.old.hand,
                grain=stays.grain,
                inside=tuple(line for part in parts for line in part.inside),
                marks=tuple(mark for part in parts for mark in part.marks),
                material=tuple(region for part in parts for region in bounded(part)),
                layer=self.old.layer,
                derived_from=self.old.derived_from,
            )
        except GeometryError as error:
            raise DesignError(
                f"{spoken_piece(self.old)} would lap over itself when it is spread so far; spread it less ({error})",
                self.old.id,
            ) from error

    def edges(self) -> tuple[tuple[Edge, ...], tuple[MergedEdge, ...]]:
        """The outline, and the edges in it that were made of several."""
        runs = self._runs()
        groups: list[list[Edge]] = []
        for run in runs:
            first, *rest = [[edge] for edge in run]
            if groups and groups[-1][-1].line == first[0].line:
                groups[-1] += first
            else:
                groups.append(first)
            groups += rest
        if len(groups) > 1 and groups[0][0].line == groups[-1][-1].line:
            groups[0] = groups.pop() + groups[0]
        merges = [merged(group) for group in groups]
        for before, after in zip(merges[-1:] + merges[:-1], merges, strict=True):
            if float(np.linalg.norm(before.edge.curve.end - after.edge.curve.start)) > SAME:
                raise DesignError(
                    f"a slash ends on a corner of {spoken_piece(self.old)}; spread with another number of slashes",
                    self.old.id,
                )
        return tuple(merge.edge for merge in merges), tuple(merge for merge in merges if len(merge.made_of) > 1)

    def _runs(self) -> list[tuple[Edge, ...]]:
        """The outline of all strips in its own order, run by run; between two runs lies a slash."""
        last = len(self.strips) - 1
        left = self.before_left
        middle = range(1, last)
        opened = {k: self._run(k, after=k if left else k - 1) for k in middle}
        closed = {k: self._run(k, after=k - 1 if left else k) for k in middle}
        ends = self._run(0, after=0), self._run(last, after=last - 1)
        if left:
            return [ends[1], *(opened[k] for k in reversed(middle)), ends[0], *(closed[k] for k in middle)]
        return [ends[0], *(opened[k] for k in middle), ends[1], *(closed[k] for k in reversed(middle))]

    def _run(self, strip: int, after: int) -> tuple[Edge, ...]:
        """The edges of a strip behind one of its slashes, up to the next."""
        edges = self.strips[strip].part.piece.edges
        start = next(k for k, edge in enumerate(edges) if edge.line == f"{SLASH}{after}")
        run = []
        for k in range(1, len(edges)):
            edge = edges[(start + k) % len(edges)]
            if edge.line.startswith(SLASH):
                break
            run.append(edge)
        return tuple(run)
