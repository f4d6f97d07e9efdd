import math
from dataclasses import replace

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from plain_cutting_pattern import shell
from shapely import LineString

from panelwright.finish.finishing import finish
from panelwright.finish.grain_line import fitted_grain
from panelwright.geometry.curve import Curve
from panelwright.pattern.edge import Edge
from panelwright.pattern.mark import Grain
from panelwright.pattern.piece import Piece


def rectangle(width: float, height: float, grain: Grain) -> Piece:
    corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)]
    ends = zip(corners, corners[1:] + corners[:1], strict=True)
    edges = tuple(Edge(f"P.{k}", "hem", "left", "finished", Curve.straight(a, b)) for k, (a, b) in enumerate(ends))
    return Piece("P", "Piece", edges, "one_side", "both", grain)


def assert_lays_well(piece: Piece, grain: Grain) -> None:
    """Inside, at least a third of the piece's extent along it, parallel to the piece's own grain (rule 9)."""
    line = LineString([grain.start, grain.end])
    assert piece.outline.contains(line)
    along = piece.grain.vector / piece.grain.length
    assert abs(float(np.cross([*along, 0], [*grain.vector, 0])[2])) < 1e-9 * grain.length
    assert grain.vector @ along > 0
    assert grain.length >= np.ptp(np.array(piece.outline.exterior.coords) @ along) / 3


@pytest.mark.parametrize("id", ["CF", "SF", "SB", "CB"])
def test_a_grain_line_that_fits_is_left_alone(id: str) -> None:
    piece = shell().piece(id)
    assert fitted_grain(piece) == piece.grain


@pytest.mark.parametrize(
    "grain",
    [
        Grain((50.0, -40.0), (50.0, 160.0)),
        Grain((50.0, 90.0), (50.0, 100.0)),
        Grain((0.0, 20.0), (0.0, 180.0)),
        Grain((160.0, 20.0), (160.0, 180.0)),
    ],
    ids=["cut off by an edge", "too short", "on an edge", "outside"],
)
def test_a_grain_line_that_does_not_fit_is_drawn_anew(grain: Grain) -> None:
    piece = rectangle(100.0, 200.0, grain)
    fitted = fitted_grain(piece)
    assert fitted != grain
    assert fitted.length == pytest.approx(0.7 * 200.0)
    assert_lays_well(piece, fitted)


@given(st.floats(-math.pi, math.pi), st.floats(40.0, 300.0), st.floats(40.0, 300.0))
@settings(max_examples=60)
def test_the_direction_never_changes_whatever_it_is(angle: float, width: float, height: float) -> None:
    piece = rectangle(width, height, Grain((0.0, 0.0), (math.cos(angle), math.sin(angle))))
    fitted = fitted_grain(piece)
    assert fitted.vector / fitted.length == pytest.approx([math.cos(angle), math.sin(angle)], abs=1e-9)
    assert shapely.distance(piece.outline.exterior, LineString([fitted.start, fitted.end])) > 0


def test_a_slanting_piece_without_room_in_its_middle_gets_its_line_at_the_side() -> None:
    """An L of which the middle half is 100 mm high and its left strip 600 mm: a third of that is 200."""
    corners = [(0.0, 0.0), (40.0, 0.0), (40.0, 500.0), (200.0, 500.0), (200.0, 600.0), (0.0, 600.0)]
    ends = zip(corners, corners[1:] + corners[:1], strict=True)
    edges = tuple(Edge(f"P.{k}", "hem", "left", "finished", Curve.straight(a, b)) for k, (a, b) in enumerate(ends))
    piece = Piece("P", "Piece", edges, "one_side", "both", Grain((120.0, 510.0), (120.0, 590.0)))
    fitted = fitted_grain(piece)
    assert_lays_well(piece, fitted)
    assert fitted.length == pytest.approx(0.7 * 600.0)


def test_a_neckline_that_cuts_the_grain_line_off_gets_a_new_one_in_the_cutting_pattern() -> None:
    pattern = shell()
    piece = pattern.piece("SF")
    long = replace(piece, grain=Grain(piece.grain.start, (piece.grain.start[0], 500.0)))
    cutting = finish(pattern.with_pieces(long))
    assert_lays_well(long, cutting.pattern.piece("SF").grain)
    assert cutting.pattern.piece("SB").grain == pattern.piece("SB").grain


def test_a_wide_ring_has_a_grain_line_that_is_long_enough() -> None:
    """Half a ring, as of a peplum: upright through it no line is much longer than it is broad."""
    radii = 195.0, 220.0
    inner, outer = ([(r * math.cos(t), r * math.sin(t)) for t in np.linspace(0.0, math.pi, 60)] for r in radii)
    ring = [*outer, *inner[::-1]]
    ends = zip(ring, ring[1:] + ring[:1], strict=True)
    edges = tuple(Edge(f"P.{k}", "hem", "left", "finished", Curve.straight(a, b)) for k, (a, b) in enumerate(ends))
    piece = Piece("P", "Peplum", edges, "whole", "both", Grain((0.0, 202.0), (0.0, 218.0)))
    assert_lays_well(piece, fitted_grain(piece))
