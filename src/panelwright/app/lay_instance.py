"""Reading a lay to plan, format `garment-lay/1`, and writing where everything lies. docs/lay-file.md tells every field.

{"format": "garment-lay/1", "name": "festival", "cloth": {"width_mm": 740, "mode": "folded", "napped": false},
 "spacing_mm": 2, "pieces": [{"name": "back", "outline": [[0, 0], ...], "demand": 1, "cut": "pair"}]}
"""

import json
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated, Any, Final, Literal

import numpy as np
import shapely
from pydantic import BaseModel, ConfigDict, Field

from panelwright.app.record_text import record_in
from panelwright.errors import InputError
from panelwright.geometry.arrays import Array
from panelwright.json_text import read_text
from panelwright.lay.opened import opened_outline
from panelwright.lay.search.task import Found, LayTask, ToLay, Turn
from panelwright.quotation import quoted
from panelwright.saved_file import save

FORMAT: Final = "garment-lay/1"
MOST_PIECES: Final = 1000
MOST_VERTICES: Final = 2000
FARTHEST: Final = 1e7  # mm
SLANT: Final = 45.0  # degrees of the bias
STRAIGHT: Final = 1e-6  # an edge on the fold may be off by this share of the cloth's width

Coordinate = Annotated[float, Field(ge=-FARTHEST, le=FARTHEST)]
Corner = Annotated[list[Coordinate], Field(min_length=2, max_length=2)]


class _Record(BaseModel):
    model_config = ConfigDict(strict=True, frozen=True, extra="ignore", allow_inf_nan=False)


class ClothRecord(_Record):
    """The cloth as it lies: a folded one is as wide as half of it, and so is a tube laid flat, with two folds."""

    width_mm: Annotated[float, Field(gt=0, le=FARTHEST)]
    mode: Literal["open", "folded", "tubular"] = "open"
    napped: bool = False


class PieceRecord(_Record):
    """One piece and how often it is cut."""

    name: Annotated[str, Field(min_length=1, max_length=200)]
    outline: Annotated[list[Corner], Field(min_length=3, max_length=MOST_VERTICES)]
    demand: Annotated[int, Field(ge=1, le=MOST_PIECES)] = 1
    cut: Literal["single", "pair", "fold"] = "single"
    fold_edge: Annotated[int, Field(ge=0)] | None = None
    mirror_allowed: bool = False
    rotations: Annotated[list[Annotated[float, Field(ge=-360, le=360)]], Field(min_length=1, max_length=36)] = [0, 180]
    bias: bool = False
    grain_tolerance_deg: Annotated[float, Field(ge=0, le=10)] = 0.0


class LayRecord(_Record):
    """The file."""

    format: Literal["garment-lay/1"]
    name: str = ""
    cloth: ClothRecord
    spacing_mm: Annotated[float, Field(ge=0, le=1000)] = 0.0
    pieces: Annotated[list[PieceRecord], Field(min_length=1, max_length=MOST_PIECES)]


@dataclass(frozen=True, eq=False)
class LayInstance:
    """A lay to plan.

    Attributes:
        name: of it.
        task: for the search.
        copies: (piece, number of the copy) for everything in the task.
        cloth: as the file tells it.
        pieces: as the file tells them; a `shape` of the task is the number of one.
    """

    name: str
    task: LayTask
    copies: tuple[tuple[str, int], ...]
    cloth: ClothRecord
    pieces: tuple[PieceRecord, ...]


def load_lay_instance(path: Path) -> LayInstance:
    """The lay in a file.

    Raises:
        InputError: if it cannot be read, is not of this format, or holds what cannot be laid.
        LayError: if a piece is too wide for the cloth.
    """
    text = read_text(path, "that is more than the pieces of a lay need")
    try:
        return read_lay_instance(text)
    except InputError as error:
        error.args = (f"{quoted(path.name)}: {error}",)
        raise


def read_lay_instance(text: str) -> LayInstance:
    """The lay in the text of a file.

    Raises:
        InputError, LayError: as `load_lay_instance`.
    """
    record = record_in(text, LayRecord, FORMAT, "give a lay to plan")
    names = [piece.name for piece in record.pieces]
    twice = next((name for k, name in enumerate(names) if name in names[:k]), None)
    if twice is not None:
        raise InputError(f"two pieces are called {quoted(twice)}: give each a name of its own", "pieces")
    count = sum(_places(record.cloth, piece) for piece in record.pieces)
    if count > MOST_PIECES:
        raise InputError(f"{count} pieces are to be laid; the most is {MOST_PIECES}: plan several lays", "pieces")
    laid = [entry for number, piece in enumerate(record.pieces) for entry in _to_lay(record.cloth, piece, number)]
    outlines = tuple(_outline(record.cloth, piece) for piece in record.pieces)
    tubular = record.cloth.mode == "tubular"
    task = LayTask(
        record.cloth.width_mm, outlines, tuple(each for each, _ in laid), record.spacing_mm, tuple(names), tubular
    )
    copies = tuple((names[each.shape], copy) for each, copy in laid)
    return LayInstance(record.name, task, copies, record.cloth, tuple(record.pieces))


def save_lay_result(instance: LayInstance, found: Found, path: Path) -> None:
    """Write where everything lies; the file is there whole or not at all.

    Raises:
        OutputError: if it cannot be written.
    """
    save(path, (json.dumps(lay_result(instance, found), indent=1) + "\n").encode())


def lay_result(instance: LayInstance, found: Found) -> dict[str, Any]:
    """Where everything lies, ready for JSON: mirrored about x, turned, then shifted by (x, y)."""
    places = zip(instance.copies, found.places, strict=True)
    return {
        "length_mm": found.length,
        "placements": [
            {
                "piece": name,
                "copy": copy,
                "x": place.x,
                "y": place.y,
                "rotation_deg": place.turn.degrees,
                "mirrored": place.turn.mirrored,
            }
            for (name, copy), place in places
        ],
    }


def _outline(cloth: ClothRecord, piece: PieceRecord) -> Array:
    """Anticlockwise; a piece on the fold is opened where the cloth lies open."""
    outline = np.array(piece.outline, float)
    shape = shapely.Polygon(outline)
    if not shape.is_valid or not shape.area > 0.0:
        raise InputError(
            f"the outline of {quoted(piece.name)} crosses itself or has no area: give its corners in order round it",
            piece.name,
        )
    if not shape.exterior.is_ccw:
        raise InputError(
            f"the outline of {quoted(piece.name)} runs clockwise: give its corners anticlockwise", piece.name
        )
    if piece.cut == "fold" and cloth.mode == "open":
        edge = _fold_edge(piece)
        opened: Array = opened_outline(outline, outline[[edge, (edge + 1) % len(outline)]])
        return opened
    return outline


def _places(cloth: ClothRecord, piece: PieceRecord) -> int:
    """How many placements its demand takes: pairs from folded cloth one, from open cloth two."""
    return piece.demand * (2 if piece.cut == "pair" and cloth.mode == "open" else 1)


def _to_lay(cloth: ClothRecord, piece: PieceRecord, number: int) -> Iterator[tuple[ToLay, int]]:
    """What each of its placements may be, with its copy number."""
    degrees = _rotations(cloth, piece)
    if not degrees:
        raise InputError(f"{quoted(piece.name)} may not lie unturned, which napped cloth asks for", piece.name)
    as_drawn = tuple(Turn(turn) for turn in degrees)
    either = (*as_drawn, *(Turn(turn, mirrored=True) for turn in degrees))
    if piece.cut == "fold" and cloth.mode != "open":
        edge = _fold_edge(piece)
        outline = np.array(piece.outline, float)
        upright = tuple(turn for turn in either if _lies_on_fold(turn.points(outline), edge, cloth))
        if not upright:
            raise InputError(f"the fold edge of {quoted(piece.name)} does not run along the grain", piece.name)
        yield from ((ToLay(number, upright, edge), copy) for copy in range(piece.demand))
    elif piece.cut == "pair" and cloth.mode == "open":
        over = tuple(Turn(turn, mirrored=True) for turn in degrees)
        for copy in range(_places(cloth, piece)):
            yield ToLay(number, as_drawn if copy < piece.demand else over), copy
    else:
        free = piece.mirror_allowed or (piece.cut == "pair" and cloth.mode != "open")
        yield from ((ToLay(number, either if free else as_drawn), copy) for copy in range(piece.demand))


def _rotations(cloth: ClothRecord, piece: PieceRecord) -> list[float]:
    """Degrees, 0 to 360: those given, or the slants of a bias piece, each with what the grain may be off."""
    wanted = [float(turn % 360) for turn in piece.rotations if turn % 360 == 0 or not cloth.napped]
    if piece.bias and wanted:
        wanted = [SLANT, 360.0 - SLANT, *([] if cloth.napped else [180.0 + SLANT, 180.0 - SLANT])]
    off = piece.grain_tolerance_deg
    near = [
        (turn + by) % 360 for turn in wanted for by in ((0.0, -off, off) if off and piece.cut != "fold" else (0.0,))
    ]
    return list(dict.fromkeys(near))


def _fold_edge(piece: PieceRecord) -> int:
    if piece.fold_edge is None or piece.fold_edge >= len(piece.outline):
        raise InputError(f"{quoted(piece.name)} lies on the fold; fold_edge says with which edge, from 0", piece.name)
    return piece.fold_edge


def _lies_on_fold(points: Array, edge: int, cloth: ClothRecord) -> bool:
    """Whether the edge runs along the cloth and the piece lies above it; below is for the far fold of a tube."""
    line, other, near = float(points[edge, 1]), float(points[(edge + 1) % len(points), 1]), STRAIGHT * cloth.width_mm
    above, below = bool((points[:, 1] >= line - near).all()), bool((points[:, 1] <= line + near).all())
    return abs(line - other) <= near and (above or (below and cloth.mode == "tubular"))
