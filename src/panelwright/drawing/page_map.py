"""The page map: a small picture of all tiles with the pieces on them, by number."""

from collections.abc import Sequence
from typing import Final

import numpy as np
import shapely

from panelwright.drawing.drawing import Drawing, Fill, Lettering, Sign, Stroke
from panelwright.drawing.free_space import FreeSpace
from panelwright.drawing.path import Path
from panelwright.drawing.pen import HAIRLINE, Pen
from panelwright.drawing.tile_grid import Tile, TileGrid
from panelwright.pattern.mark import Point

OUTLINE: Final = Pen(0.3, (), 0.15)
LEFT_OUT: Final = Pen(0.12, (0.6, 1.0), 0.45)
PAPER_SHADE: Final = 0.95
LETTERS: Final = 2.6
# A piece's number is tried at these sizes, mm.
NUMBERS: Final = (3.0, 2.4, 1.9)


def page_map(grid: TileGrid, pieces: Sequence[shapely.Polygon], at: Point, width: float, height: float) -> Drawing:
    """Tiles and pieces, numbered from 1, hanging from `at` (upper left), as large as `width` by `height` mm allows.

    Args:
        grid: the tiles.
        pieces: area of each on the plane.
        at: upper left corner on the page.
        width: room for the map, mm.
        height: room for the map, mm.
    """
    across = grid.window(Tile(1, grid.columns))[2]
    down = -grid.window(Tile(grid.rows, 1))[1]
    factor = min(width / across, height / down)
    outlines = _outlines(pieces, factor)
    names = [_tile_name(grid, tile, [outline.path for outline in outlines], factor) for tile in grid.tiles]
    signs = [*_tiles(grid, factor), *outlines, *names, *_numbers(grid, pieces, names, factor)]
    return Drawing(tuple(signs)).moved(at)


def _tiles(grid: TileGrid, factor: float) -> list[Sign]:
    printed = set(grid.tiles)
    signs: list[Sign] = []
    for tile in grid.all_tiles:
        box = _core(grid, tile, factor)
        if tile in printed:
            signs += [Fill(box, PAPER_SHADE, "sheet"), Stroke(box, HAIRLINE, "sheet")]
        else:
            signs.append(Stroke(box, LEFT_OUT, "sheet"))
    return signs


def _core(grid: TileGrid, tile: Tile, factor: float) -> Path:
    left, bottom, right, top = (factor * value for value in grid.core(tile))
    return Path.box(left, bottom, right - left, top - bottom)


def _outlines(pieces: Sequence[shapely.Polygon], factor: float) -> list[Stroke]:
    rings = (np.array(area.exterior.coords)[:-1] * factor for area in pieces)
    return [Stroke(Path.polyline(ring, closed=True), OUTLINE, "sheet") for ring in rings]


def _tile_name(grid: TileGrid, tile: Tile, outlines: Sequence[Path], factor: float) -> Lettering:
    """The tile's short name, as near to its upper left corner as it is clear of outlines."""
    left, bottom, right, top = (factor * value for value in grid.core(tile))
    first = Lettering(tile.short, (left + 0.7, top - 0.7 - 0.75 * LETTERS), LETTERS, "sheet", bold=True)
    steps = np.stack(np.meshgrid(np.arange(0.0, right - left, 0.7), np.arange(0.0, top - bottom, 0.7)), axis=-1)
    shifts = steps.reshape(-1, 2) * np.array([1.0, -1.0])
    shifts = shifts[np.argsort(np.hypot(*shifts.T), kind="stable")]
    index = FreeSpace(shapely.box(left, bottom, right, top), outlines, 0.3).first_free(
        first.box[None] + shifts[:, None]
    )
    return first if index is None else first.moved(shifts[index].tolist())


def _numbers(
    grid: TileGrid, pieces: Sequence[shapely.Polygon], names: Sequence[Lettering], factor: float
) -> list[Lettering]:
    """Each piece's number inside it, clear of the tiles' names and, where there is such a place, of their borders."""
    borders = [_core(grid, tile, factor) for tile in grid.all_tiles]
    found: list[Lettering] = []
    for number, area in enumerate(pieces, 1):
        outline = shapely.affinity.scale(area, factor, factor, origin=(0, 0))
        tries = (_number(number, size, outline, lines, names) for lines in (borders, []) for size in NUMBERS)
        first = next((lettering for lettering in tries if lettering is not None), None)
        if first is not None:
            found.append(first)
    return found


def _number(
    number: int, size: float, outline: shapely.Polygon, lines: Sequence[Path], names: Sequence[Lettering]
) -> Lettering | None:
    """The number as near to the middle of an outline as it is free; None if it has no room at this size."""
    space = FreeSpace(outline, lines, 0.25)
    for name in names:
        space.take(name.box)
    left, bottom, right, top = outline.bounds
    places = np.meshgrid(np.linspace(left, right, 15), np.linspace(bottom, top, 41))
    middles = np.stack(places, axis=-1).reshape(-1, 2)
    wished = shapely.get_coordinates(outline.centroid)[0]
    middles = middles[np.argsort(np.hypot(*(middles - wished).T), kind="stable")]
    first = Lettering(str(number), (0.0, -0.3 * size), size, "sheet", anchor="middle", bold=True)
    index = space.first_free(first.box[None] + middles[:, None])
    return None if index is None else first.moved(middles[index].tolist())
