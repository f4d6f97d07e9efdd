"""Pieces larger than a page on home printers: many tiles, to be joined by their marks."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import shapely

from panelwright.drawing.drawing import Drawing, Lettering, Sign, meets
from panelwright.drawing.heading import Heading, heading_drawing
from panelwright.drawing.join_mark import join_marks
from panelwright.drawing.legend import legend
from panelwright.drawing.page_map import page_map
from panelwright.drawing.paper import Paper
from panelwright.drawing.path import Path
from panelwright.drawing.piece_drawing import PieceDrawing
from panelwright.drawing.piece_text import JOIN_GAP
from panelwright.drawing.ruler import FOUR_INCHES, HUNDRED, four_inch_square, hundred_square
from panelwright.drawing.scale import FULL
from panelwright.drawing.sheet import Laid, Sheet
from panelwright.drawing.shelf import shelved
from panelwright.drawing.tile_grid import Tile, TileGrid, fewest_tiles
from panelwright.drawing.typeface import typeface
from panelwright.errors import InputError
from panelwright.pattern.mark import Point

OVERLAP: Final = 10.0
PIECE_GAP: Final = 6.0
# Kept free round the plane, so that the pen's width shows whole, mm.
EDGE: Final = 1.0
LABEL_SIZE: Final = 3.0
LABEL_HEIGHT: Final = 5.2
# The short name of a tile, `B3`, is to be read across a table.
SHORT_SIZE: Final = 8.0
SHORT_HEIGHT: Final = 3.8
MOST_COLUMNS: Final = 12
MOST_TILES: Final = 400
# The page map takes at most this share of the height beside the squares, and at least this height, mm.
MOST_MAP: Final = 0.5
LEAST_MAP: Final = 50.0
# What the first page needs for the squares with the scale bar under them, and beside them for the map, mm.
LEAST_WIDTH: Final = FOUR_INCHES + 6.0 + 50.0
LEAST_HEIGHT: Final = 6.0 + HUNDRED + 5.0 + FOUR_INCHES + 12.0
# Captions that make way for joins may make pieces taller, and they are laid again with more room, at most this often.
MOST_LAYINGS: Final = 12
_JOINING: Final = (
    "Joining: cut one of two neighbouring pages along the fine line between them, lay it on the other "
    "so that the halves of the diamonds meet and their numbers agree, and glue or tape it."
)


@dataclass(frozen=True)
class TiledPlane:
    """The pieces, at one scale, on one plane, and the tiles that cut it up.

    Attributes:
        grid: the tiles.
        laid: (piece, shift on the plane, mm).
    """

    grid: TileGrid
    laid: tuple[tuple[PieceDrawing, Point], ...]

    @property
    def drawing(self) -> Drawing:
        """Everything on the plane, joining marks too."""
        pieces = Drawing.together(piece.drawing.moved(shift) for piece, shift in self.laid)
        return pieces + join_marks(self.grid.joins, pieces)

    @property
    def count(self) -> str:
        """`2 pages to join, 1 row of 2`."""
        pages, rows = len(self.grid.tiles), self.grid.rows
        joined = f"{pages} pages to join" if pages > 1 else "1 page"
        return f"{joined}, {rows} {'row' if rows == 1 else 'rows'} of {self.grid.columns}"


def tiled_plane(drawings: Sequence[PieceDrawing], paper: Paper, overlap: float = OVERLAP) -> TiledPlane:
    """The pieces on shelves, upright as drawn, as many columns of tiles wide as makes the fewest pages.

    Raises:
        InputError: if the overlap is out of bounds, or the pieces would need more than 400 pages.
    """
    across, down = TileGrid(paper, overlap, 0.0, 0.0, ()).step
    room = sum((p.box[2] - p.box[0]) * (p.box[3] - p.box[1]) for p in drawings)
    if room > MOST_TILES * across * down:
        raise InputError(
            f"{drawings[0].scale.name} would need about {room / (across * down):.0f} pages of {paper.name} and "
            f"{MOST_TILES} are the most that can be joined: print one large sheet instead",
            "paper",
        )
    rooms = [_size(piece) for piece in drawings]
    for _ in range(MOST_LAYINGS):
        plane = _clear_of_joins(_fewest(drawings, rooms, paper, overlap))
        drawings = [piece for piece, _ in plane.laid]
        grown = [(max(a, c), max(b, d)) for (a, b), (c, d) in zip(rooms, map(_size, drawings), strict=True)]
        if grown == rooms:
            break
        rooms = grown
    return plane


def tiled_sheets(
    drawings: Sequence[PieceDrawing], heading: Heading, paper: Paper, overlap: float = OVERLAP
) -> tuple[Sheet, ...]:
    """A first page to measure and find one's way, then the tiles row by row; blank tiles are left out.

    Args:
        drawings: pieces at full scale.
        heading: what the garment is.
        paper: of every page.
        overlap: width of the strip that neighbours both show, mm.

    Raises:
        InputError: if the overlap is below 0 or above 40 mm.
    """
    plane = tiled_plane(drawings, paper, overlap)
    return plane_sheets(plane, heading, heading.notes(f"{FULL.name}, {plane.count}"), paper)


def plane_sheets(
    plane: TiledPlane,
    heading: Heading,
    notes: list[str],
    paper: Paper,
    measured: Drawing | None = None,
    of: str = "",
    before: int | None = None,
) -> tuple[Sheet, ...]:
    """The first page and the tiles of a plane.

    Args:
        plane: the pieces and their tiles.
        heading: what the garment is.
        notes: the lines under the title of the first page.
        paper: of the first page, upright.
        measured: what else there is to measure, hung from its upper left corner at 0 under the squares.
        of: put before the name of every page.
        before: how many sheets come before, where all are counted in one run; None counts the tiles alone.
    """
    drawing = plane.drawing
    tiles = plane.grid.tiles
    total = len(tiles) if before is None else before + 1 + len(tiles)
    word, skipped = ("page", 0) if before is None else ("sheet", before + 1)
    counts = [f"{word} {skipped + k} of {total}" for k in range(len(tiles) + 1)]
    pages = [
        _tile_sheet(plane.grid, tile, count, drawing, heading, of)
        for tile, count in zip(tiles, counts[1:], strict=True)
    ]
    first = "first page" if before is None else f"{counts[0]}, first to join"
    return (_first_page(plane, heading, notes, paper, measured, of, first), *pages)


def holds_first_page(paper: Paper, head: float) -> bool:
    """Whether the squares and the page map have room under a heading of this height, mm."""
    return paper.inner_width >= LEAST_WIDTH and paper.inner_height >= head + LEAST_HEIGHT


def _size(piece: PieceDrawing) -> tuple[float, float]:
    return piece.box[2] - piece.box[0], piece.box[3] - piece.box[1]


def _fewest(
    drawings: Sequence[PieceDrawing], rooms: Sequence[tuple[float, float]], paper: Paper, overlap: float
) -> TiledPlane:
    """The pieces, each in the (width, height) kept for it, on the plane that makes the fewest pages."""
    across = TileGrid(paper, overlap, 0.0, 0.0, ()).step[0]
    widest = max(width for width, _ in rooms) + 2 * EDGE
    widths = [paper.inner_width + k * across for k in range(MOST_COLUMNS)]
    areas = [_needed_area(piece) for piece in drawings]
    wide_enough = [width for width in widths if width >= widest] or [widest]
    planes = [_plane(drawings, rooms, areas, paper, overlap, width) for width in wide_enough]
    best = fewest_tiles([plane.grid for plane in planes])
    return next(plane for plane in planes if plane.grid is best)


def _plane(
    drawings: Sequence[PieceDrawing],
    rooms: Sequence[tuple[float, float]],
    areas: Sequence[shapely.Geometry],
    paper: Paper,
    overlap: float,
    width: float,
) -> TiledPlane:
    corners = [(x + EDGE, y - EDGE) for x, y in shelved(rooms, width - 2 * EDGE, PIECE_GAP)]
    shifts = [(x - piece.box[0], y - piece.box[3]) for piece, (x, y) in zip(drawings, corners, strict=True)]
    moved = tuple(shapely.affinity.translate(area, *shift) for area, shift in zip(areas, shifts, strict=True))
    right = EDGE + max(x + wide for (x, _), (wide, _) in zip(corners, rooms, strict=True))
    down = EDGE + max(tall - y for (_, y), (_, tall) in zip(corners, rooms, strict=True))
    return TiledPlane(TileGrid(paper, overlap, right, down, moved), tuple(zip(drawings, shifts, strict=True)))


def _clear_of_joins(plane: TiledPlane) -> TiledPlane:
    """The same plane with the text of each piece clear of the joins that run through it.

    A caption that moves may free a page or need another, so captions keep clear of what is no join yet, and
    the tiles are those that are needed afterwards.
    """
    captioned = any(piece.scale.captioned for piece, _ in plane.laid)
    ends = plane.grid.borders if captioned else ((join.start, join.end) for join in plane.grid.joins)
    lines = [Path.polyline(pair) for pair in ends]
    laid = []
    for piece, (x, y) in plane.laid:
        joins = [line.moved((-x, -y)) for line in lines]
        left, bottom, right, top = piece.box
        reach = JOIN_GAP if captioned else 0.0
        near = (left - reach, bottom - reach, right + reach, top)
        through = [line for line in joins if meets(line.bounds, near)]
        laid.append((piece.clear_of(through) if through else piece, (x, y)))
    areas = tuple(shapely.affinity.translate(_needed_area(piece), *shift) for piece, shift in laid)
    return TiledPlane(replace(plane.grid, areas=areas), tuple(laid))


def _needed_area(piece: PieceDrawing) -> shapely.Geometry:
    """What has to be printed of a piece: all inside its cut line, and text that stands under it."""
    texts = [shapely.Polygon(sign.box) for sign in piece.drawing if isinstance(sign, Lettering)]
    outside = [box for box in texts if not piece.area.contains(box)]
    return shapely.union_all([piece.area.buffer(0.3), *outside])


def _tile_sheet(grid: TileGrid, tile: Tile, count: str, drawing: Drawing, heading: Heading, of: str) -> Sheet:
    paper = grid.paper
    left, bottom, _, _ = grid.window(tile)
    window = (paper.margin, paper.margin, paper.width - paper.margin, paper.height - paper.margin)
    name = f"{of}row {tile.row_letter}, column {tile.column} of {grid.columns}"
    labels = _label(paper, tile.short, name, count, heading)
    shift = (paper.margin - left, paper.margin - bottom)
    laid = (Laid(drawing, shift, window), Laid(labels))
    return Sheet(paper.width, paper.height, name, laid, row=tile.row, column=tile.column)


def _label(paper: Paper, short: str, name: str, count: str, heading: Heading) -> Drawing:
    """In the lower margin: where the tile belongs, its short name large; whose it is and how many there are."""
    right = paper.width - paper.margin
    large = Lettering(short, (paper.margin, SHORT_HEIGHT), SHORT_SIZE, "sheet", bold=True)
    left = paper.margin + large.width + 2.5
    first = Lettering(name, (left, LABEL_HEIGHT), LABEL_SIZE, "sheet", bold=True)
    last = Lettering(count, (right, LABEL_HEIGHT), LABEL_SIZE, "sheet", anchor="right")
    room = paper.inner_width - first.width - last.width - 12.0
    owner = typeface().shortened(" · wearer ".join(filter(None, [heading.title, heading.wearer])), LABEL_SIZE, room)
    middle = (left + first.width + right - last.width) / 2
    owned = Lettering(owner, (middle, LABEL_HEIGHT), LABEL_SIZE, "sheet", anchor="middle")
    return Drawing((large, first, owned, last))


def _first_page(
    plane: TiledPlane,
    heading: Heading,
    notes: list[str],
    paper: Paper,
    measured: Drawing | None,
    of: str,
    name: str,
) -> Sheet:
    """Heading, the two squares, the page map, how to join, the list of pieces."""
    left, top = paper.margin, paper.height - paper.margin
    head = heading_drawing(heading, notes, name, left, top, paper.inner_width)
    top = head.bounds[1] - 6.0
    square_y = top - HUNDRED
    inch_y = square_y - 5.0 - FOUR_INCHES
    squares = four_inch_square((left, inch_y)) + hundred_square((left, square_y))
    column = left + FOUR_INCHES + 6.0
    side = _side_column(plane, (column, top), paper.width - paper.margin - column, paper.margin)
    laid = [Laid(head), Laid(squares), Laid(side)]
    if measured:
        laid.append(Laid(measured, (left, inch_y - 4.0)))
    return Sheet(paper.width, paper.height, f"{of}first page", tuple(laid))


def _side_column(plane: TiledPlane, at: Point, width: float, bottom: float) -> Drawing:
    """The page map at the top, then how to join, the list of pieces and the legend; the map takes what is left."""
    x, y = at
    room = y - bottom
    text, below = _side_text(plane, width, room - LEAST_MAP)
    picture = page_map(plane.grid, _areas(plane), at, width, min(MOST_MAP * room, room - below))
    return picture + text.moved((x, picture.bounds[1]))


def _areas(plane: TiledPlane) -> list[shapely.Polygon]:
    return [shapely.affinity.translate(piece.area, *shift) for piece, shift in plane.laid]


def _side_text(plane: TiledPlane, width: float, height: float) -> tuple[Drawing, float]:
    """The text beside the squares, hanging from 0, and how high it is; pieces without room are only counted."""
    pieces = [
        ", ".join(filter(None, (f"{k} {piece.code} – {piece.label}", piece.cuts)))
        for k, (piece, _) in enumerate(plane.laid, 1)
    ]
    for count in range(len(pieces), -1, -1):
        more = [f"… and {len(pieces) - count} more pieces"] if count < len(pieces) else []
        drawing = _paragraphs([_JOINING, "Pieces, by their numbers on the map:", *pieces[:count], *more], width)
        drawing += legend((0.0, drawing.bounds[1] - 6.0), 0.0, [piece for piece, _ in plane.laid])
        if -drawing.bounds[1] <= height:
            break
    return drawing, -drawing.bounds[1]


def _paragraphs(texts: Sequence[str], width: float) -> Drawing:
    signs: list[Sign] = []
    y = -4.0 - LABEL_SIZE
    for text in texts:
        for line in typeface().wrapped(typeface().written(text), LABEL_SIZE, width):
            signs.append(Lettering(line, (0.0, y), LABEL_SIZE, "sheet"))
            y -= 1.32 * LABEL_SIZE
        y -= 0.35 * LABEL_SIZE
    return Drawing(tuple(signs))
