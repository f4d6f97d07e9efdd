"""Neckline, shoulder and armhole on the flat panels of a block to the shoulder."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from panelwright.blocks.fit_panels import PanelFitter
from panelwright.blocks.panel_fit import PanelFit
from panelwright.blocks.upper_plan import TopPart
from panelwright.geometry.arrays import Array, turn
from panelwright.geometry.curve import Curve
from panelwright.pattern import line as lines
from panelwright.pattern.edge import Edge, EdgeKind
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Seam, Span

NECK_NODES = (0.0, 0.35, 0.7, 1.0)  # shares of the neck's length where its cubics join
SHORTEST_CUBIC = 20.0  # mm of armhole
RIGHT_ANGLE = np.pi / 2


@dataclass
class _Drawn:
    """A part of a panel's upper boundary as it is being drawn: its nodes and directions, front line to back line."""

    part: str
    points: Array
    directions: Array
    span: tuple[float, float]

    def curve(self) -> Curve:
        """The chain of cubics; the shoulder is straight."""
        if self.part == "shoulder":
            return Curve.straight(self.points[0], self.points[-1])
        reach = np.linalg.norm(np.diff(self.points, axis=0), axis=1)[:, None]
        bend = np.array([1 / max(0.5, np.cos(turn(a, b) / 4) ** 2) for a, b in pairwise(self.directions)])[:, None] / 3
        low, high = self.points[:-1], self.points[1:]
        a = low + reach * bend * self.directions[:-1]
        b = high - reach * bend * self.directions[1:]
        return Curve(np.stack([low, a, b, high], axis=1))


def top_height(fitter: PanelFitter, front: str, back: str, end: int) -> float:
    """Height at which a panel's front (end 0) or back (end 1) line ends, mm."""
    upper = fitter.upper
    if upper is None:
        return float(fitter.z[-1])
    line = (front, back)[end]
    if line in (lines.CENTRE_FRONT, lines.CENTRE_BACK):
        part = upper.parts(front, back)[0 if end == 0 else -1]
        return upper.height(float(part.v[0 if end == 0 else -1]))
    return upper.line_end(line)


def upper_edges(fits: Sequence[PanelFit], fitter: PanelFitter) -> list[tuple[Edge, ...]]:
    """The upper edges of every panel, in outline order.

    Neckline and armhole stand square to shoulder and centres, and run on without a kink across every seam.
    """
    upper = fitter.upper
    if upper is None:
        return []
    drawn = [
        [_draw(fit, bounds, part, fitter) for part in upper.parts(*bounds)]
        for fit, bounds in zip(fits, fitter.bounds, strict=True)
    ]
    for fit, bounds, parts in zip(fits, fitter.bounds, drawn, strict=True):
        _square_to_shoulder(parts)
        _square_to_centre(fit, fitter, bounds, parts)
    for k in range(len(fits) - 1):
        _run_on(fits, fitter, k, drawn[k][-1], drawn[k + 1][0])
    return [tuple(_edge(fit, part) for part in parts) for fit, parts in zip(fits, drawn, strict=True)]


def _draw(fit: PanelFit, bounds: tuple[str, str], part: TopPart, fitter: PanelFitter) -> _Drawn:
    upper = fitter.upper
    if upper is None:
        raise ValueError("a block to the upper bust has no shoulder")
    z, across = upper.places(bounds, part.v, part.u)
    points = fit.flat.places(z, across)
    arcs = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1))])
    if part.part == "neckline":
        at = np.array(NECK_NODES) * arcs[-1]
        at = at if bounds[0] == lines.CENTRE_FRONT else arcs[-1] - at[::-1]
    elif part.part == "armhole":
        keys = np.array(upper.armhole_nodes(bounds))
        rising = part.v if part.v[0] < part.v[-1] else part.v[::-1]
        along = arcs if part.v[0] < part.v[-1] else arcs[::-1]
        inside = keys[(keys > rising[0] + 1e-3) & (keys < rising[-1] - 1e-3)]
        places = np.interp(inside, rising, along)
        places = places[(places > SHORTEST_CUBIC) & (places < arcs[-1] - SHORTEST_CUBIC)]
        at = np.sort(np.concatenate([[0.0], places, [arcs[-1]]]))
    else:
        at = arcs[[0, -1]]
    nodes = np.stack([np.interp(at, arcs, column) for column in points.T], axis=-1)
    nodes[0], nodes[-1] = points[0], points[-1]
    step = 0.02 * arcs[-1]
    before, after = np.maximum(at - step, 0.0), np.minimum(at + step, arcs[-1])
    ways = np.stack([np.interp(after, arcs, c) - np.interp(before, arcs, c) for c in points.T], axis=-1)
    directions = ways / np.linalg.norm(ways, axis=1)[:, None]
    return _Drawn(part.part, nodes, directions, upper.span_of(bounds, part))


def _square_to_shoulder(parts: Sequence[_Drawn]) -> None:
    """Where neckline or armhole meets the shoulder seam on a panel, it stands at a right angle to it."""
    for before, after in pairwise(parts):
        if after.part == "shoulder":
            along = after.points[-1] - after.points[0]
            before.directions[-1] = _turned(along / np.linalg.norm(along), -RIGHT_ANGLE)
        elif before.part == "shoulder":
            along = before.points[-1] - before.points[0]
            after.directions[0] = _turned(along / np.linalg.norm(along), RIGHT_ANGLE)


def _square_to_centre(fit: PanelFit, fitter: PanelFitter, bounds: tuple[str, str], parts: Sequence[_Drawn]) -> None:
    if bounds[0] == lines.CENTRE_FRONT:
        upward = fit.flat.line(False, top_height(fitter, *bounds, 0)).end_tangent
        parts[0].directions[0] = _turned(upward, RIGHT_ANGLE)
    if bounds[1] == lines.CENTRE_BACK:
        upward = fit.flat.line(True, top_height(fitter, *bounds, 1)).end_tangent
        parts[-1].directions[-1] = _turned(upward, RIGHT_ANGLE)


def _run_on(fits: Sequence[PanelFit], fitter: PanelFitter, k: int, before: _Drawn, after: _Drawn) -> None:
    """A line that crosses the seam between panels k and k + 1: both turn by half of what it would kink."""
    if "shoulder" in (before.part, after.part):
        return
    height = top_height(fitter, *fitter.bounds[k], 1)
    front = fits[k].flat.line(True, height).end_tangent
    back = fits[k + 1].flat.line(False, height).end_tangent
    inner = np.pi - turn(before.directions[-1], -front) + np.pi - turn(back, after.directions[0])
    half = (inner - np.pi) / 2
    before.directions[-1] = _turned(before.directions[-1], -half)
    after.directions[0] = _turned(after.directions[0], half)


def _edge(fit: PanelFit, drawn: _Drawn) -> Edge:
    line = {"neckline": lines.NECKLINE, "shoulder": lines.SHOULDER, "armhole": lines.ARMHOLE}[drawn.part]
    low, high = sorted(drawn.span)
    along = drawn.span[0] < drawn.span[1]
    kind: EdgeKind = "seam" if drawn.part == "shoulder" else "finished"
    return Edge(f"{fit.id}.{line}", line, "left" if along else "right", kind, drawn.curve(), (low, high))


def shoulder_seam(pattern: Pattern) -> Seam:
    """Front shoulder to back shoulder, from the neck outwards."""
    spans: dict[str, list[tuple[float, Span]]] = {"left": [], "right": []}
    for piece, edge in pattern.pieces_on_line(lines.SHOULDER):
        way = (0.0, 1.0) if edge.side == "left" else (1.0, 0.0)
        spans[edge.side].append((edge.interval[0], Span(piece.id, edge.id, *way)))
    front, back = (
        tuple(span for _, span in sorted(spans[side], key=lambda entry: entry[0])) for side in ("left", "right")
    )
    seam = Seam(lines.SHOULDER, "join", front, back, "front")
    ease = pattern.chain_length(back) - pattern.chain_length(front)
    return seam if abs(ease) < 1e-9 else replace(seam, ease=ease)


def _turned(vector: Array, angle: float) -> Array:
    c, s = float(np.cos(angle)), float(np.sin(angle))
    return np.array([c * vector[0] - s * vector[1], s * vector[0] + c * vector[1]])
