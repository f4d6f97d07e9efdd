"""Draws fitted panels as the pieces, seams, lines and levels of a pattern."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from panelwright.blocks.arm_of import arm_of
from panelwright.blocks.fit_panels import PanelFitter
from panelwright.blocks.options import PLANS, BlockOptions
from panelwright.blocks.panel_fit import PanelFit
from panelwright.blocks.panel_joins import panel_joins
from panelwright.blocks.upper_edges import shoulder_seam, top_height, upper_edges
from panelwright.blocks.upright_grain import upright_grain
from panelwright.body.measurements import Measurements
from panelwright.body.section import ANGLES
from panelwright.body.terms import OF_THE_ARM
from panelwright.geometry.arrays import Array
from panelwright.pattern import level as levels
from panelwright.pattern import line as lines
from panelwright.pattern.edge import Edge, EdgeKind
from panelwright.pattern.level import Level, LevelSpan
from panelwright.pattern.line import Line
from panelwright.pattern.mark import InsideLine, Mark, as_point
from panelwright.pattern.material import Region
from panelwright.pattern.panel_on_body import PanelOnBody
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam, SeamKind, Span

COLUMNS_ON_BODY = 9


def block_pattern(fits: Sequence[PanelFit], fitter: PanelFitter, wearer: Measurements) -> Pattern:
    """The block as a pattern. Chain a of every seam is the panel nearer the front; seams start at the hem.

    A block to the shoulder is the same pattern, and knows how it runs on (`Pattern.to_shoulder`).
    """
    body = tuple(_on_body(fit) for fit in fits)
    foot = float(fitter.z[-1])
    tops = [
        (Edge(f"{fit.id}.{lines.TOP}", lines.TOP, "left", "finished", fit.flat.level(foot)),) for fit in fits
    ]  # fmt: skip
    lower = _pattern(fits, fitter, wearer, tops, [(foot, foot)] * len(fits), _LOWER)
    lower = replace(lower, body=body)
    if fitter.upper is None:
        return lower
    heights = [(top_height(fitter, *bounds, 0), top_height(fitter, *bounds, 1)) for bounds in fitter.bounds]
    upper = _pattern(fits, fitter, wearer, upper_edges(fits, fitter), heights, _UPPER)
    upper = replace(upper, seams=(*upper.seams, shoulder_seam(upper)))
    return replace(lower, to_shoulder=upper)


_LOWER = ((lines.TOP, "Upper edge"),)
_UPPER = ((lines.NECKLINE, "Neckline"), (lines.SHOULDER, "Shoulder seam"), (lines.ARMHOLE, "Armhole"))


def _pattern(
    fits: Sequence[PanelFit],
    fitter: PanelFitter,
    wearer: Measurements,
    tops: Sequence[tuple[Edge, ...]],
    heights: Sequence[tuple[float, float]],
    top_lines: tuple[tuple[str, str], ...],
) -> Pattern:
    """The pattern of panels that end in `tops`, their front and back lines at `heights`."""
    options = fitter.options
    plan = PLANS[options.panels]
    names = [lines.CENTRE_FRONT, *(line for line, _ in plan.lines), lines.CENTRE_BACK]
    bust_point = _bust_point(fits, fitter)
    pieces = tuple(
        _piece(fit, fitter, names[k], names[k + 1], tuple(mark for id, mark in bust_point if id == fit.id), top, ends)
        for k, (fit, top, ends) in enumerate(zip(fits, tops, heights, strict=True))
    )
    labels = (
        (lines.CENTRE_FRONT, "Centre front"), *plan.lines, (lines.CENTRE_BACK, "Centre back"),
        *top_lines, (lines.HEM, "Hem"),
    )  # fmt: skip
    return Pattern(
        pieces=pieces,
        seams=(*panel_joins(names, fits), *_centre_back(fits[-1].id, options)),
        lines=tuple(Line(id, label) for id, label in labels),
        levels=_levels(fits, fitter),
        wearer=wearer.ref,
        estimated=tuple(term for term in wearer.estimated if term not in OF_THE_ARM),
        arm=arm_of(wearer),
    )


def _piece(
    fit: PanelFit,
    fitter: PanelFitter,
    front: str,
    back: str,
    marks: tuple[Mark, ...],
    top: tuple[Edge, ...],
    ends: tuple[float, float],
) -> Piece:
    hip, foot = fitter.z[0], float(fitter.z[-1])
    kinds: dict[str, EdgeKind] = {lines.CENTRE_FRONT: "fold", lines.CENTRE_BACK: fitter.options.centre_back}
    upright = []
    for is_back, height in zip((False, True), ends, strict=True):
        curve = fit.flat.line(is_back, height)
        beyond = 1.0 if height <= foot else curve.length / fit.flat.line(is_back, foot).length
        upright.append((curve, (0.0, beyond)))
    (front_curve, front_interval), (back_curve, back_interval) = upright
    edges = (
        Edge(f"{fit.id}.{lines.HEM}", lines.HEM, "right", "finished", fit.flat.level(hip).reversed()),
        Edge(f"{fit.id}.{front}", front, "left", kinds.get(front, "seam"), front_curve, front_interval),
        *top,
        Edge(f"{fit.id}.{back}", back, "right", kinds.get(back, "seam"), back_curve.reversed(), back_interval),
    )
    inside = tuple(
        InsideLine(level, "level", fit.flat.level(z).reversed())
        for level, z in zip(fitter.levels, fitter.z, strict=True)
    )
    folded = any(edge.kind == "fold" for edge in edges)
    return Piece.closed(
        edges,
        id=fit.id,
        label=fit.label,
        extent="half_on_fold" if folded else "one_side",
        hand="both",
        grain=upright_grain(edges, fit.flat.level(0.0)),
        inside=inside[::-1],
        marks=marks,
        material=(Region(fit.id),),
    )


def _on_body(fit: PanelFit) -> PanelOnBody:
    """The panel's rows on paper and on the body."""
    u = np.linspace(0.0, 1.0, COLUMNS_ON_BODY)
    z = fit.body.rows.z
    return PanelOnBody(fit.id, fit.flat.points(z, u), fit.body.points(u))


def _centre_back(panel: str, options: BlockOptions) -> list[Seam]:
    if options.centre_back == "fold":
        return []
    edge = f"{panel}.{lines.CENTRE_BACK}"
    right, left = Span(panel, edge, 1.0, 0.0), Span(panel, edge, 1.0, 0.0, "mirror")
    kind: SeamKind = "closure" if options.centre_back == "opening" else "join"
    return [Seam(lines.CENTRE_BACK, kind, (right,), (left,), "back")]


def _levels(fits: Sequence[PanelFit], fitter: PanelFitter) -> tuple[Level, ...]:
    rows = zip(fitter.levels, fitter.z, fitter.body_girths, fitter.eases, strict=True)
    found = [
        Level(
            level, level.replace("-", " ").capitalize(), float(z), float(girth), float(ease),
            tuple(LevelSpan(fit.id, level) for fit in fits),
        )
        for level, z, girth, ease in rows
    ]  # fmt: skip
    return tuple(found[::-1])


def _bust_point(fits: Sequence[PanelFit], fitter: PanelFitter) -> list[tuple[str, Mark]]:
    """(panel, mark): the bust point lies on the front princess seam or beside it."""
    torso, rows, z = fitter.torso, fitter.rows, fitter.torso.shape.heights[levels.BUST]
    row = int(np.abs(rows.z - z).argmin())
    arc = float(np.interp(torso.bust_angle, ANGLES, rows.arcs[row]))
    for fit in fits:
        front, back = fit.body.front[row], fit.body.back[row]
        if arc <= back + 1e-6:
            u = np.array([min(max((arc - front) / (back - front), 0.0), 1.0)])
            at: Array = fit.flat.points(np.array([z]), u)[0, 0]
            return [(fit.id, Mark("bust-point", "point", as_point(at)))]
    return []
