"""A style line's stretches on a piece, which may be of one panel or of several that were joined."""

from dataclasses import dataclass, replace

import numpy as np

from panelwright.body.worded_length import length_words
from panelwright.design.style_line import LinePlace, PanelCurve, StyleLine
from panelwright.errors import DesignError
from panelwright.geometry.curve import Curve
from panelwright.pattern.material import Region
from panelwright.pattern.piece import Piece
from panelwright.pattern.spoken_piece import spoken_piece

SLASHED = 300.0  # mm from the corner of a panel, at which a turn of it is judged
SAME_CROSSING = 1.0  # mm between a style line's end and the edge that it is to meet


@dataclass(frozen=True)
class LineStretch:
    """One panel's part of the line as it lies on a piece, from right to left on paper.

    Attributes:
        along: whether that is the sense of the line.
        places: on the upright lines where it starts and ends.
        pointed: at its start and its end.
        shares: of the whole line, at its joints in the order of `curves`.
    """

    curves: tuple[Curve, ...]
    along: bool
    places: tuple[LinePlace, LinePlace]
    pointed: tuple[bool, bool]
    shares: tuple[float, ...]


def line_stretches(piece: Piece, style: StyleLine) -> list[LineStretch]:
    """The line's parts on a piece, in order from right to left on paper and joined end to end."""
    found: list[LineStretch] = []
    for region in piece.material:
        for part in style.panels:
            if part.panel == region.panel and part.half in ("both", "left" if region.placement.mirrored else "right"):
                curves = tuple(curve.placed(region.placement) for curve in part.curves)
                stretch = _stretch(part, curves, region.placement.mirrored and part.half == "both")
                if any(other.panel == region.panel and _turned(other, region) for other in piece.material):
                    raise DesignError(
                        f"{spoken_piece(piece)} was slashed and no longer lies as it does on the block; draw this edge "
                        "before the step that swings a dart in it or spreads it",
                        piece.id,
                    )
                # A panel that was split and joined again has two regions that lie as one.
                if all(np.linalg.norm(stretch.curves[0].start - s.curves[0].start) > SAME_CROSSING for s in found):
                    found.append(stretch)
    ordered = found[:1]
    for other in found[1:]:
        follows = _gap(ordered[-1], other) <= _gap(other, ordered[0])
        ordered = [*ordered, other] if follows else [other, *ordered]
    return _joined(piece, ordered)


def _turned(one: Region, other: Region) -> bool:
    """Whether two regions of one panel, on one side of the wearer, lie at another angle or place to each other."""
    a, b = one.placement, other.placement
    moved = max(abs(a.angle - b.angle) * SLASHED, abs(a.x - b.x), abs(a.y - b.y))
    return a.mirrored == b.mirrored and moved > SAME_CROSSING


def _stretch(part: PanelCurve, curves: tuple[Curve, ...], backwards: bool) -> LineStretch:
    if not backwards:
        return LineStretch(curves, True, (part.entry, part.exit), part.pointed, part.shares)
    turned = tuple(curve.reversed() for curve in reversed(curves))
    return LineStretch(turned, False, (part.exit, part.entry), part.pointed[::-1], part.shares[::-1])


def _gap(before: LineStretch, after: LineStretch) -> float:
    return float(np.linalg.norm(after.curves[0].start - before.curves[-1].end))


def _joined(piece: Piece, stretches: list[LineStretch]) -> list[LineStretch]:
    """Stretches of a piece that was joined from several panels, each starting exactly where the last ends."""
    for k in range(1, len(stretches)):
        gap = _gap(stretches[k - 1], stretches[k])
        if gap > SAME_CROSSING:
            raise DesignError(
                f"the line does not run on in {spoken_piece(piece)}, which is joined: its panels lie "
                f"{length_words(gap)} "
                "apart there; draw this edge before joining",
                piece.id,
            )
        first, *rest = stretches[k].curves
        first = first.ending_at(start=stretches[k - 1].curves[-1].end)
        stretches[k] = replace(stretches[k], curves=(first, *rest))
    return stretches
