"""Where the pieces lie on the board: side by side, layer under layer, none on another."""

from collections.abc import Iterable, Mapping, Sequence
from itertools import groupby, product
from typing import Final

import numpy as np

from panelwright.drawing.unrolled import LAYER_ORDER
from panelwright.finish.cut_piece import CutPiece, CuttingPattern
from panelwright.pattern.mark import Point
from panelwright.pattern.piece import Piece

Box = tuple[float, float, float, float]
Boxed = tuple[Piece, Box]
Places = dict[str, Point]
BETWEEN: Final = 60.0
# Rows may be so wide even where the panels of the block take less, mm.
LEAST_ROW: Final = 1200.0
# A drawing on a usual screen is so much wider than high, without the names at its left.
VIEW: Final = 1.2
# So many upright pieces at most stand beside the panels.
MOST_BESIDE: Final = 6
# Pieces that lie are left where they are, unless other places show them so much larger.
_LARGER: Final = 1.1


def cut_box(cut: CutPiece) -> Box:
    """(left, bottom, right, top) of what is cut, mm on the piece."""
    left, bottom = cut.cut_line.min(axis=0).tolist()
    right, top = cut.cut_line.max(axis=0).tolist()
    return left, bottom, right, top


def board_places(
    cutting: CuttingPattern, known: Mapping[str, Point], before: Mapping[str, Point] | None = None
) -> Places:
    """Piece id -> shift, mm, from the piece's own coordinates to the board's.

    Pieces with a waist lie in a row from centre back to centre front with their waists at one height, the centre
    front at x = 0. Of the others, straps and ties, upright ones stand at the right of that row and the rest lies below
    it, as all of them are seen largest. Layers follow under each other. The first row keeps its heights.

    Args:
        known: places that must not change while a line is dragged.
        before: places before a change: what stood beside the panels goes on standing there, unless the pieces would be
            seen much larger otherwise.
    """
    if all(piece.id in known for piece in cutting.pattern.pieces):
        return {piece.id: known[piece.id] for piece in cutting.pattern.pieces}
    places: Places = {}
    top: float | None = None
    room = LEAST_ROW
    for panels, others in _layers(cutting.pieces):
        if top is None:
            room = max(room, _width(panels or others))
        found = _laid_out(panels, others, room, _stood(others, before or {}))
        boxes = {piece.id: box for piece, box in [*panels, *others]}
        down = 0.0 if top is None else top - max(found[id][1] + box[3] for id, box in boxes.items())
        places |= {id: (x, y + down) for id, (x, y) in found.items()}
        top = min(places[id][1] + box[1] for id, box in boxes.items()) - BETWEEN
    return places


def _layers(pieces: Iterable[tuple[Piece, CutPiece]]) -> Iterable[tuple[list[Boxed], list[Boxed]]]:
    """(panels from left to right as they were drawn, what has no waist) of each layer."""

    def rank(entry: Boxed) -> int:
        return LAYER_ORDER.index(entry[0].layer)

    def has_waist(entry: Boxed) -> bool:
        return entry[0].inside_line("waist") is not None

    boxed = [(piece, cut_box(cut)) for piece, cut in pieces]
    for _, members in groupby(sorted(boxed, key=rank), key=rank):
        row = sorted(members, key=lambda entry: (entry[1][0], entry[0].id))
        yield [each for each in row if has_waist(each)], [each for each in row if not has_waist(each)]


def _stood(others: Sequence[Boxed], before: Mapping[str, Point]) -> set[str] | None:
    """Which of the pieces without a waist stood beside the panels, to the right of x = 0; None where some are new."""
    if any(piece.id not in before for piece, _ in others):
        return None
    return {piece.id for piece, box in others if before[piece.id][0] + box[0] > 0.0}


def _laid_out(panels: Sequence[Boxed], others: Sequence[Boxed], room: float, stood: set[str] | None) -> Places:
    """The places of a layer, its panels at their own heights, as they are seen largest."""
    if not panels or not others:
        return _below(panels or others, [], [], room)
    upright = [each for each in others if each[1][3] - each[1][1] > each[1][2] - each[1][0]]
    tallest = sorted(upright, key=lambda each: each[1][1] - each[1][3])
    numbers = range(min(len(upright), MOST_BESIDE) + 1)
    boxes = {piece.id: box for piece, box in [*panels, *others]}
    tries: list[tuple[float, Places]] = []
    for number, wide in product(numbers, (room, _width(panels))):
        beside = {piece.id for piece, _ in tallest[:number]}
        under = [each for each in others if each[0].id not in beside]
        standing = [each for each in others if each[0].id in beside]
        places = _below(panels, under, standing, max(wide, _width(panels)))
        tries.append((_seen(places, boxes) / (_LARGER if beside == stood else 1.0), places))
    return min(tries, key=lambda each: each[0])[1]


def _seen(places: Places, boxes: Mapping[str, Box]) -> float:
    """How much screen the pieces need to be seen at one size: the height of a view that holds them, mm."""
    sides = np.array(
        [(x + box[0], y + box[1], x + box[2], y + box[3]) for id, box in boxes.items() for x, y in [places[id]]]
    )
    wide, high = (sides[:, 2:].max(axis=0) - sides[:, :2].min(axis=0)).tolist()
    return float(max(wide / VIEW, high))


def _below(row: Sequence[Boxed], under: Sequence[Boxed], beside: Sequence[Boxed], room: float) -> Places:
    """A row of pieces, others below it in lines of at most `room` mm, and others at its right."""
    places: Places = {}
    top: float | None = None
    for line in (*_broken(row, room), *(_broken(under, room) if under else ())):
        top = _lay(line, top, places)
    highest = max(box[3] + places[piece.id][1] for piece, box in row)
    x = BETWEEN
    for piece, box in beside:
        places[piece.id] = (x - box[0], highest - box[3])
        x += box[2] - box[0] + BETWEEN
    return places


def _broken(row: Sequence[Boxed], room: float) -> Iterable[list[Boxed]]:
    """The row in lines that have room; a piece wider than that has a line of its own."""
    line: list[Boxed] = []
    for entry in row:
        if line and _width([*line, entry]) > room:
            yield line
            line = []
        line.append(entry)
    yield line


def _width(row: Sequence[Boxed]) -> float:
    return sum(right - left + BETWEEN for _, (left, _, right, _) in row) - BETWEEN


def _lay(line: list[Boxed], top: float | None, places: Places) -> float:
    """Put a line's pieces in place below `top`, its right end at x = 0; returns where the next line begins."""
    waists = all(piece.inside_line("waist") is not None for piece, _ in line)
    drops = [0.0 if waists else -box[3] for _, box in line]
    highest = max(box[3] + drop for (_, box), drop in zip(line, drops, strict=True))
    down = 0.0 if top is None else top - highest
    x = -_width(line)
    lowest = 0.0
    for (piece, box), drop in zip(line, drops, strict=True):
        places[piece.id] = (x - box[0], drop + down)
        lowest = min(lowest, box[1] + drop + down)
        x += box[2] - box[0] + BETWEEN
    return lowest - BETWEEN
