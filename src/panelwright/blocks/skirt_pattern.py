"""Draws the panels of half a skirt as the pieces, seams, lines and levels of a pattern."""

from collections.abc import Sequence
from dataclasses import replace

from panelwright.blocks.options import BlockOptions
from panelwright.blocks.panel_joins import panel_joins, region_of
from panelwright.blocks.skirt_body import USED, SkirtBody
from panelwright.blocks.skirt_panel import SkirtDart, SkirtPanel
from panelwright.blocks.upright_grain import upright_grain
from panelwright.body.measurements import Measurements
from panelwright.pattern import line as lines
from panelwright.pattern.edge import Edge, EdgeKind
from panelwright.pattern.level import WAIST, Level, LevelSpan
from panelwright.pattern.line import Line
from panelwright.pattern.mark import InsideLine
from panelwright.pattern.material import Region
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam, SeamKind, Span

BETWEEN_PIECES = 40.0  # mm on paper
_EDGE_LINES = ((lines.WAIST_EDGE, "Waist edge"), (lines.SKIRT_HEM, "Hem"))


def skirt_pattern(
    panels: Sequence[SkirtPanel],
    seams: Sequence[tuple[str, str]],
    body: SkirtBody,
    wearer: Measurements,
    options: BlockOptions,
) -> Pattern:
    """The skirt of a wearer as a pattern, as `drawn_skirt` draws it."""
    drawn = drawn_skirt(panels, seams, body, options)
    return replace(drawn, wearer=wearer.ref, estimated=tuple(term for term in wearer.estimated if term in USED))


def drawn_skirt(
    panels: Sequence[SkirtPanel], seams: Sequence[tuple[str, str]], body: SkirtBody, options: BlockOptions
) -> Pattern:
    """The skirt as a pattern. Chain a of every seam is the panel nearer the front; seams start at the hem.

    Args:
        panels: of the right half, from centre front to centre back.
        seams: (line, label) of each seam between them.
        body: the wearer with ease.
        options: how the centres are cut.
    """
    laid = _laid_out(panels)
    names = [lines.CENTRE_FRONT, *(line for line, _ in seams), lines.CENTRE_BACK]
    kinds: dict[str, EdgeKind] = {
        lines.CENTRE_FRONT: options.skirt.centre_front, lines.CENTRE_BACK: options.centre_back
    }  # fmt: skip
    pieces = tuple(_piece(panel, names[k], names[k + 1], kinds) for k, panel in enumerate(laid))
    labels = (
        (lines.CENTRE_FRONT, "Centre front"), *seams, (lines.CENTRE_BACK, "Centre back"), *_EDGE_LINES,
        *((dart.line, dart.label) for panel in laid for dart in panel.darts),
    )  # fmt: skip
    darts = tuple(_dart_seam(panel.id, dart) for panel in laid for dart in panel.darts)
    return Pattern(
        pieces=pieces,
        seams=(*panel_joins(names, laid), *darts, *_centres(laid, kinds)),
        lines=tuple(Line(id, label) for id, label in labels),
        levels=_levels(laid, body),
    )


def _laid_out(panels: Sequence[SkirtPanel]) -> tuple[SkirtPanel, ...]:
    """Side by side, the centre front on the right at x = 0."""
    laid: list[SkirtPanel] = []
    right = 0.0
    for panel in panels:
        laid.append(panel.moved(right - panel.right))
        right = laid[-1].left - BETWEEN_PIECES
    return tuple(laid)


def _piece(panel: SkirtPanel, front: str, back: str, kinds: dict[str, EdgeKind]) -> Piece:
    edges = (
        Edge(f"{panel.id}.{lines.SKIRT_HEM}", lines.SKIRT_HEM, "right", "finished", panel.hem),
        Edge(f"{panel.id}.{front}", front, "left", kinds.get(front, "seam"), panel.front),
        *_waist_edges(panel),
        Edge(f"{panel.id}.{back}", back, "right", kinds.get(back, "seam"), panel.back.reversed()),
    )
    inside = tuple(
        InsideLine(_inside(panel, level, k), "level", curve)
        for level, parts in panel.levels.items()
        for k, curve in enumerate(parts)
    )
    folds = sum(edge.kind == "fold" for edge in edges)
    return Piece.closed(
        edges,
        id=panel.id,
        label=panel.label,
        extent="half_on_fold" if folds else "one_side",
        hand="both",
        grain=upright_grain(edges, panel.levels[WAIST][0]),
        inside=inside,
        material=(Region(panel.id),),
    )


def _waist_edges(panel: SkirtPanel) -> tuple[Edge, ...]:
    """The waist from front to back with the legs of its darts between its parts; a dart's line runs to its point."""
    whole = sum(curve.length for curve in panel.waist)
    edges, done = [], 0.0
    for k, curve in enumerate(panel.waist):
        interval = done / whole, min(1.0, (done + curve.length) / whole)
        done += curve.length
        id = _numbered(f"{panel.id}.{lines.WAIST_EDGE}", k)
        edges.append(Edge(id, lines.WAIST_EDGE, "left", "finished", curve, interval))
        if k < len(panel.darts):
            dart = panel.darts[k]
            edges.append(Edge(f"{panel.id}.{dart.line}", dart.line, "left", "seam", dart.down))
            edges.append(Edge(f"{panel.id}.{dart.line}-2", dart.line, "right", "seam", dart.up))
    return tuple(edges)


def _inside(panel: SkirtPanel, level: str, number: int) -> str:
    """Id of a level line. A waist that the grain does not stand square to has a name of its own."""
    return _numbered("back-waist" if level == WAIST and panel.along_back else level, number)


def _numbered(id: str, number: int) -> str:
    return f"{id}-{number + 1}" if number else id


def _dart_seam(piece: str, dart: SkirtDart) -> Seam:
    """Both legs from the mouth to the point."""
    legs = Span(piece, f"{piece}.{dart.line}"), Span(piece, f"{piece}.{dart.line}-2", 1.0, 0.0)
    return Seam(dart.line, "dart", (legs[0],), (legs[1],), region_of(dart.line))


def _centres(panels: Sequence[SkirtPanel], kinds: dict[str, EdgeKind]) -> list[Seam]:
    """A centre that is not on the fold is sewn to its own mirror image, or closed."""
    seams = []
    for line, panel, way in (
        (lines.CENTRE_FRONT, panels[0], (0.0, 1.0)), (lines.CENTRE_BACK, panels[-1], (1.0, 0.0))
    ):  # fmt: skip
        if kinds[line] != "fold":
            right = Span(panel.id, f"{panel.id}.{line}", *way)
            left = Span(panel.id, f"{panel.id}.{line}", *way, "mirror")
            kind: SeamKind = "closure" if kinds[line] == "opening" else "join"
            seams.append(Seam(line, kind, (right,), (left,), region_of(line)))
    return seams


def _levels(panels: Sequence[SkirtPanel], body: SkirtBody) -> tuple[Level, ...]:
    """Each level that every panel has, with the ease that the shape gives."""
    found = []
    for level, depth in body.depths.items():
        if all(level in panel.levels for panel in panels):
            girth = 2 * sum(panel.girth(level) for panel in panels)
            path = tuple(
                LevelSpan(panel.id, _inside(panel, level, k))
                for panel in panels
                for k in range(len(panel.levels[level]))
            )
            label = level.replace("-", " ").capitalize()
            found.append(Level(level, label, -depth, body.bare[level], girth - body.bare[level], path))
    return tuple(found)
