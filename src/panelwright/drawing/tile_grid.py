"""A grid of tiles: a large drawing cut into pages that overlap a little."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from string import ascii_uppercase

import shapely

from panelwright.drawing.drawing import Bounds
from panelwright.drawing.paper import Paper
from panelwright.errors import InputError
from panelwright.pattern.mark import Point


@dataclass(frozen=True)
class Tile:
    """One page of the grid: row and column from 1."""

    row: int
    column: int

    @property
    def row_letter(self) -> str:
        """A, B, … Z, AA, AB, …"""
        rest, letters = self.row, ""
        while rest:
            rest, place = divmod(rest - 1, len(ascii_uppercase))
            letters = ascii_uppercase[place] + letters
        return letters

    @property
    def short(self) -> str:
        """`B3`."""
        return f"{self.row_letter}{self.column}"


@dataclass(frozen=True)
class Join:
    """The line along which two neighbouring tiles are joined, mm on the plane."""

    number: int
    first: Tile
    second: Tile
    start: tuple[float, float]
    end: tuple[float, float]

    @property
    def upright(self) -> bool:
        """Whether the line runs up (the tiles lie side by side)."""
        return self.start[0] == self.end[0]


@dataclass(frozen=True)
class TileGrid:
    """Tiles over a plane whose upper left corner is the origin; x runs right, y up, so the plane has y ≤ 0.

    Attributes:
        paper: of each tile.
        overlap: width of the strip that two neighbours both show, mm.
        width, height: of the plane, mm.
        areas: what the plane holds; tiles that none of it needs are left out.

    Raises:
        InputError: if the overlap is below 0 or above 40 mm.
    """

    paper: Paper
    overlap: float
    width: float
    height: float
    areas: tuple[shapely.Geometry, ...]

    def __post_init__(self) -> None:
        if not 0.0 <= self.overlap <= 40.0:
            raise InputError(f"an overlap of {self.overlap:g} mm is outside 0 to 40 mm", "overlap")

    @property
    def step(self) -> tuple[float, float]:
        """From one tile to the next: (right, down), mm."""
        return self.paper.inner_width - self.overlap, self.paper.inner_height - self.overlap

    @property
    def columns(self) -> int:
        """Number of columns."""
        return _count(self.width, self.paper.inner_width, self.step[0])

    @property
    def rows(self) -> int:
        """Number of rows."""
        return _count(self.height, self.paper.inner_height, self.step[1])

    def window(self, tile: Tile) -> Bounds:
        """What a tile shows of the plane: (left, bottom, right, top)."""
        left, top = (tile.column - 1) * self.step[0], -(tile.row - 1) * self.step[1]
        return left, top - self.paper.inner_height, left + self.paper.inner_width, top

    def core(self, tile: Tile) -> Bounds:
        """The tile's window as far as the lines where it is joined to neighbours."""
        left, bottom, right, top = self.window(tile)
        half = self.overlap / 2
        return (
            left + half * (tile.column > 1),
            bottom + half * (tile.row < self.rows),
            right - half * (tile.column < self.columns),
            top - half * (tile.row > 1),
        )

    @property
    def all_tiles(self) -> Iterator[Tile]:
        """Every tile, row after row."""
        for row in range(1, self.rows + 1):
            for column in range(1, self.columns + 1):
                yield Tile(row, column)

    @cached_property
    def tiles(self) -> tuple[Tile, ...]:
        """The tiles that are printed, row after row."""
        return tuple(tile for tile in self.all_tiles if self._needed(tile))

    @cached_property
    def joins(self) -> tuple[Join, ...]:
        """The joins between printed tiles, numbered from 1 as the tiles are read."""
        printed = set(self.tiles)
        found: list[Join] = []
        for tile in self.tiles:
            left, bottom, right, top = self.core(tile)
            beside, under = Tile(tile.row, tile.column + 1), Tile(tile.row + 1, tile.column)
            if beside in printed:
                found.append(Join(len(found) + 1, tile, beside, (right, bottom), (right, top)))
            if under in printed:
                found.append(Join(len(found) + 1, tile, under, (left, bottom), (right, bottom)))
        return tuple(found)

    @property
    def borders(self) -> Iterator[tuple[Point, Point]]:
        """The lines right across the plane on which tiles may meet, whether or not both are printed."""
        right, bottom = self.window(Tile(self.rows, self.columns))[2], self.window(Tile(self.rows, 1))[1]
        for column in range(1, self.columns):
            x = self.core(Tile(1, column))[2]
            yield (x, bottom), (x, 0.0)
        for row in range(1, self.rows):
            y = self.core(Tile(row, 1))[1]
            yield (0.0, y), (right, y)

    def _needed(self, tile: Tile) -> bool:
        core = shapely.box(*self.core(tile))
        return any(shapely.intersects(area, core) for area in self.areas)


def fewest_tiles(grids: Sequence[TileGrid]) -> TileGrid:
    """The grid that prints the fewest tiles; of equals, the one nearest to a square."""
    return min(grids, key=lambda grid: (len(grid.tiles), grid.rows + grid.columns))


def _count(length: float, window: float, step: float) -> int:
    """How many windows, `step` apart, cover a length."""
    count = 1
    while window + (count - 1) * step < length - 1e-9:
        count += 1
    return count
