"""A piece as the board draws it: paths as SVG has them, in mm, y up."""

from functools import lru_cache

from panelwright.app.board_places import cut_box
from panelwright.finish.cut_piece import CutPiece
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.pattern.mark import Point
from panelwright.pattern.piece import Piece

Document = dict[str, object]
DECIMALS = 3
CURVES_KEPT = 1024


def board_piece(piece: Piece, cut: CutPiece, place: Point, written: bool = True) -> Document:
    """The piece ready for JSON.

    Args:
        place: its shift on the board, mm.
        written: whether to say where the words on it stand.
    """
    told: Document = {
        "id": piece.id,
        "label": piece.label,
        "code": cut.code,
        "layer": piece.layer,
        "hand": piece.hand,
        "extent": piece.extent,
        "edges": [
            {"id": edge.id, "line": edge.line, "kind": edge.kind, "d": curve_path(edge.curve)} for edge in piece.edges
        ],
        "cut": outline_path(cut.cut_line),
        "inside": [{"id": line.id, "kind": line.kind, "d": curve_path(line.curve)} for line in piece.inside],
        "marks": [{"id": mark.id, "kind": mark.kind, "at": pair(mark.at)} for mark in piece.marks],
        "grain": [pair(piece.grain.start), pair(piece.grain.end)],
        "notches": [{"from": pair(notch.at), "to": pair(notch.to), "count": notch.count} for notch in cut.notches],
        "text": list(cut.text),
        "box": [round(value, DECIMALS) for value in cut_box(cut)],
        "place": pair(place),
    }
    return {**told, "text_at": pair(cut.text_at)} if written else told


@lru_cache(maxsize=CURVES_KEPT)
def curve_path(curve: Curve) -> str:
    """`M0 0C1 2 3 4 5 6…`: the curve's own cubics. While a line is dragged most curves stay as they are."""
    points = curve.points
    cubics = "C%.3f %.3f %.3f %.3f %.3f %.3f" * (len(points) // 3)
    return ("M%.3f %.3f" + cubics) % tuple(points.ravel().tolist())


def outline_path(points: Array) -> str:
    """A closed polyline, points of shape (n, 2)."""
    return ("M%.3f %.3f" + "L%.3f %.3f" * (len(points) - 1) + "Z") % tuple(points.ravel().tolist())


def pair(point: Point) -> list[float]:
    """A place as JSON has it, to a thousandth of a mm."""
    return [round(float(point[0]), DECIMALS), round(float(point[1]), DECIMALS)]
