from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from plain_cutting_pattern import shell
from shapely import LineString, Point

from panelwright.body.units import Unit, parse_length
from panelwright.finish.finishing import finish
from panelwright.finish.options import Cloths, Finish
from panelwright.finish.piece_words import ESTIMATED, allowance_words, text_place, width_words


def words(piece: str, options: Finish | None = None, estimated: tuple[str, ...] = ()) -> tuple[str, ...]:
    pattern = replace(shell(), design="Lantern bodice", wearer="w-07", estimated=estimated)
    return finish(pattern, options or Finish()).cut[piece].text


def test_a_piece_says_what_it_is_for_whom_and_how_it_is_cut() -> None:
    assert words("CF") == (
        "Centre front (CF)",
        "Lantern bodice, wearer w-07",
        "Cut 1 on fold in outer cloth",
        "Seam allowance 1.0 cm",
        "CF fold",
        "Grain along the fold",
    )


def test_a_piece_bears_the_title_of_its_garment_and_not_its_reference() -> None:
    pattern = replace(shell(), design="firefly-01", title="Firefly bodice for the lantern gate", wearer="w-07")
    assert finish(pattern, Finish()).cut["CF"].text[1] == "Firefly bodice for the lantern gate, wearer w-07"


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
    assert words("SF/facing", options)[2] == "Cut 1 pair in cotton"
    assert words("SF/interfacing", options)[2:4] == ("Cut 1 pair in canvas", "No seam allowance")


def test_lengths_are_written_in_the_makers_unit() -> None:
    assert "Seam allowance 1/2 in, hem 1 in" in words("SF", Finish(allowance=12.7, lines={"hem": 25.4}, unit=Unit.INCH))


@pytest.mark.parametrize(
    ("width", "inches", "centimetres"),
    [
        (15.0, "15 mm (about 9/16 in)", "1.5 cm"),
        (10.0, "10 mm (about 3/8 in)", "1.0 cm"),
        (20.0, "20 mm (about 13/16 in)", "2.0 cm"),
        (30.0, "1 3/16 in", "3.0 cm"),
        (15.875, "5/8 in", "1.6 cm"),
        (12.7, "1/2 in", "1.27 cm"),
        (25.4, "1 in", "2.54 cm"),
        (33.3375, "1 5/16 in", "3.33 cm"),
        (25.4 + 0.19, "1 in", "2.56 cm"),
        (25.4 - 0.21, "25.2 mm (about 1 in)", "2.5 cm"),
        (0.0, "none", "none"),
    ],
)
def test_an_allowance_is_written_as_it_is_drawn(width: float, inches: str, centimetres: str) -> None:
    """An inch is 25.4 mm (exact by definition)."""
    assert width_words(width, Unit.INCH) == inches
    assert width_words(width, Unit.CM) == centimetres


@given(st.floats(0.05, 100.0), st.sampled_from(Unit))
def test_no_allowance_is_written_more_than_a_fifth_of_a_millimetre_off(width: float, unit: Unit) -> None:
    assert parse_length(width_words(width, unit).partition(" (")[0]) == pytest.approx(width, abs=0.2 + 1e-9)


@pytest.mark.parametrize("unit", Unit)
def test_the_line_about_allowances_can_be_worded_anew_from_a_cut_piece(unit: Unit) -> None:
    """Reprinting in another unit needs only what a cutting pattern holds."""
    options = Finish(allowance=15, lines={"hem": 25, "centre-back": 20}, interfacing=True)
    made, wanted = finish(shell(), options), finish(shell(), replace(options, unit=unit))
    for piece, cut in made.pieces:
        assert allowance_words(piece, cut.allowances, made.pattern, unit) in wanted.cut[piece.id].text


def test_an_edge_without_allowance_among_others_says_none() -> None:
    assert "Seam allowance 1.0 cm, hem none" in words("SF", Finish(lines={"hem": 0}))


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
