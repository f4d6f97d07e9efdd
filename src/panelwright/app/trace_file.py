"""Reading a traced block, and the table of points that it becomes, format `panelwright-drawn/1`."""

import json
import re
from typing import Any, Final

import numpy as np

from panelwright.app.drawn_file import read_drawn
from panelwright.app.drawn_record import FORMAT as DRAWN_FORMAT
from panelwright.app.drawn_record import EdgeRefRecord
from panelwright.app.garment_design import REF_PATTERN
from panelwright.app.record_text import record_in
from panelwright.app.trace_record import FORMAT, KnownLength, KnownSheet, TracedEdge, TracedPiece, TraceRecord
from panelwright.errors import InputError
from panelwright.geometry.arrays import cross
from panelwright.intake.drawn_pattern import DrawnPattern
from panelwright.intake.picture_scale import PictureScale
from panelwright.pattern.mark import Point
from panelwright.quotation import quoted

Document = dict[str, Any]
# Places in the table are rounded to so many decimals of a mm of paper: far below what a hand can trace.
DECIMALS: Final = 4


def read_trace(text: str) -> TraceRecord:
    """The traced block in a text; it need not be finished.

    Raises:
        InputError: if the text is not of this format; the message names the field.
    """
    record = record_in(text, TraceRecord, FORMAT, "give a block that was traced on the board")
    if not re.fullmatch(REF_PATTERN, record.ref):
        raise InputError(f"ref {quoted(record.ref)} cannot be used: write it like own-01, without a name", "ref")
    return record


def traced_table(trace: TraceRecord) -> Document:
    """The pieces as `panelwright own` reads them, in mm of the paper; edges are numbered as they were traced.

    Raises:
        InputError: if something is still missing, with what to do next.
    """
    scale = picture_scale(trace)
    if not trace.pieces:
        raise InputError("no piece is traced yet: trace the edges of one, round to its first point", "pieces")
    return {
        "format": DRAWN_FORMAT,
        "ref": trace.ref,
        "title": trace.title,
        "unit": "mm",
        "scale": trace.scale,
        "allowance": trace.allowance_mm,
        "allowance_centimetre": trace.allowance_centimetre,
        "pieces": [_piece(piece, scale) for piece in trace.pieces],
        "seams": [
            {"line": seam.line, "a": _side(seam.a), "b": _side(seam.b), "ease": seam.ease_mm} for seam in trace.seams
        ],
    }


def traced_pattern(trace: TraceRecord) -> DrawnPattern:
    """The pieces as they were traced; raises as `traced_table` does."""
    return read_drawn(json.dumps(traced_table(trace)))


def picture_scale(trace: TraceRecord) -> PictureScale:
    """How large the paper is in the picture.

    Raises:
        InputError: if nobody has said, or what was pressed gives no scale.
    """
    match trace.measured:
        case KnownLength(ends=(a, b), mm=length):
            return PictureScale.of_length(_spot(a), _spot(b), length)
        case KnownSheet(corners=corners, width_mm=width, height_mm=height):
            return PictureScale.of_sheet([_spot(corner) for corner in corners], width, height)
        case _:
            raise InputError(
                "the scale of the picture is not set yet: press two places a known length apart", "measured"
            )


def is_clockwise(piece: TracedPiece) -> bool:
    """Whether a piece was traced clockwise, as it is looked at; the table's reader turns it round."""
    ring = np.array([point for edge in piece.edges for point in edge.points[:-1]], float).reshape(-1, 2)
    return bool(cross(ring, np.roll(ring, -1, axis=0)).sum() > 0)  # y runs down


def _piece(piece: TracedPiece, scale: PictureScale) -> Document:
    if not piece.closed:
        raise InputError(f"{piece.id} is still open: trace it on to its first point, or take it away", "pieces")
    for number, edge in enumerate(piece.edges, 1):
        if len(edge.points) < 2:
            raise InputError(f"{piece.id}, edge {number} has a single point: trace the piece anew", "pieces")
    return {
        "id": piece.id,
        "label": piece.label,
        "extent": "whole" if piece.whole else None,
        "edges": [_edge(edge, scale) for edge in piece.edges],
        "levels": [{"id": level.id, "points": _places(level.points, scale)} for level in piece.levels],
        "grain": None if piece.grain is None else _places(piece.grain, scale),
        "notches": [{"at": _places([notch.at], scale)[0], "count": notch.count} for notch in piece.notches],
        "marks": [{"id": mark.id, "at": _places([mark.at], scale)[0]} for mark in piece.marks],
    }


def _side(edges: list[EdgeRefRecord]) -> Document | list[Document]:
    """One edge as it is written alone, several as a list."""
    told = [edge.model_dump() for edge in edges]
    return told[0] if len(told) == 1 else told


def _edge(edge: TracedEdge, scale: PictureScale) -> Document:
    return {"points": _places(edge.points, scale), "kind": edge.kind, "line": edge.line, "as_drawn": edge.as_drawn}


def _places(spots: list[list[float]], scale: PictureScale) -> list[list[float]]:
    places: list[list[float]] = np.round(scale.to_paper([_spot(spot) for spot in spots]), DECIMALS).tolist()
    return places


def _spot(spot: list[float]) -> Point:
    return spot[0], spot[1]
