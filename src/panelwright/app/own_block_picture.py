"""What truing changed, as a picture: old lines dotted, new lines solid, and a list of the changes."""

from collections.abc import Sequence
from typing import Final

import numpy as np

from panelwright.drawing.drawing import Drawing, Lettering, Sign, Stroke
from panelwright.drawing.heading import Heading, heading_drawing
from panelwright.drawing.path import Path
from panelwright.drawing.pen import Pen
from panelwright.drawing.sheet import Laid, Sheet
from panelwright.drawing.typeface import typeface
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.intake.truing import Trued, TruingChange
from panelwright.pattern.pattern import Pattern

FACTOR: Final = 0.25
NEW: Final = Pen(0.35)
OLD: Final = Pen(0.35, (0.25, 0.9))
LEVEL: Final = Pen(0.12, (1.8, 1.2), 0.4)
MARGIN: Final = 10.0
GAP: Final = 14.0
NAME_SIZE: Final = 3.6
ROW: Final = 3.0
COLUMNS: Final = 2
LIST_SIZE: Final = 2.4
# Differences are drawn so many times as large, as far as the largest stays this long on paper, mm.
LARGER: Final = (20, 10, 5, 2, 1)
MOST_DRAWN: Final = 6.0
_SAMPLES: Final = 160


def truing_sheet(truing: Trued, heading: Heading, carried_out: bool, turned_down: Sequence[TruingChange] = ()) -> Sheet:
    """The pieces at quarter scale, old against new; small differences are enlarged, and the sheet says by how much.

    Args:
        truing: what was changed.
        heading: of the sheet.
        carried_out: whether the pattern was trued, or truing is only offered.
        turned_down: what truing would change of edges that stay as they were drawn.
    """
    larger = times_as_large(truing.changes)
    row, width, tall = _row(truing.pattern, {change.edge: change for change in truing.changes}, larger)
    width = max(width, 190.0)
    notes = [
        f"{'Trued' if carried_out else 'What truing would change'}: old line dotted, new line solid, quarter scale"
        + (f"; differences are drawn {larger} times as large" if larger > 1 else ""),
        f"{len(truing.changes)} edges changed, by at most so many mm at full scale:"
        if truing.changes
        else "Nothing had to be changed.",
    ]
    head = heading_drawing(heading, notes, "truing", MARGIN, 0.0, width)
    listed = _listed([*map(_told, truing.changes), *(f"{_told(each)}: left as drawn" for each in turned_down)], width)
    list_top = head.bounds[1] - 4.0
    low = min(listed.bounds[1] if listed.signs else 0.0, 0.0)
    height = MARGIN - list_top - low + 8.0 + tall + MARGIN
    laid = (
        Laid(head, (0.0, height - MARGIN)),
        Laid(listed, (MARGIN, height - MARGIN + list_top)),
        Laid(row, (MARGIN, MARGIN)),
    )
    return Sheet(width + 2 * MARGIN, height, "what truing changed", laid)


def times_as_large(changes: Sequence[TruingChange]) -> int:
    """How many times as large as they are differences are drawn, so that they are seen at quarter scale."""
    most = max((change.most for change in changes), default=1.0) * FACTOR
    return next((times for times in LARGER if most * times <= MOST_DRAWN), 1)


def _row(pattern: Pattern, changes: dict[str, TruingChange], larger: int) -> tuple[Drawing, float, float]:
    """(pieces side by side from centre back to centre front, their width, their height)."""
    drawn, x, tall = [], 0.0, 0.0
    for piece in reversed(pattern.pieces):
        signs: list[Sign] = [
            Stroke(Path.curve(line.curve).scaled(FACTOR), LEVEL, "level lines")
            for line in piece.inside
            if line.kind == "level"
        ]
        for edge in piece.edges:
            signs.append(Stroke(Path.curve(edge.curve).scaled(FACTOR), NEW, "stitch lines"))
            change = changes.get(edge.id)
            if change is not None:
                old = as_seen(change.new, change.old, larger) * FACTOR
                signs.append(Stroke(Path.polyline(old), OLD, "old block line"))
        left, bottom, right, top = Drawing(tuple(signs)).bounds
        name = Lettering(
            typeface(True).written(piece.id), ((left + right) / 2, bottom - 6.0), NAME_SIZE, anchor="middle", bold=True
        )
        drawn.append(Drawing((*signs, name)).moved((x - left, 9.0 - bottom)))
        x += right - left + GAP
        tall = max(tall, top - bottom + 9.0)
    return Drawing.together(drawn), x - GAP, tall


def as_seen(shown: Curve, other: Curve, larger: int) -> Array:
    """The other line as far from the one that is shown as it is, times `larger`, shape (n, 2), mm."""
    near = _places(shown, np.linspace(0.0, 1.0, _SAMPLES))
    foot = np.array([other.point(other.nearest(place)[0]) for place in near])
    foot[0], foot[-1] = other.start, other.end
    exaggerated: Array = near + larger * (foot - near)
    return exaggerated


def _places(curve: Curve, shares: Array) -> Array:
    return np.array([curve.point(share * curve.length) for share in shares])


def _told(change: TruingChange) -> str:
    """`SF: side, 1.5 mm`."""
    return f"{change.piece}: {change.edge.removeprefix(change.piece + '.').replace('-', ' ')}, {change.most:.1f} mm"


def _listed(rows: Sequence[str], width: float) -> Drawing:
    """The rows in columns."""
    signs = []
    tall = -(-len(rows) // COLUMNS)
    for k, words in enumerate(rows):
        column, line = divmod(k, max(tall, 1))
        at = (column * width / COLUMNS, -(line + 1) * ROW * 1.2)
        signs.append(Lettering(typeface().written(words), at, LIST_SIZE, "sheet"))
    return Drawing(tuple(signs))
