"""The chart of a block: across the panels from centre front to centre back, and up the body.

A place on the chart is (across, height). `across` counts panels: 0 is the centre front, 1 the first seam, 1.5 the
middle of the second panel. `height` is mm above the waist on the body; along a line it changes as the levels of the
block say. Steps think on the chart, so that one design fits every block.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cached_property, lru_cache

import numpy as np

from panelwright.design.panel_surface import PanelSurface
from panelwright.design.panel_walk import WalkedPanel, half_walk, whole_walk
from panelwright.design.smooth_curve import SmoothCurve
from panelwright.errors import DesignError, GeometryError
from panelwright.geometry.curve import Curve
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern import line as lines
from panelwright.pattern.edge import Edge
from panelwright.pattern.level import LEVELS, Level
from panelwright.pattern.mark import Point, as_point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

# An edge of the block nearer than this to its outermost level is that level, mm.
SAME_ROW = 0.5
CHARTS_KEPT = 8


@dataclass(frozen=True)
class Row:
    """A line round the block whose height is known: a level, or the block's own top or hem beyond its levels."""

    level: str | None
    label: str
    height: float
    curves: tuple[Curve, ...]


@dataclass(frozen=True)
class Upright:
    """A line up the block.

    Attributes:
        line: its id.
        length: mm; the mean of its two edges where a seam has ease.
        shares: height -> share of the length, from the hem up.
        rows: share of the length at each row.
    """

    line: str
    length: float
    shares: SmoothCurve
    rows: tuple[float, ...]

    def height(self, arc: float) -> float:
        """Height of the place `arc` mm up the line."""
        return self.shares.inverse(arc / self.length)


@dataclass(frozen=True, eq=False)
class BodyChart:
    """The chart itself: panels, their surfaces, and the lines and rows that rule it.

    Attributes:
        panels: in the order of the walk.
        rows: from the lowest up.
        uprights: one more than there are panels.
        surfaces: of each panel.
        widths: of each panel, height -> mm along the level.
        centre: index of the centre-front line: 0 on a half, in the middle when both halves are walked.
    """

    panels: tuple[WalkedPanel, ...]
    rows: tuple[Row, ...]
    uprights: tuple[Upright, ...]
    surfaces: tuple[PanelSurface, ...]
    widths: tuple[SmoothCurve, ...]
    centre: int

    @property
    def side(self) -> float:
        """Where the wearer's right side is: at the side seam, or in the middle of the panel that stands there."""
        names = self._names
        return float(names[lines.SIDE]) if lines.SIDE in names else self.centre + (len(self.panels) - self.centre) / 2

    @cached_property
    def side_curves(self) -> tuple[Curve, ...]:
        """The upright edges' curves, upwards: entry and exit of the first panel, entry and exit of the second, …"""
        return tuple(edge.line_curve for panel in self.panels for edge in (panel.entry_edge, panel.exit_edge))

    @cached_property
    def _names(self) -> dict[str, int]:
        return {upright.line: k for k, upright in enumerate(self.uprights) if k >= self.centre}

    def index(self, line: str) -> int:
        """Number of an upright line (the right half's).

        Raises:
            DesignError: if the block has no such line.
        """
        if line not in self._names:
            raise DesignError(f"the block has no line {line!r}{closest(line, self._names)}", line)
        return self._names[line]

    def row(self, level: str) -> int:
        """Number of a level's row.

        Raises:
            DesignError: if the block has no such level.
        """
        for k, row in enumerate(self.rows):
            if row.level == level:
                return k
        names = [row.level for row in self.rows if row.level]
        if level in LEVELS:  # rightly written: one that is spelt much alike is another place on the body
            raise DesignError(
                f"the block has no {level.replace('-', ' ')} level, only {', '.join(names)}; draw it on the block, "
                "or choose one of those",
                level,
            )
        raise DesignError(f"the block has no level {level!r}{closest(level, names)}", level)

    def point(self, across: float, height: float) -> tuple[str, Point]:
        """(id of the panel, point of it) at a place; on a line, of the panel nearer the centre front."""
        k = min(max(int(np.ceil(across)) - 1, 0), len(self.panels) - 1)
        at = self.surfaces[k].points(np.array([across - k]), np.array([height]))[0]
        return self.panels[k].piece.id, as_point(at)


def closest(name: str, known: Sequence[str] | dict[str, int]) -> str:
    """`; did you mean 'side'?`, or what there is to choose from."""
    near = get_close_matches(name, list(known), 1)
    return f"; did you mean {near[0]!r}?" if near else f"; it has {', '.join(known)}"


@lru_cache(maxsize=CHARTS_KEPT)
def half_chart(block: Pattern) -> BodyChart:
    """The chart from centre front to centre back. Charts of the last few blocks are kept.

    Raises:
        GeometryError: if the block is not one row of panels, or its panels share fewer than two levels.
    """
    return _chart(block, half_walk(block), 0)


@lru_cache(maxsize=CHARTS_KEPT)
def whole_chart(block: Pattern) -> BodyChart:
    """The chart from the left centre back round the front to the right centre back, for a block of half a body."""
    walk = whole_walk(block)
    return _chart(block, walk, len(walk) // 2)


def _chart(block: Pattern, walk: tuple[WalkedPanel, ...], centre: int) -> BodyChart:
    rows = _rows(block.levels, walk)
    if len(rows) < 2:
        raise GeometryError("the panels of the block share fewer than two levels")
    edges = [(panel.entry_edge, panel.exit_edge) for panel in walk]
    places = [
        [[_share(edge, point) for point in ends] for edge, ends in zip(pair, _row_ends(rows, k), strict=True)]
        for k, pair in enumerate(edges)
    ]
    heights = [row.height for row in rows]
    uprights = []
    for k in range(len(walk) + 1):
        sides = [(edges[k - 1][1], places[k - 1][1])] if k else []
        sides += [(edges[k][0], places[k][0])] if k < len(walk) else []
        length = sum(edge.curve.length for edge, _ in sides) / len(sides)
        shares = tuple(float(share) for share in np.mean([shares for _, shares in sides], axis=0))
        uprights.append(Upright(sides[0][0].line, length, SmoothCurve.monotone(heights, shares), shares))
    surfaces, widths = [], []
    for k, (entry, exit) in enumerate(edges):
        curves = [(row.height, row.curves[k]) for row in rows]
        shares_beside = (uprights[k].shares, uprights[k + 1].shares)
        surfaces.append(PanelSurface.of((entry.line_curve, exit.line_curve), curves, shares_beside))
        widths.append(SmoothCurve.monotone(heights, [curve.length for _, curve in curves]))
    return BodyChart(walk, rows, tuple(uprights), tuple(surfaces), tuple(widths), centre)


def _rows(levels: tuple[Level, ...], walk: tuple[WalkedPanel, ...]) -> tuple[Row, ...]:
    """The levels that cross every panel, and the block's edges where they lie beyond them; from the lowest up."""
    rows = []
    for level in sorted(levels, key=lambda level: level.height):
        found = [level_curve(level, panel.piece) for panel in walk]
        if all(found):
            curves = tuple(curve.reversed() for curve in found if curve)
            rows.append(Row(level.id, level.label.lower(), level.height, curves))
    if len(rows) > 1:
        rows = _with_edge(rows, walk, top=True)
        rows = _with_edge(rows, walk, top=False)
    return tuple(rows)


def level_curve(level: Level, piece: Piece) -> Curve | None:
    """A level right across a piece, from its left edge to its right, straight over the mouths of darts; or None."""
    names = [span.inside for span in level.path if span.piece == piece.id] or [level.id]
    parts = [line.curve for name in names if (line := piece.inside_line(name))]
    parts.sort(key=lambda curve: float(curve.start[0]))
    whole = parts[0] if parts else None
    for part in parts[1:]:
        whole = whole.joined(Curve.straight(whole.end, part.start)).joined(part) if whole else part
    return whole


def _with_edge(rows: list[Row], walk: tuple[WalkedPanel, ...], top: bool) -> list[Row]:
    nearest = rows[-1] if top else rows[0]
    rises = []
    for panel, curve in zip(walk, nearest.curves, strict=True):
        edge = panel.entry_edge
        arc = edge.line_curve.nearest(curve.start)[0]
        rises.append(edge.curve.length - arc if top else arc)
    rise = float(np.mean(rises))
    if rise < SAME_ROW:
        return rows
    curves = tuple(_edge_curve(panel, top) for panel in walk)
    sign = 1.0 if top else -1.0
    row = Row(None, "the block's upper edge" if top else "the block's hem", nearest.height + sign * rise, curves)
    return [*rows, row] if top else [row, *rows]


def _edge_curve(panel: WalkedPanel, top: bool) -> Curve:
    """The block's top or hem across a panel, from entry to exit."""
    edges, piece = [], panel.piece
    first, last = (panel.entry_edge, panel.exit_edge) if top else (panel.exit_edge, panel.entry_edge)
    edge = piece.after(first)
    while edge.id != last.id:
        edges.append(edge.curve)
        edge = piece.after(edge)
    curve = edges[0]
    for other in edges[1:]:
        curve = curve.joined(other)
    return curve if top else curve.reversed()


def _row_ends(rows: tuple[Row, ...], panel: int) -> tuple[list[Point], list[Point]]:
    curves = [row.curves[panel] for row in rows]
    return [as_point(curve.start) for curve in curves], [as_point(curve.end) for curve in curves]


def _share(edge: Edge, point: Point) -> float:
    """Share of an upright edge, from the hem up, at the place nearest to a point."""
    curve = edge.line_curve
    knots = np.concatenate([curve.cubics[:, 0], curve.cubics[-1:, 3]])
    gaps = np.linalg.norm(knots - point, axis=1)
    at_knot = float(gaps.min()) < TOLERANCES.same_point
    arc = float(curve.joints[gaps.argmin()]) if at_knot else curve.nearest(point)[0]
    share = arc / curve.length
    return 0.0 if share < 1e-9 else 1.0 if share > 1 - 1e-9 else share
