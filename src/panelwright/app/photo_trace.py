"""Pieces that were read from a photo, as somebody would have traced them over the table seen from above."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from panelwright.app.board_piece import Document
from panelwright.app.paper_reading import BETWEEN_SCALES
from panelwright.app.trace_record import MOST_NOTCHES
from panelwright.geometry.arrays import Array
from panelwright.intake.drawn_piece import DrawnPiece
from panelwright.intake.few_points import few_points
from panelwright.intake.photo import read_photo
from panelwright.intake.rectified import Rectified

# How far a traced line may leave the one that was read, mm of paper: far below what a photo shows.
OFF: Final = 0.1
RULE: Final = 100.0  # mm between the two places that say how large the picture is
DECIMALS: Final = 2  # of a pixel


@dataclass(frozen=True, eq=False, repr=False)
class PhotoTrace:
    """What `photo_trace` returns.

    Attributes:
        trace: `picture`, `measured`, `scale` and `pieces` of a `panelwright-trace/1` document over the picture.
        doubts: sentences on what a person should look at again.
        picture: the table from above, PNG.
    """

    trace: Document
    doubts: tuple[str, ...]
    picture: bytes


def photo_trace(photo: bytes, square: float | None = None) -> PhotoTrace:
    """The pieces in a photo with the reference sheet beside them, to be corrected by hand.

    Args:
        photo: a JPEG, PNG or WebP.
        square: what the square on the sheet measures, mm, where the printer was off.

    Raises:
        InputError: if the photo cannot be used, with what to do.
    """
    read = read_photo(photo, square)
    from panelwright.intake.flat_picture import flat_picture

    table = read.picture
    height, width = table.picture.shape[:2]
    across = RULE * table.per_mm
    left = (width - across) / 2
    trace: Document = {
        "picture": {"width": width, "height": height},
        "measured": {"kind": "length", "ends": [[left, height / 2], [left + across, height / 2]], "mm": RULE},
        "scale": 4 if _tallest(read.pieces) < BETWEEN_SCALES else 1,
        "pieces": [_piece(piece, table) for piece in read.pieces],
    }
    return PhotoTrace(trace, read.doubts, flat_picture(table))


def _tallest(pieces: tuple[DrawnPiece, ...]) -> float:
    return max(float(np.ptp(np.concatenate([e.curve.points for e in piece.edges]), axis=0).max()) for piece in pieces)


def _piece(piece: DrawnPiece, table: Rectified) -> Document:
    edges = [few_points(edge.curve, OFF) for edge in piece.edges]
    for edge, after in zip(edges, [*edges[1:], edges[0]], strict=True):
        edge[-1] = after[0]
    return {
        "id": piece.id,
        "label": piece.label,
        "closed": True,
        "edges": [
            {"points": _pixels(points, table), "kind": edge.kind, "line": ""}
            for points, edge in zip(edges, piece.edges, strict=True)
        ],
        "levels": [
            {"id": line.id, "points": _pixels(few_points(line.curve, OFF), table)}
            for line in piece.inside
            if line.kind == "level"
        ],
        "grain": None if piece.grain is None else _pixels(np.array([piece.grain.start, piece.grain.end]), table),
        "notches": [
            {"at": _pixels(np.array([notch.at]), table)[0], "count": notch.count}
            for notch in piece.notches[:MOST_NOTCHES]
        ],
    }


def _pixels(points: Array, table: Rectified) -> list[list[float]]:
    pixels: list[list[float]] = np.round(table.to_pixels(points), DECIMALS).tolist()
    return pixels
