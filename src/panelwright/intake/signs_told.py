"""What is drawn on a piece, told in a sentence: each thing with its place, so that it can be found on the paper."""

from collections.abc import Iterator

import numpy as np

from panelwright.intake.drawn_piece import DrawnPiece


def signs_told(piece: DrawnPiece) -> str:
    """`piece-2: grain line 84 mm long; level-1 31 mm above its lowest point; notch on edge 3, 24 mm along it.`

    Lengths are mm of the paper; edges are numbered from 1 as the table and its picture have them.
    """
    parts = [*_lines(piece), *_edges(piece)]
    return f"{piece.id}: {'; '.join(parts) or 'nothing is seen that is drawn on it'}"


def _lines(piece: DrawnPiece) -> Iterator[str]:
    low = float(np.concatenate([edge.curve.points for edge in piece.edges])[:, 1].min())
    if piece.grain is not None:
        yield f"grain line {piece.grain.length:.0f} mm long"
    for line in piece.inside:
        high = float(line.curve.point(line.curve.length / 2)[1]) - low
        what = line.id if line.kind == "level" else f"{line.id} (kept as a guide)"
        yield f"{what} {line.curve.length:.0f} mm long, {high:.0f} mm above its lowest point"


def _edges(piece: DrawnPiece) -> Iterator[str]:
    for number, edge in enumerate(piece.edges, 1):
        if edge.kind == "fold":
            yield f"edge {number} lies on the fold"
    for notch in piece.notches:
        found = [edge.curve.nearest(notch.at) for edge in piece.edges]
        k = int(np.argmin([gap for _, gap in found]))
        kind = "notch" if notch.count == 1 else f"notch of {notch.count} ticks"
        yield f"{kind} on edge {k + 1}, {found[k][0]:.0f} mm along it"
