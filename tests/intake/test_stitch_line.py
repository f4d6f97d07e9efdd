"""Stitch lines inside drawn cut lines, against closed forms and against the program's own cut line, undone."""

import numpy as np
import pytest
from plain_block import plain_block

from panelwright.errors import InputError
from panelwright.finish.finishing import finish
from panelwright.finish.options import Finish
from panelwright.geometry.curve import Curve
from panelwright.intake.drawn_edge import DrawnEdge
from panelwright.intake.drawn_pattern import DrawnPattern
from panelwright.intake.drawn_piece import DrawnNotch, DrawnPiece
from panelwright.intake.points_curve import curve_through
from panelwright.intake.stitch_line import stitch_lines
from panelwright.pattern.mark import Grain, InsideLine


def box(width: float, height: float, fold: int | None = None) -> DrawnPiece:
    corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)]
    edges = tuple(
        DrawnEdge(Curve.straight(a, b), "fold" if k == fold else None)
        for k, (a, b) in enumerate(zip(corners, corners[1:] + corners[:1], strict=True))
    )
    return DrawnPiece("P", "", edges, Grain((5.0, 5.0), (5.0, 20.0)), (), (DrawnNotch((width / 2, 0.0)),))


def bounds(piece: DrawnPiece) -> list[float]:
    corners = np.array([edge.curve.start for edge in piece.edges])
    return [*corners.min(axis=0), *corners.max(axis=0)]


@pytest.mark.parametrize(
    ("scale", "centimetre", "expected"),
    [
        (1.0, "garment", [10, 10, 50, 70]),
        (1.0, "paper", [10, 10, 50, 70]),
        (4.0, "garment", [10, 10, 230, 310]),
        (4.0, "paper", [40, 40, 200, 280]),
    ],
)
def test_the_shape_is_multiplied_and_the_allowance_is_what_a_centimetre_meant(
    scale: float, centimetre: str, expected: list[float]
) -> None:
    """60 × 80 mm of paper: at quarter scale 240 × 320 mm, less 10 mm of cloth, or less 10 mm of paper, all round."""
    drawn = DrawnPattern((box(60, 80),), scale, 10.0, (), centimetre)  # type: ignore[arg-type]
    stitched = stitch_lines(drawn)
    assert bounds(stitched.pieces[0]) == pytest.approx(expected, abs=1e-6)
    assert stitched.allowance == 0.0
    assert stitched.pieces[0].notches[0].at == pytest.approx((30 * scale, expected[1]), abs=1e-6)
    assert stitched.pieces[0].grain.start == (5 * scale, 5 * scale)  # type: ignore[union-attr]


def test_a_fold_has_no_allowance() -> None:
    stitched = stitch_lines(DrawnPattern((box(60, 80, fold=1),), 1.0, 10.0))
    assert bounds(stitched.pieces[0]) == pytest.approx([10, 10, 60, 70], abs=1e-6)


def test_inside_a_half_circle_lies_a_smaller_one() -> None:
    angles = np.linspace(0, np.pi, 40)
    arc = curve_through(100 * np.column_stack([np.cos(angles), np.sin(angles)]))
    base = Curve.straight(arc.end, arc.start)
    piece = stitch_lines(DrawnPattern((DrawnPiece("P", "", (DrawnEdge(arc), DrawnEdge(base))),), 1.0, 10.0)).pieces[0]
    radii = np.linalg.norm(piece.edges[0].curve.polyline(), axis=1)
    assert np.abs(radii - 90).max() < 0.03
    assert piece.edges[1].curve.length == pytest.approx(2 * np.sqrt(90**2 - 10**2), abs=0.05)


def test_an_allowance_put_on_is_taken_off_again() -> None:
    """The cut line is the program's own, made outwards of a curved block by other code; its runs are drawn edges."""
    pattern = plain_block()
    mitred = {"turned_edge": "mitre", "seam_end": "mitre", "other": "mitre"}
    cutting = finish(pattern, Finish(allowance=10.0, kinds={"finished": 10.0}, corners=mitred))  # type: ignore[arg-type]
    for piece, cut in cutting.pieces:
        line, edges = cut.cut_line, []
        runs = {span.edge: span for span in cut.spans}
        for edge in piece.edges:
            span = runs[edge.id]
            count = (span.last - span.first) % len(line) + 1
            points = line[[(span.first + k) % len(line) for k in range(count)]]
            edges.append((points[:: max(1, len(points) // 40)] if len(points) > 60 else points, points[-1], edge.kind))
        drawn = []
        for k, (points, end, kind) in enumerate(edges):
            table = np.vstack([points[:-1] if len(points) > 2 else points[:1], end])
            table = table[np.concatenate([[True], np.linalg.norm(np.diff(table, axis=0), axis=1) > 1e-6])]
            table[0] = edges[k - 1][1]
            drawn.append(DrawnEdge(curve_through(table), kind))
        found = stitch_lines(DrawnPattern((DrawnPiece(piece.id, "", tuple(drawn)),), 1.0, 10.0)).pieces[0]
        for edge, back in zip(piece.edges, found.edges, strict=True):
            gaps = [edge.curve.nearest(place)[1] for place in back.curve.polyline()]
            assert max(gaps) < 0.15, (piece.id, edge.id)
            assert back.curve.length == pytest.approx(edge.curve.length, abs=0.2)


def test_lines_inside_only_grow() -> None:
    piece = box(60, 80)
    waist = InsideLine("waist", "level", Curve.straight((0, 40), (60, 40)))
    drawn = DrawnPattern((DrawnPiece("P", "", piece.edges, inside=(waist,)),), 4.0, 10.0)
    assert stitch_lines(drawn).pieces[0].inside[0].curve.length == pytest.approx(240)


def test_an_edge_that_its_allowance_eats_up_is_refused() -> None:
    with pytest.raises(InputError, match=r"piece P: edge 1 is too short for an allowance of 1 cm"):
        stitch_lines(DrawnPattern((box(15, 80),), 1.0, 10.0))
