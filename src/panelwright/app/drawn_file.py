"""Reading and writing pieces read off paper, format `panelwright-drawn/1`.

    {"format": "panelwright-drawn/1", "unit": "cm", "scale": 4, "allowance": 0, "pieces": [
      {"id": "CF", "edges": [{"points": [[0, 0], [0, 9.5]], "kind": "fold", "line": "centre-front"}, ...],
       "levels": [{"id": "waist", "points": [[-2.1, 4], [0, 4]]}], "grain": [[-1, 1], [-1, 8]]}, ...],
     "seams": [{"line": "side", "a": {"piece": "SF", "edge": 4}, "b": {"piece": "SB", "edge": 2}}]}

docs/user-guide.md describes every field.
"""

import json
import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any, Final

import numpy as np

from panelwright.app.drawn_record import FORMAT, DrawnRecord, EdgeRefRecord, LineShape, PieceRecord, SeamRecord
from panelwright.app.garment_design import REF_PATTERN
from panelwright.app.record_text import record_in
from panelwright.errors import GeometryError, InputError
from panelwright.geometry.arrays import Array, cross
from panelwright.geometry.curve import Curve
from panelwright.intake.drawn_edge import DrawnEdge
from panelwright.intake.drawn_pattern import DrawnPattern
from panelwright.intake.drawn_piece import DrawnNotch, DrawnPiece
from panelwright.intake.drawn_seam import DrawnSeam
from panelwright.intake.edge_ref import EdgeRef
from panelwright.intake.points_curve import curve_through
from panelwright.intake.shared_edge import SharedEdge
from panelwright.json_text import read_text
from panelwright.pattern.mark import Grain, InsideLine, Mark, Point
from panelwright.quotation import quoted
from panelwright.saved_file import save

Document = dict[str, Any]

# Two typed corners that should be one may differ by this much, mm of the paper: they are read off a ruler.
MOST_GAP: Final = 1.0


def load_drawn(path: Path) -> DrawnPattern:
    """The pieces in a file.

    Raises:
        InputError: if it cannot be read, is larger than 1 MB, is not of this format, or holds what cannot be used; the
            message begins with the file's name and says which field.
    """
    text = read_text(path, "that is more than a table of points needs")
    try:
        return read_drawn(text)
    except InputError as error:
        raise InputError(f"{quoted(path.name)}: {error}", error.where) from error


def read_drawn(text: str) -> DrawnPattern:
    """The pieces in the text of a file. An outline that was typed clockwise is turned round, its seams with it.

    In words its edges keep the numbers of the file.

    Raises:
        InputError: if the text is not of this format; the message names the field or the piece.
    """
    record = record_in(text, DrawnRecord, FORMAT, "give the file of your own pieces")
    if not re.fullmatch(REF_PATTERN, record.ref):
        raise InputError(f"ref {quoted(record.ref)} cannot be used: write it like own-block-01, without a name", "ref")
    _refuse_unsaid_centimetre(record)
    unit = record.millimetres
    turned = {piece.id: _clockwise(piece, unit) for piece in record.pieces}
    counts = {piece.id: len(piece.edges) for piece in record.pieces}

    def ref(side: EdgeRefRecord) -> EdgeRef:
        number = side.edge - 1
        back = turned.get(side.piece, False) and side.edge <= counts[side.piece]
        return EdgeRef(side.piece, counts[side.piece] - 1 - number if back else number)

    sewn = [_sewn(seam, ref, record.unit_of_garment) for seam in record.seams]
    allowance = record.allowance
    return DrawnPattern(
        tuple(_piece(piece, unit, turned[piece.id]) for piece in record.pieces),
        float(record.scale),
        None if allowance is None else allowance * record.unit_of_garment,
        tuple(seam for seam in sewn if isinstance(seam, DrawnSeam)),
        record.allowance_centimetre or "garment",
        record.ref,
        record.title,
        tuple(seam for seam in sewn if isinstance(seam, SharedEdge)),
    )


def drawn_document(drawn: DrawnPattern) -> Document:
    """The pieces ready for JSON, in mm of the paper, every line as its cubics: reading gives the very same back.

    Outlines are written anticlockwise: edges of a piece that was typed clockwise are numbered anew.
    """
    document: Document = {
        "format": FORMAT,
        "ref": drawn.ref,
        "title": drawn.title,
        "unit": "mm",
        "scale": int(drawn.scale),
        "allowance": drawn.allowance,
        "allowance_centimetre": drawn.centimetre,
        "pieces": [_piece_document(piece) for piece in drawn.pieces],
        "seams": [
            *(
                {"line": seam.line, "a": _ref_document(seam.a), "b": _ref_document(seam.b), "ease": seam.ease}
                for seam in drawn.seams
            ),
            *(
                {
                    "line": shared.line,
                    "a": _ref_document(shared.whole),
                    "b": [_ref_document(part) for part in shared.parts],
                    "ease": shared.ease,
                }
                for shared in drawn.shared
            ),
        ],
    }
    return document


def save_drawn(drawn: DrawnPattern, path: Path) -> None:
    """Write the pieces to a file; it is there whole or not at all.

    Raises:
        OutputError: if it cannot be written.
    """
    save(path, (json.dumps(drawn_document(drawn), ensure_ascii=False, indent=1) + "\n").encode())


def _sewn(seam: SeamRecord, ref: Callable[[EdgeRefRecord], EdgeRef], unit: float) -> DrawnSeam | SharedEdge:
    a, b = (tuple(ref(edge) for edge in side) for side in (seam.a, seam.b))
    ease = seam.ease * unit
    match len(a), len(b):
        case 1, 1:
            return DrawnSeam(a[0], b[0], seam.line, ease)
        case 1, _:
            return SharedEdge(a[0], b, seam.line, ease)
        case _, 1:
            return SharedEdge(b[0], a, seam.line, -ease)
    raise InputError(
        f"seam {seam.line}: both sides are several edges; one side of a seam is one edge, so write one seam for each",
        "seams",
    )


def _refuse_unsaid_centimetre(record: DrawnRecord) -> None:
    if record.scale == 4 and record.allowance and record.allowance_centimetre is None:
        raise InputError(
            'allowance_centimetre is missing: at quarter scale say what a centimetre of the allowance was, "garment" '
            '(drawn 2.5 mm wide) or "paper" (drawn 10 mm wide)',
            "allowance_centimetre",
        )


def _clockwise(record: PieceRecord, unit: float) -> bool:
    """Whether the outline was typed clockwise."""
    ring = np.concatenate(
        [np.array(edge.points or edge.cubics or [], float).reshape(-1, 2)[:-1] for edge in record.edges]
    )
    return bool(cross(ring, np.roll(ring, -1, axis=0)).sum() * unit < 0)


def _piece(record: PieceRecord, unit: float, turned: bool) -> DrawnPiece:
    where = f"piece {record.id}"
    curves = _closed([_curve(edge, f"{where}, edge {k}", unit) for k, edge in enumerate(record.edges, 1)], where)
    pairs = zip(curves, record.edges, strict=True)
    edges = [DrawnEdge(curve, edge.kind, edge.line, edge.as_drawn) for curve, edge in pairs]
    if turned:
        edges = [replace(edge, curve=edge.curve.reversed(), drawn_number=k) for k, edge in enumerate(edges, 1)][::-1]
    levels = [InsideLine(line.id, "level", _curve(line, f"{where}, {line.id}", unit)) for line in record.levels]
    others = [InsideLine(line.id, line.kind, _curve(line, f"{where}, {line.id}", unit)) for line in record.inside]
    _refuse_twice(where, [line.id for line in (*levels, *others)])
    return DrawnPiece(
        record.id,
        record.label,
        tuple(edges),
        _grain(record, where, unit),
        (*levels, *others),
        tuple(DrawnNotch(_place(notch.at, unit), notch.count) for notch in record.notches),
        tuple(Mark(mark.id, mark.kind, _place(mark.at, unit)) for mark in record.marks),
        record.extent,
    )


def _curve(line: LineShape, where: str, unit: float) -> Curve:
    if (line.points is None) == (line.cubics is None):
        raise InputError(f"{where}: give points or cubics, one of the two", where)
    try:
        if line.points is not None:
            return curve_through(np.array(line.points) * unit)
        return Curve.from_points(np.array(line.cubics) * unit)
    except GeometryError as error:
        raise InputError(f"{where}: {error}", where) from error


def _closed(curves: list[Curve], where: str) -> list[Curve]:
    """The edges, each starting exactly where the one before it ends."""
    shut = []
    for k, (before, curve) in enumerate(zip(curves[-1:] + curves[:-1], curves, strict=True)):
        gap = float(np.linalg.norm(curve.start - before.end))
        if gap > MOST_GAP:
            raise InputError(
                f"{where}: edge {k + 1} starts {gap:.1f} mm of paper from where edge {(k or len(curves))} ends; give "
                "both the same corner",
                where,
            )
        shut.append(curve.ending_at(start=before.end))
    return shut


def _grain(record: PieceRecord, where: str, unit: float) -> Grain | None:
    if record.grain is None:
        return None
    try:
        return Grain(_place(record.grain[0], unit), _place(record.grain[1], unit))
    except GeometryError as error:
        raise InputError(f"{where}: {error}", where) from error


def _place(at: list[float], unit: float) -> Point:
    return float(at[0]) * unit, float(at[1]) * unit


def _refuse_twice(where: str, names: list[str]) -> None:
    for name in names:
        if names.count(name) > 1:
            raise InputError(f"{where}: two lines in it are called {quoted(name)}; give each its own name", where)


def _piece_document(piece: DrawnPiece) -> Document:
    return {
        "id": piece.id,
        "label": piece.label,
        "extent": piece.extent,
        "edges": [
            {"kind": edge.kind, "line": edge.line, "cubics": _points(edge.curve.points)}
            | ({"as_drawn": True} if edge.as_drawn else {})
            for edge in piece.edges
        ],
        "grain": None if piece.grain is None else [list(piece.grain.start), list(piece.grain.end)],
        "levels": [{"id": x.id, "cubics": _points(x.curve.points)} for x in piece.inside if x.kind == "level"],
        "inside": [
            {"id": x.id, "kind": x.kind, "cubics": _points(x.curve.points)} for x in piece.inside if x.kind != "level"
        ],
        "notches": [{"at": list(notch.at), "count": notch.count} for notch in piece.notches],
        "marks": [{"id": mark.id, "kind": mark.kind, "at": list(mark.at)} for mark in piece.marks],
    }


def _points(points: Array) -> list[list[float]]:
    rows: list[list[float]] = points.tolist()
    return rows


def _ref_document(ref: EdgeRef) -> Document:
    return {"piece": ref.piece, "edge": ref.number + 1}
