"""A piece: a closed outline of edges, drawn outer face up, with what is marked inside it."""

from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from typing import Literal, Self

import numpy as np
from shapely import Polygon

from panelwright.errors import GeometryError
from panelwright.geometry.arrays import Array, turn
from panelwright.geometry.curve import Curve
from panelwright.geometry.placement import Placement
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.edge import Edge
from panelwright.pattern.mark import Grain, InsideLine, Mark
from panelwright.pattern.material import Region

Extent = Literal["half_on_fold", "one_side", "whole"]
Hand = Literal["right", "left", "both"]
Layer = Literal["outer", "facing", "lining", "interfacing"]

OUTLINES_KEPT = 512
OTHER_HAND: dict[Hand, Hand] = {"right": "left", "left": "right", "both": "both"}


@dataclass(frozen=True)
class Piece:
    """A piece of the pattern, without allowances (those belong to `finish`).

    Attributes:
        id: unique in the pattern, `SF`.
        label: what is written on it, `Side front`.
        edges: the outline, anticlockwise; each edge starts exactly where the one before it ends.
        extent: `half_on_fold` is half of a symmetric piece; `one_side` belongs to one side of the body;
            `whole` is drawn entire.
        hand: the side of the body that it is for; `both`: cut a pair, drawn for the wearer's right.
        inside: level lines and guides. A level's id is its own.
        marks: points to transfer.
        grain: the grain line.
        material: which block panels it came from.
        layer: outer, facing, lining or interfacing.
        derived_from: id of the piece that a facing, lining or interfacing repeats.

    Raises:
        GeometryError: if the edges do not close, cross one another, run clockwise, or two edges share an id.
    """

    id: str
    label: str
    edges: tuple[Edge, ...]
    extent: Extent
    hand: Hand
    grain: Grain
    inside: tuple[InsideLine, ...] = ()
    marks: tuple[Mark, ...] = ()
    material: tuple[Region, ...] = ()
    layer: Layer = "outer"
    derived_from: str | None = None

    def __post_init__(self) -> None:
        curves = tuple(edge.curve for edge in self.edges)
        corner = _open_corner(curves)
        if corner is not None:
            before, after = self.edges[corner - 1], self.edges[corner]
            raise GeometryError(f"piece {self.id}: edge {after.id} does not start where {before.id} ends")
        for kind, ids in (
            ("edges", [e.id for e in self.edges]),
            ("inside lines", [i.id for i in self.inside]),
        ):
            if len(set(ids)) < len(ids):
                raise GeometryError(f"piece {self.id}: two of its {kind} share an id")
        fault = _fault(curves)
        if fault:
            raise GeometryError(f"piece {self.id}: {fault}")

    def __hash__(self) -> int:
        return self._hash

    @cached_property
    def _hash(self) -> int:
        """Reckoned once: patterns and whatever is remembered by piece ask for it again and again."""
        drawn = self.inside, self.marks, self.material, self.grain
        return hash((self.id, self.label, self.edges, self.extent, self.hand, self.layer, self.derived_from, *drawn))

    @classmethod
    def closed(cls, edges: tuple[Edge, ...], **fields: object) -> Self:
        """A piece of edges whose ends meet within rounding: each is made to start exactly where the last ends.

        Raises:
            GeometryError: if two neighbours are farther apart than `TOLERANCES.seam`, or as the class says.
        """
        shut = []
        for before, edge in zip(edges[-1:] + edges[:-1], edges, strict=True):
            gap = float(np.linalg.norm(edge.curve.start - before.curve.end))
            if gap > TOLERANCES.seam:
                raise GeometryError(f"edge {edge.id} starts {gap:.3f} mm from where {before.id} ends")
            shut.append(replace(edge, curve=edge.curve.ending_at(start=before.curve.end)))
        return cls(edges=tuple(shut), **fields)  # type: ignore[arg-type]  # the fields of the class, by name

    @property
    def vertices(self) -> Array:
        """The corners, shape (n, 2): corner k is where edge k starts."""
        return np.array([edge.curve.start for edge in self.edges])

    def edge(self, id: str) -> Edge:
        """The edge with this id; KeyError if the piece has none."""
        return self._edges[id]

    @cached_property
    def _edges(self) -> dict[str, Edge]:
        return {edge.id: edge for edge in self.edges}

    def on_line(self, line: str) -> tuple[Edge, ...]:
        """The edges that lie on a line, in outline order."""
        return tuple(edge for edge in self.edges if edge.line == line)

    def inside_line(self, id: str) -> InsideLine | None:
        """The inside line with this id, or None."""
        return self._inside.get(id)

    @cached_property
    def _inside(self) -> dict[str, InsideLine]:
        return {line.id: line for line in self.inside}

    def index(self, edge_id: str) -> int:
        """Place of an edge in the outline; its start is vertex `index`, its end vertex `index + 1` (wrapping)."""
        return next(k for k, edge in enumerate(self.edges) if edge.id == edge_id)

    def before(self, edge: Edge) -> Edge:
        """The edge that ends where `edge` starts."""
        return self.edges[self.index(edge.id) - 1]

    def after(self, edge: Edge) -> Edge:
        """The edge that starts where `edge` ends."""
        return self.edges[(self.index(edge.id) + 1) % len(self.edges)]

    def inner_angle(self, edge: Edge) -> float:
        """The piece's inner angle at the corner where `edge` ends, radians, 0 … 2π."""
        return float(np.pi) - turn(edge.curve.end_tangent, self.after(edge).curve.start_tangent)

    @cached_property
    def outline(self) -> Polygon:
        """The outline as a polygon within 0.02 mm of the curves."""
        return _polygon(tuple(edge.curve for edge in self.edges))

    def placed(self, placement: Placement) -> Self:
        """The piece moved, everything in it too; a mirrored piece changes hand, its outline stays anticlockwise."""
        edges = tuple(edge.placed(placement) for edge in self.edges)
        hand = self.hand
        if placement.mirrored:
            ends = tuple(before.pointed_end for before in self.edges[-1:] + self.edges[:-1])
            edges = tuple(replace(e, pointed_end=p) for e, p in zip(edges, ends, strict=True))[::-1]
            hand = OTHER_HAND[hand]
        return replace(
            self,
            edges=edges,
            hand=hand,
            grain=self.grain.placed(placement),
            inside=tuple(line.placed(placement) for line in self.inside),
            marks=tuple(mark.placed(placement) for mark in self.marks),
            material=tuple(region.placed(placement) for region in self.material),
        )


@lru_cache(maxsize=OUTLINES_KEPT)
def _open_corner(curves: tuple[Curve, ...]) -> int | None:
    """Which curve does not start exactly where the one before it ends; None where they close."""
    starts, ends = np.array([curve.start for curve in curves]), np.array([curve.end for curve in curves])
    apart = np.flatnonzero((starts != np.roll(ends, 1, axis=0)).any(axis=1))
    return int(apart[0]) if len(apart) else None


@lru_cache(maxsize=OUTLINES_KEPT)
def _fault(curves: tuple[Curve, ...]) -> str:
    """What is wrong with the outline that curves make, or nothing; the same outline is looked at once."""
    ring = np.concatenate([curve.polyline(TOLERANCES.coarse_polyline)[:-1] for curve in curves])
    outline = Polygon(ring) if len(ring) > 2 else Polygon()
    if outline.is_empty or not outline.is_valid:
        return "its outline crosses itself"
    if not outline.exterior.is_ccw:
        return "its outline runs clockwise"
    if np.abs(ring).max() > TOLERANCES.extent:
        return f"it reaches beyond {TOLERANCES.extent / 1000:g} m"
    return ""


@lru_cache(maxsize=OUTLINES_KEPT)
def _polygon(curves: tuple[Curve, ...]) -> Polygon:
    return Polygon(np.concatenate([curve.polyline()[:-1] for curve in curves]))
