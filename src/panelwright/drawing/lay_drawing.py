"""The pieces of a lay as they lie on the cloth, each with its name, its grain and what to measure."""

from collections.abc import Iterator, Sequence
from typing import Final

import numpy as np
import shapely
from shapely import Polygon

from panelwright.body.units import Unit, format_length
from panelwright.drawing import pen
from panelwright.drawing.drawing import Drawing, Fill, Lettering, Sign, Stroke
from panelwright.drawing.free_space import FreeSpace
from panelwright.drawing.path import Path
from panelwright.drawing.pen import Pen
from panelwright.drawing.symbol import arrow_head
from panelwright.drawing.typeface import typeface
from panelwright.geometry.arrays import Array
from panelwright.lay.lay import LaidPiece, Lay

PIECE: Final = Pen(0.35)
OPENED: Final = Pen(0.25, (1.6, 0.8))
STUB: Final = Pen(0.18)
# Lengths on the paper, mm.
ARROW: Final = 1.6
STUB_LENGTH: Final = 3.2
CLEARANCE: Final = 0.35
NUMBERS: Final = (2.0, 1.7, 1.4)
NAMES: Final = (2.6, 2.2, 1.8, 1.5, 1.3)
LEADING: Final = 1.2
_GRID: Final = (41, 21)


def lay_drawing(lay: Lay, low: float, high: float, factor: float, unit: Unit) -> Drawing:
    """The pieces of which something lies from `low` to `high` mm along the cloth, at `factor` times their size.

    The origin is the cloth's lower left corner. Lines are drawn whole, lettering stands between `low` and `high`.
    """
    strip = shapely.box(low * factor, -1.0, high * factor, lay.width * factor + 1.0)
    shown = (laid for laid in lay.laid if laid.outline[:, 0].min() < high and laid.outline[:, 0].max() > low)
    return Drawing.together(_piece(lay, laid, strip, factor, unit) for laid in shown)


def _piece(lay: Lay, laid: LaidPiece, strip: Polygon, factor: float, unit: Unit) -> Drawing:
    outline = Path.polyline(laid.outline * factor, closed=True)
    lines: list[Sign] = [Stroke(outline, PIECE, "cut lines"), *_grain(lay, laid, factor)]
    if laid.piece.opened is not None:
        line = Path.polyline(laid.placement.points(laid.piece.opened) * factor)
        lines.append(Stroke(line, OPENED, "grain and fold"))
    if laid.piece.fold is not None:
        lines += _fold_bracket(laid, factor)
    paths = [sign.path for sign in lines[1:] if not isinstance(sign, Lettering)]
    shown = max(shapely.get_parts(strip.intersection(Polygon(laid.outline * factor))), key=shapely.area)
    space = FreeSpace(shown, paths, CLEARANCE)
    numbers = [each for each in _distances(lay, laid, factor, unit, space) if strip.contains(Polygon(each.box))]
    return Drawing((Fill(outline, 1.0, "sheet"), *lines, *numbers, *_name(lay, laid, space)))


def _grain(lay: Lay, laid: LaidPiece, factor: float) -> list[Sign]:
    """The grain line, a head at each end, and at each end a short arrow towards the selvage it is measured from."""
    start, end = laid.grain * factor
    out = _outwards(lay, laid)
    signs: list[Sign] = [
        Stroke(Path.polyline([start, end]), pen.GRAIN, "grain and fold"),
        Fill(arrow_head(start, start - end, ARROW), 0.0, "grain and fold"),
        Fill(arrow_head(end, end - start, ARROW), 0.0, "grain and fold"),
    ]
    for at in (start, end):
        tip = at + STUB_LENGTH * out
        signs.append(Stroke(Path.polyline([at, tip]), STUB, "grain and fold"))
        signs.append(Fill(arrow_head(tip, out, 0.7 * ARROW), 0.0, "grain and fold"))
    return signs


def _outwards(lay: Lay, laid: LaidPiece) -> Array:
    """Unit vector towards the selvage that a piece is measured from."""
    return np.array([0.0, 1.0 if lay.selvage(laid) > 0 else -1.0])


def _fold_bracket(laid: LaidPiece, factor: float) -> list[Sign]:
    """The bracket whose two arrows touch the fold, over the middle third of the fold edge."""
    assert laid.piece.fold is not None
    start, end = laid.placement.points(laid.piece.fold) * factor
    tips = start + np.outer([1 / 3, 2 / 3], end - start)
    feet = tips + np.array([0.0, 2.2])
    path = Path.polyline([tips[0], feet[0], feet[1], tips[1]])
    heads = [Fill(arrow_head(tip, np.array([0.0, -1.0]), ARROW), 0.0, "grain and fold") for tip in tips]
    return [Stroke(path, pen.GRAIN, "grain and fold"), *heads]


def _distances(lay: Lay, laid: LaidPiece, factor: float, unit: Unit, space: FreeSpace) -> Iterator[Lettering]:
    """The distance from the selvage at each end of the grain line; it is always written, if need be over a line."""
    middle = laid.grain.mean(axis=0) * factor
    for at, distance in zip(laid.grain * factor, lay.grain_distances(laid), strict=True):
        text = length_number(distance, unit)
        inward = float(np.sign(middle[0] - at[0]))
        tries = [
            _beside(text, at + np.array([dx, dy]), size)
            for size in NUMBERS
            for dx, dy in _places(text, size, inward, _outwards(lay, laid)[1])
        ]
        index = space.first_free(np.array([lettering.box for lettering in tries]))
        found = tries[0 if index is None else index]
        space.take(found.box)
        yield found


def _places(text: str, size: float, inward: float, out: float) -> Iterator[tuple[float, float]]:
    """Where the middle of a number may stand from the end of a grain line, beside its stub first."""
    half = typeface().width(text, size) / 2
    for dx in (inward * (half + 0.8), -inward * (half + 0.8), inward * (2 * half + 2.5), -inward * (2 * half + 2.5)):
        for dy in (out * (0.5 * size + 0.7), -out * (0.5 * size + 0.7), out * (1.5 * size + 0.7), 0.0):
            yield dx, dy


def _beside(text: str, middle: Array, size: float) -> Lettering:
    at = (float(middle[0]), float(middle[1]) - 0.33 * size)
    return Lettering(text, at, size, "text", anchor="middle")


def length_number(length: float, unit: Unit) -> str:
    """A length in the unit without naming it: `31.4`, `12 3/8`."""
    return format_length(length, unit).removesuffix(f" {unit}")


def piece_words(lay: Lay, laid: LaidPiece) -> tuple[str, ...]:
    """(what it is called, what is cut here): `on the fold`, `a pair`, `one and a spare`, `face down`."""
    piece = laid.piece
    if lay.folded:
        cut = "on the fold" if piece.fold is not None else "one, and a spare" if laid.spare else "a pair"
    elif piece.opened is not None:
        cut = "opened, whole"
    else:
        cut = "face down" if laid.placement.mirrored else "face up"
    return piece.label, cut


def _name(lay: Lay, laid: LaidPiece, space: FreeSpace) -> tuple[Lettering, ...]:
    """Its name and what is cut here, as large as there is room for, nearest to the middle; else its id alone."""
    label, cut = piece_words(lay, laid)
    one, two = (f"{label}, {cut}",), (label, cut)
    short = laid.piece.id.rsplit("/", 1)[0]
    blocks = [(lines, size) for size in NAMES[:4] for lines in (two, one)]
    blocks += [((short, cut), NAMES[-1]), ((short,), NAMES[-1])]
    for lines, size in blocks:
        written = tuple(typeface(True).written(line) for line in lines)
        place = _free_place(written, size, space)
        if place is not None:
            return _block(written, size, place)
    return ()


def _free_place(lines: Sequence[str], size: float, space: FreeSpace) -> Array | None:
    """The middle nearest to that of the piece where a block of text is free, or None."""
    left, bottom, right, top = space.bounds
    width, height = max(typeface(True).width(line, size) for line in lines), LEADING * size * len(lines)
    if not (right - left > width and top - bottom > height):
        return None
    xs = np.linspace(left + width / 2, right - width / 2, _GRID[0])
    ys = np.linspace(bottom + height / 2, top - height / 2, _GRID[1])
    middles = np.stack(np.meshgrid(xs, ys), axis=-1).reshape(-1, 2)
    wished = np.array([(left + right) / 2, (bottom + top) / 2])
    middles = middles[np.argsort(np.hypot(*(middles - wished).T), kind="stable")]
    half = np.array([(-width, -height), (width, -height), (width, height), (-width, height)]) / 2
    index = space.first_free(half[None] + middles[:, None])
    return None if index is None else middles[index]


def _block(lines: Sequence[str], size: float, middle: Array) -> tuple[Lettering, ...]:
    x, top = float(middle[0]), float(middle[1]) + LEADING * size * len(lines) / 2
    return tuple(
        Lettering(line, (x, top - LEADING * size * k - 0.9 * size), size, anchor="middle", bold=k == 0)
        for k, line in enumerate(lines)
    )
