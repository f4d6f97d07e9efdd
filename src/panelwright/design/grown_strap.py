"""A strap that grows out of the panels: the pattern with it in place."""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from shapely import Polygon

from panelwright.design.chain import EdgePart, resewn
from panelwright.design.grain_place import grain_inside
from panelwright.design.strap_cut import HalfStrap, PanelStrap, Slot
from panelwright.design.strap_panel import Half, StrapHalf, StrapPanel, turned, with_curve
from panelwright.errors import DesignError, GeometryError
from panelwright.pattern import line as lines
from panelwright.pattern.edge import Edge, EdgeKind, EdgeSide
from panelwright.pattern.line import Line
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam, Span
from panelwright.pattern.spoken_piece import spoken_piece

SLOTS: Final[dict[Slot, tuple[str, str]]] = {
    "neckline": ("strap-neckline", "Strap, neckline edge"),
    "shoulder": ("shoulder", "Shoulder seam"),
    "armhole": ("strap-armhole", "Strap, armhole edge"),
}
Parts = dict[str, tuple[EdgePart, ...]]


@dataclass(frozen=True, eq=False)
class Grown:
    """One half with its strap."""

    panels: StrapHalf
    strap: HalfStrap

    @property
    def half(self) -> Half:
        """Front or back."""
        return self.panels.half


def grown(pattern: Pattern, uid: str, front: Grown, back: Grown) -> Pattern:
    """The pattern with the straps of front and back, sewn together at the shoulder.

    The step's lines are called `<uid>/strap-neckline`, `<uid>/shoulder` and `<uid>/strap-armhole`.

    Args:
        pattern: with a top edge.
        uid: of the step.
        front, back: their straps.

    Raises:
        DesignError: if a panel's outline would cross itself.
    """
    made: dict[str, Piece] = {}
    parts: Parts = {}
    for each in (front, back):
        for panel, strap in zip((each.panels.inner, each.panels.outer), each.strap.panels, strict=True):
            if strap is not None:
                piece, own = _piece(panel, strap, each, uid)
                made[piece.id] = turned(piece, each.half)
                parts |= own if each.half == "front" else _turned(own)
    seams = tuple(_longer(seam, pattern, made) for seam in pattern.seams)
    bare = replace(
        pattern,
        pieces=tuple(made.get(piece.id, piece) for piece in pattern.pieces),
        seams=(),
        lines=(*pattern.lines, *(Line(f"{uid}/{slot}", label, uid) for slot, label in SLOTS.values())),
    )
    return replace(bare, seams=(*resewn(seams, parts, pattern, bare), _shoulder_seam(bare, f"{uid}/shoulder")))


def _piece(panel: StrapPanel, strap: PanelStrap, each: Grown, uid: str) -> tuple[Piece, Parts]:
    """The panel with its part of the strap, and what became of its top edges."""
    piece = panel.piece
    rest = [_raised(edge, panel, strap, each.panels.seam) for edge in panel.rest]
    low, low_parts = _kept(panel, 0.0, strap.leave or 0.0, False)
    high, high_parts = _kept(panel, panel.top.length if strap.enter is None else strap.enter, panel.top.length, True)
    parts = {
        edge.id: tuple(part for found in (low_parts, high_parts) for part in found.get(edge.id, ()))
        for edge in panel.tops
    }
    edges = (*low, *_new_edges(piece.id, strap, each.half, uid), *high, *rest)
    try:
        outline = Polygon(np.concatenate([edge.curve.polyline()[:-1] for edge in edges]))
        return Piece.closed(edges, **_fields(piece, outline)), parts
    except GeometryError as error:
        raise DesignError(
            f"the strap does not fit on {spoken_piece(piece)} ({error}); make it narrower or move it", piece.id
        ) from error


def _fields(piece: Piece, outline: Polygon) -> dict[str, object]:
    names = ("id", "label", "extent", "hand", "inside", "marks", "material", "layer", "derived_from")
    grain = grain_inside(outline, piece.grain) if outline.is_valid else piece.grain
    return {name: getattr(piece, name) for name in names} | {"grain": grain}


def _raised(edge: Edge, panel: StrapPanel, strap: PanelStrap, seam: str) -> Edge:
    """The princess edge, up to where the strap leaves it."""
    if edge.line != seam or strap.upright <= panel.cut:
        return edge
    above = panel.raised_upright(strap.upright)
    own = edge.line_curve
    curve = own.joined(above.ending_at(start=own.end))
    return with_curve(edge, curve, edge.interval[1] * strap.upright / panel.cut)


def _kept(panel: StrapPanel, start: float, end: float, is_upper: bool) -> tuple[list[Edge], Parts]:
    """The top edges between two places, and which part of each old edge that is."""
    kept: list[Edge] = []
    parts: Parts = {}
    done = 0.0
    for edge in panel.tops:
        length = edge.curve.length
        low, high = max(0.0, start - done), min(length, end - done)
        done += length
        if high - low > 1e-6:
            id = _unused(panel, edge.id) if is_upper and low > 0 else edge.id
            kept.append(edge.part(low, high, id))
            parts[edge.id] = (EdgePart(panel.piece.id, id, low / length, high / length),)
    return kept, parts


def _unused(panel: StrapPanel, id: str) -> str:
    """`<id>-2`, or the next number that no edge of the piece has: for the second part of a top edge cut in two."""
    taken = {edge.id for edge in panel.piece.edges}
    return next(other for number in range(2, len(taken) + 3) if (other := f"{id}-{number}") not in taken)


def _new_edges(piece: str, strap: PanelStrap, half: Half, uid: str) -> list[Edge]:
    """The strap's edges from the centre outwards.

    Neckline and armhole edges are lines that run on over the shoulder from front to back: the front half of each line
    lies on the front panels. The shoulder line runs outwards. On a back panel, which lies turned over here, the
    outline runs against the neckline and armhole lines.
    """
    edges = []
    for part in strap.parts:
        line, kind = f"{uid}/{SLOTS[part.slot][0]}", "seam" if part.slot == "shoulder" else "finished"
        low, high = part.share
        along: EdgeSide = "left"
        if part.slot != "shoulder":
            low, high = low / 2, high / 2
            if half == "back":
                along, (low, high) = "right", (1 - high, 1 - low)
        edges.append(Edge(f"{piece}.{line}", line, along, _kind(kind), part.curve, (low, high)))
    return edges


def _kind(word: str) -> EdgeKind:
    return "seam" if word == "seam" else "finished"


def _turned(parts: Parts) -> Parts:
    """Parts of a piece that lay turned over: its edges run the other way."""
    return {
        edge: tuple(EdgePart(part.piece, part.edge, 1 - part.high, 1 - part.low) for part in reversed(found))
        for edge, found in parts.items()
    }


def _longer(seam: Seam, pattern: Pattern, made: dict[str, Piece]) -> Seam:
    """A seam whose edges have grown at their upper ends: a join grows with them, all else stays where it was."""

    def moved(span: Span) -> Span:
        if span.piece not in made or not any(edge.id == span.edge for edge in made[span.piece].edges):
            return span
        old, new = pattern.edge(span), made[span.piece].edge(span.edge)
        if old.kind == "finished" or old.curve.length == new.curve.length:
            return span
        share = old.curve.length / new.curve.length
        top = 1.0 if old.along_line else 0.0

        def at(place: float) -> float:
            if seam.kind == "join" and abs(place - top) < 1e-9:
                return place
            return place * share if top else 1 - (1 - place) * share

        return replace(span, start=at(span.start), end=at(span.end))

    return replace(seam, a=tuple(map(moved, seam.a)), b=tuple(map(moved, seam.b)))


def _shoulder_seam(pattern: Pattern, line: str) -> Seam:
    """Front to back, from the neck outwards."""
    sides: dict[EdgeSide, list[tuple[float, Span]]] = {"left": [], "right": []}
    for piece, edge in pattern.pieces_on_line(line):
        way = (0.0, 1.0) if edge.along_line else (1.0, 0.0)
        sides[edge.side].append((edge.interval[0], Span(piece.id, edge.id, *way)))
    front, back = (tuple(span for _, span in sorted(sides[side], key=lambda s: s[0])) for side in ("left", "right"))
    return Seam(lines.SHOULDER, "join", front, back, "front")
