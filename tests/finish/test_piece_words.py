from dataclasses import replace

import pytest
from plain_cutting_pattern import shell
from shapely import LineString, Point

from panelwright.body.units import Unit
from panelwright.finish.finishing import finish
from panelwright.finish.options import Cloths, Finish
from panelwright.finish.piece_words import ESTIMATED, text_place


def words(piece: str, options: Finish | None = None, estimated: tuple[str, ...] = ()) -> tuple[str, ...]:
    pattern = replace(shell(), design="Lantern bodice", wearer="w-07", estimated=estimated)
    return finish(pattern, options or Finish()).cut[piece].text


def test_a_piece_says_what_it_is_for_whom_and_how_it_is_cut() -> None:
    assert words("CF") == (
        "Centre front (CF)",
        "Lantern bodice, wearer w-07",
        "Cut 1 on fold – outer",
        "Seam allowance 1.0 cm",
        "CF fold",
        "Grain along the fold",
    )


def test_a_piece_with_an_opening_and_estimates_says_so() -> None:
    found = words("CB", Finish(lines={"hem": 25, "centre-back": 15}), ("bust_point_span",))
    assert found[3:] == (
        "Seam allowance 1.0 cm, hem 2.5 cm, CB 1.5 cm",
        "CB opening",
        "Grain parallel to the selvage",
        ESTIMATED,
    )


def test_a_facing_and_interfacing_name_their_layer_and_the_piece_they_come_from() -> None:
    options = Finish(facing="full", interfacing=True, cloths=Cloths(facing="cotton", interfacing="canvas"))
    assert words("SF/facing", options)[0] == "Side front facing (SF)"
    assert words("SF/facing", options)[2] == "Cut 1 pair – cotton"
    assert words("SF/interfacing", options)[2:4] == ("Cut 1 pair – canvas", "No seam allowance")


def test_lengths_are_written_in_the_makers_unit() -> None:
    assert "Seam allowance 1/2 in, hem 1 in" in words("SF", Finish(allowance=12.7, lines={"hem": 25.4}, unit=Unit.INCH))


def test_no_name_of_a_wearer_reaches_a_piece() -> None:
    """Only the neutral reference is known here."""
    assert all("w-07" in line or "wearer" not in line for line in words("SF"))


@pytest.mark.parametrize("id", ["CF", "SF", "SB", "CB"])
def test_text_stands_inside_its_piece_clear_of_edges_and_of_the_grain_line(id: str) -> None:
    piece = shell().piece(id)
    at = Point(text_place(tuple(edge.curve for edge in piece.edges), piece.grain))
    assert piece.outline.contains(at)
    assert piece.outline.exterior.distance(at) > 15.0
    assert LineString([piece.grain.start, piece.grain.end]).distance(at) > 15.0


def test_the_room_for_text_is_not_beaten_by_any_place_on_a_grid() -> None:
    """The place has at least 0.95 of the best clearance, wide blocks preferred, that a 2 mm grid finds."""
    import numpy as np
    import shapely

    piece = shell().piece("SB")
    narrow = lambda shape: shapely.transform(shape, lambda p: p / (1.6, 1.0))  # noqa: E731
    walls = shapely.union_all(
        [piece.outline.exterior, LineString([piece.grain.start, piece.grain.end]).buffer(4.0, cap_style="flat")]
    )
    left, low, right, high = piece.outline.bounds
    grid = np.stack(np.meshgrid(np.arange(left, right, 2.0), np.arange(low, high, 2.0)), axis=-1).reshape(-1, 2)
    grid = grid[shapely.contains_xy(piece.outline, grid)]
    best = shapely.distance(narrow(walls), narrow(shapely.points(grid))).max()
    mine = Point(text_place(tuple(edge.curve for edge in piece.edges), piece.grain))
    assert narrow(walls).distance(narrow(mine)) > 0.95 * best
