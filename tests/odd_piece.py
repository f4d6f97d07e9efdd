"""A piece of any polygon, with as much text on it as a finished garment carries."""

from collections.abc import Sequence

import numpy as np
import shapely
from drawn_garment import TEXT

from panelwright.drawing.piece_drawing import PieceDrawing, piece_drawing
from panelwright.drawing.scale import Scale
from panelwright.finish.cut_piece import Cut, CutPiece
from panelwright.geometry.curve import Curve
from panelwright.pattern.edge import Edge
from panelwright.pattern.mark import Grain
from panelwright.pattern.piece import Piece


def odd_piece(name: str, corners: Sequence[tuple[float, float]], scale: Scale) -> PieceDrawing:
    """The polygon drawn at a scale, 10 mm allowance all round."""
    ends = [*corners[1:], corners[0]]
    edges = tuple(
        Edge(f"{name}.{k}", f"line-{k}", "left", "seam", Curve.straight(a, b))
        for k, (a, b) in enumerate(zip(corners, ends, strict=True))
    )
    x, y = np.mean(corners, axis=0)
    reach = 0.2 * np.ptp(corners, axis=0)[1]
    grain = Grain((x, y - reach), (x, y + reach))
    piece = Piece.closed(edges, id=name, label=name.capitalize(), extent="whole", hand="both", grain=grain)
    line = piece.outline.buffer(10.0, join_style="mitre").exterior.coords[:-1]
    cut = CutPiece(
        name,
        {edge.id: 10.0 for edge in edges},
        {edge.id: "mitre" for edge in edges},
        np.array(shapely.LinearRing(line).coords)[:-1],
        (),
        (Cut("outer", "single", 1),),
        (),
        (name.capitalize(), "Cut 1 – outer", *TEXT),
        (float(x), float(y)),
    )
    return piece_drawing(piece, cut, scale)
