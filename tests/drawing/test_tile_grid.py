import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from panelwright.drawing.paper import PAPERS
from panelwright.drawing.tile_grid import Tile, TileGrid, fewest_tiles
from panelwright.errors import InputError

GRIDS = st.builds(
    lambda name, overlap, width, height: TileGrid(
        PAPERS[name], overlap, width, height, (shapely.box(0, -height, width, 0),)
    ),
    st.sampled_from(sorted(PAPERS)),
    st.floats(0.0, 40.0),
    st.floats(10.0, 2500.0),
    st.floats(10.0, 2500.0),
)


@given(GRIDS)
def test_tiles_cover_the_plane_and_no_row_or_column_is_too_many(grid: TileGrid) -> None:
    plane = shapely.box(0, -grid.height, grid.width, 0)
    windows = [shapely.box(*grid.window(tile)) for tile in grid.all_tiles]
    assert shapely.union_all(windows).buffer(1e-6).contains(plane)
    assert grid.columns == 1 or grid.window(Tile(1, grid.columns - 1))[2] < grid.width
    assert grid.rows == 1 or -grid.window(Tile(grid.rows - 1, 1))[1] < grid.height


@given(GRIDS)
def test_neighbours_share_exactly_the_overlap_and_their_cores_meet(grid: TileGrid) -> None:
    for join in grid.joins:
        shared = shapely.box(*grid.window(join.first)).intersection(shapely.box(*grid.window(join.second)))
        left, bottom, right, top = shared.bounds
        assert (right - left if join.upright else top - bottom) == pytest.approx(grid.overlap, abs=1e-9)
        line = shapely.LineString([join.start, join.end])
        for tile in (join.first, join.second):
            assert shapely.box(*grid.core(tile)).exterior.buffer(1e-6).contains(line)


@given(GRIDS)
def test_cores_do_not_overlap(grid: TileGrid) -> None:
    cores = [shapely.box(*grid.core(tile)) for tile in grid.all_tiles]
    assert shapely.union_all(cores).area == pytest.approx(sum(core.area for core in cores), rel=1e-9)


def test_blank_tiles_are_left_out() -> None:
    areas = (shapely.box(0, -100, 100, 0), shapely.box(450, -800, 500, -700))
    grid = TileGrid(PAPERS["A4"], 10.0, 500.0, 800.0, areas)
    assert [tile.short for tile in grid.tiles] == ["A1", "C3"]
    assert grid.joins == ()


def test_a_tile_is_left_out_where_its_neighbour_shows_all_of_the_overlap() -> None:
    """A4 between margins is 190 mm wide: the join of two columns runs at 185 mm, the strip from 180 to 190."""
    narrow = TileGrid(PAPERS["A4"], 10.0, 200.0, 100.0, (shapely.box(0, -100, 184.9, 0),))
    assert [tile.short for tile in narrow.tiles] == ["A1"]
    wide = TileGrid(PAPERS["A4"], 10.0, 200.0, 100.0, (shapely.box(0, -100, 185.1, 0),))
    assert [tile.short for tile in wide.tiles] == ["A1", "A2"]


def test_joins_are_numbered_as_the_tiles_are_read() -> None:
    grid = TileGrid(PAPERS["A4"], 10.0, 370.0, 540.0, (shapely.box(0, -540, 370, 0),))
    assert [(j.number, j.first.short, j.second.short) for j in grid.joins] == [
        (1, "A1", "A2"),
        (2, "A1", "B1"),
        (3, "A2", "B2"),
        (4, "B1", "B2"),
    ]


@pytest.mark.parametrize(("row", "letter"), [(1, "A"), (26, "Z"), (27, "AA"), (52, "AZ"), (53, "BA")])
def test_rows_are_lettered(row: int, letter: str) -> None:
    assert Tile(row, 1).row_letter == letter


def test_fewest_tiles_wins() -> None:
    area = (shapely.box(0, -100, 100, 0),)
    one = TileGrid(PAPERS["A4"], 10.0, 100.0, 100.0, area)
    two = TileGrid(PAPERS["A4"], 10.0, 300.0, 100.0, (shapely.box(0, -100, 300, 0),))
    assert fewest_tiles([two, one]) is one


@pytest.mark.parametrize("overlap", [-0.1, 40.1])
def test_an_overlap_out_of_bounds_is_refused(overlap: float) -> None:
    with pytest.raises(InputError, match="overlap of"):
        TileGrid(PAPERS["A4"], overlap, 100.0, 100.0, ())


def test_paper_sizes() -> None:
    """ISO 216; Letter is 8.5 by 11 inches."""
    assert (PAPERS["A4"].width, PAPERS["A4"].height) == (210.0, 297.0)
    assert (PAPERS["A3"].width, PAPERS["A3"].height) == (297.0, 420.0)
    assert (PAPERS["Letter"].width, PAPERS["Letter"].height) == pytest.approx((8.5 * 25.4, 11 * 25.4))
