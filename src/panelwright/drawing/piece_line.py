"""The lines and signs of one piece: everything on its drawing but the lettering."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray

from panelwright.drawing import pen
from panelwright.drawing.drawing import Fill, Stroke
from panelwright.drawing.old_line import within_reach
from panelwright.drawing.path import Path
from panelwright.drawing.scale import Scale
from panelwright.drawing.symbol import arrow_head, mark_sign
from panelwright.finish.cut_piece import CutPiece, NotchMark
from panelwright.geometry.arrays import Array, unit
from panelwright.geometry.curve import Curve
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.mark import InsideKind, Mark
from panelwright.pattern.piece import Piece

INSIDE_PENS: Final[dict[InsideKind, pen.Pen]] = {
    "level": pen.LEVEL,
    "dart": pen.STITCH,
    "fold": pen.FOLD,
    "stitch": pen.INSIDE_STITCH,
    "guide": pen.GUIDE,
}
# The two ticks of a back seam's notch are this far apart on the cloth, mm.
NOTCH_PAIR: Final = 6.0
# A notch where there is no allowance runs into the piece instead, mm.
NOTCH_INWARDS: Final = 5.0
# Shorter pieces of a sign are not drawn, mm on paper.
LEAST_RUN: Final = 0.1
# The bracket of a fold covers at most this share of it.
BRACKET_SHARE: Final = 0.32
# It stays between two level lines, in this share of the gap.
BRACKET_GAP_SHARE: Final = 0.84


@dataclass(frozen=True)
class FoldBracket:
    """The bracket that points to a fold, mm on paper.

    Attributes:
        foot, head: its long side, in the direction of the fold edge.
        inwards: unit vector from the fold into the piece.
        path: the bracket's line, from tip to tip.
    """

    foot: Array
    head: Array
    inwards: Array
    path: Path


def stitch_lines(piece: Piece, scale: Scale) -> list[Stroke]:
    """Where the piece is sewn or finished: every edge but folds."""
    edges = (edge for edge in piece.edges if edge.kind != "fold")
    return [Stroke(Path.curve(edge.curve.scaled(scale.factor)), pen.STITCH, "stitch lines") for edge in edges]


def cut_lines(piece: Piece, cut_piece: CutPiece, scale: Scale) -> list[Stroke]:
    """The cut line; where it lies along a fold it is a fold line instead."""
    points = cut_piece.cut_line
    folded = _along_fold(piece, points)
    if not folded.any():
        whole = Path.polyline(points * scale.factor, closed=True)
        return [Stroke(whole, pen.CUT, "cut lines")]
    first = int(np.flatnonzero(folded & ~np.roll(folded, 1))[0])
    ring = np.roll(points, -first, axis=0)
    ring = np.concatenate([ring, ring[:1]]) * scale.factor
    flags = np.roll(folded, -first)
    ends = np.flatnonzero(np.diff(flags.astype(int), prepend=1 - int(flags[0]), append=1 - int(flags[-1])))
    strokes = []
    for low, high in pairwise(ends.tolist()):
        run = Path.polyline(ring[low : high + 1])
        on_fold = bool(flags[low])
        strokes.append(Stroke(run, pen.FOLD if on_fold else pen.CUT, "grain and fold" if on_fold else "cut lines"))
    return strokes


def inside_lines(piece: Piece, scale: Scale) -> list[Stroke]:
    """Levels, guides, darts and inside folds."""
    return [
        Stroke(Path.curve(line.curve.scaled(scale.factor)), INSIDE_PENS[line.kind], "level lines")
        for line in piece.inside
    ]


def old_block_lines(old: tuple[Curve, ...], cut_piece: CutPiece, scale: Scale) -> list[Stroke]:
    """The block's old line, faint, as far as it stays near the piece."""
    near = within_reach(old, cut_piece.cut_line, scale.old_line_reach)
    return [Stroke(Path.curve(curve.scaled(scale.factor)), pen.OLD, "old block line") for curve in near]


def grain_line(piece: Piece, scale: Scale) -> list[Stroke | Fill]:
    """The grain with an arrow head at each end."""
    start, end = np.array(piece.grain.start) * scale.factor, np.array(piece.grain.end) * scale.factor
    along = end - start
    length = min(scale.arrow, 0.35 * float(np.linalg.norm(along)))
    heads = [arrow_head(start, -along, length), arrow_head(end, along, length)]
    return [
        Stroke(Path.polyline([start, end]), pen.GRAIN, "grain and fold"),
        *(Fill(head, 0.0, "grain and fold") for head in heads),
    ]


def fold_brackets(piece: Piece, scale: Scale) -> list[FoldBracket]:
    """One bracket for each fold edge, placed where the words have the most room between the level lines."""
    return [_bracket(edge.curve.scaled(scale.factor), piece, scale) for edge in piece.edges if edge.kind == "fold"]


def bracket_lines(bracket: FoldBracket, scale: Scale) -> list[Stroke | Fill]:
    """The bracket and the arrow heads with which it touches the fold."""
    tips = (bracket.path.points[0], bracket.path.points[-1])
    return [
        Stroke(bracket.path, pen.GRAIN, "grain and fold"),
        *(Fill(arrow_head(tip, -bracket.inwards, scale.arrow), 0.0, "grain and fold") for tip in tips),
    ]


def notch_ticks(piece: Piece, notches: Iterable[NotchMark], scale: Scale) -> list[Stroke]:
    """Each notch as a T: its stem from the stitch line to the edge of the allowance, its bar on the stitch line."""
    return [Stroke(path, pen.NOTCH, "notches") for notch in notches for path in _notch_paths(piece, notch, scale)]


def mark_signs(piece: Piece, scale: Scale) -> list[Stroke]:
    """Bust point, drill holes, buttons, eyelets; of a point's target only what lies inside the stitch lines.

    On a seam half of the target remains, and the notch there stays in sight.
    """
    signs = ((mark.kind, mark_sign(mark.kind, np.array(mark.at) * scale.factor, scale.radius)) for mark in marks(piece))
    inside = shapely.transform(piece.outline, lambda points: points * scale.factor)
    paths = (path if kind != "point" else _inside(path, inside) for kind, path in signs)
    return [Stroke(path, pen.SYMBOL, "notches") for path in paths]


def marks(piece: Piece) -> tuple[Mark, ...]:
    """The marks that are drawn: a point that a design has cut away is not."""
    return tuple(
        mark
        for mark in piece.marks
        if mark.kind != "point" or piece.outline.distance(shapely.Point(mark.at)) < TOLERANCES.straight
    )


def _inside(path: Path, area: shapely.Polygon) -> Path:
    """What lies inside an area, as polylines; the path itself where all of it does."""
    runs = shapely.MultiLineString([run.tolist() for run in path.polylines])
    if area.contains(runs):
        return path
    parts = [part for part in shapely.get_parts(shapely.intersection(runs, area)) if part.length > LEAST_RUN]
    return Path.together(Path.polyline(shapely.get_coordinates(part)) for part in parts)


def _along_fold(piece: Piece, points: Array) -> NDArray[np.bool_]:
    """Which stretches of the cut line (from point k to point k + 1) lie on the straight line of a fold, shape (m,)."""
    flags = np.zeros(len(points), bool)
    for edge in piece.edges:
        if edge.kind == "fold":
            along = unit(edge.curve.chord)
            off = np.abs((points - edge.curve.start) @ np.array([-along[1], along[0]])) < TOLERANCES.straight
            flags |= off & np.roll(off, -1)
    return flags


def _bracket(fold: Curve, piece: Piece, scale: Scale) -> FoldBracket:
    along = unit(fold.chord)
    inwards = np.array([-along[1], along[0]])
    middle, gap = _roomiest(fold, piece, scale)
    length = max(min(BRACKET_SHARE * fold.length, BRACKET_GAP_SHARE * gap), 3 * scale.arrow)
    low = min(max(middle - length / 2, scale.arrow), max(fold.length - length - scale.arrow, scale.arrow))
    tips = fold.start + np.outer([low, low + length], along)
    foot, head = tips + scale.inset * inwards
    return FoldBracket(foot, head, inwards, Path.polyline([tips[0], foot, head, tips[1]]))


def _roomiest(fold: Curve, piece: Piece, scale: Scale) -> tuple[float, float]:
    """(middle, width) of the widest gap between the level lines along a fold, mm from its start."""
    along = unit(fold.chord)
    ends = [end for line in piece.inside for end in (line.curve.start, line.curve.end)]
    arcs = [float((end * scale.factor - fold.start) @ along) for end in ends if _touches(fold, end * scale.factor)]
    stops = np.array(sorted({0.0, fold.length, *arcs}))
    widest = int(np.diff(stops).argmax())
    low, high = float(stops[widest]), float(stops[widest + 1])
    return (low + high) / 2, high - low


def _touches(fold: Curve, point: Array) -> bool:
    return fold.nearest(point)[1] < 2 * TOLERANCES.straight


def _notch_paths(piece: Piece, notch: NotchMark, scale: Scale) -> list[Path]:
    at = np.array(notch.at)
    stem = np.subtract(notch.to, notch.at)
    length = float(np.linalg.norm(stem))
    if length > TOLERANCES.same_point:
        outwards = stem / length
    else:
        curve = piece.edge(notch.edge).curve
        tangent = curve.tangent(curve.nearest(at)[0])
        outwards, length = np.array([tangent[1], -tangent[0]]), -NOTCH_INWARDS
    along = np.array([-outwards[1], outwards[0]])
    places = (np.arange(notch.count) - (notch.count - 1) / 2) * NOTCH_PAIR
    paths = []
    for place in places:
        foot = (at + place * along) * scale.factor
        bar = 0.5 * scale.bar * along
        paths += [
            Path.polyline([foot, foot + length * scale.factor * outwards]),
            Path.polyline([foot - bar, foot + bar]),
        ]
    return paths
