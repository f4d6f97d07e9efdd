"""What stands on a laid piece: its name, which side is up and the distances of its grain, or else a number."""

from collections.abc import Iterable, Iterator, Sequence
from typing import Final

import numpy as np
import shapely
from shapely import Polygon

from panelwright.body.units import Unit, format_length
from panelwright.drawing.drawing import Lettering
from panelwright.drawing.free_space import FreeSpace
from panelwright.drawing.lay_stretch import Stretch
from panelwright.drawing.path import Path
from panelwright.drawing.typeface import typeface
from panelwright.geometry.arrays import Array
from panelwright.lay.lay import LaidPiece, Lay

# Letter sizes in the order in which they are tried, mm.
NAMES: Final = (3.2, 2.6, 2.2, 1.9)
DISTANCES: Final = (2.2, 1.9)
# On a screen, which shows a lay smaller than it is printed.
SCREEN_NAMES: Final = (5.0, 4.4, 3.8, *NAMES)
SCREEN_DISTANCES: Final = (3.6, 3.0, 2.6)
NUMBERS: Final = (3.0, 2.4, 1.9, 1.5)
CLEARANCE: Final = 0.35
LEADING: Final = 1.2
_GRID: Final = (41, 21)


def words_on(
    lay: Lay, laid: LaidPiece, stretch: Stretch, factor: float, unit: Unit, lines: Sequence[Path], screen: bool = False
) -> tuple[Lettering, ...] | None:
    """The name and the distances on what a stretch shows of a piece, or None where they do not all find room.

    They keep clear of the outline, of `lines` and of one another; the origin is the cloth's lower left corner.
    For a `screen` they are large where they have room.
    """
    if screen:
        large = _words_on(lay, laid, stretch, factor, unit, lines, SCREEN_NAMES, SCREEN_DISTANCES)
        if large is not None:
            return large
    return _words_on(lay, laid, stretch, factor, unit, lines, NAMES, DISTANCES)


def _words_on(
    lay: Lay,
    laid: LaidPiece,
    stretch: Stretch,
    factor: float,
    unit: Unit,
    lines: Sequence[Path],
    names: Sequence[float],
    numbers: Sequence[float],
) -> tuple[Lettering, ...] | None:
    """Those of the sizes, each the largest that finds room."""
    space = FreeSpace(_shown(lay, laid, stretch, factor), lines, CLEARANCE)
    distances = []
    for at, distance in zip(laid.grain, lay.grain_distances(laid), strict=True):
        if stretch.low <= at[0] <= stretch.high:
            inward = float(np.sign(laid.grain[:, 0].mean() - at[0]))
            found = _distance(lay, laid, at * factor, inward, length_number(distance, unit), space, numbers)
            if found is None:
                return None
            distances.append(found)
    name = _first_block(_names(lay, laid, names), space)
    return (*distances, *name) if name else None


def number_on(
    lay: Lay, laid: LaidPiece, stretch: Stretch, factor: float, number: int, lines: Sequence[Path]
) -> tuple[Lettering, ...]:
    """A number on what a stretch shows of a piece, if need be over one of its lines; () on a mere sliver."""
    blocks = [((str(number),), size) for size in NUMBERS]
    shown = _shown(lay, laid, stretch, factor)
    return _first_block(blocks, FreeSpace(shown, lines, CLEARANCE)) or _first_block(
        blocks, FreeSpace(shown, (), CLEARANCE)
    )


def length_number(length: float, unit: Unit) -> str:
    """A length in the unit without naming it: `31.4`, `12 3/8`."""
    return format_length(length, unit).removesuffix(f" {unit}")


def cut_here(lay: Lay, laid: LaidPiece) -> str:
    """What is cut in this place: `on the fold`, `a pair`, `one, and a spare`, `face down`."""
    if lay.folded:
        return "on the fold" if laid.piece.fold is not None else "one, and a spare" if laid.spare else "a pair"
    if laid.piece.opened is not None:
        return "opened, whole"
    return "face down" if laid.placement.mirrored else "face up"


def outwards(lay: Lay, laid: LaidPiece) -> Array:
    """Unit vector towards the edge that a piece's grain is measured from."""
    return np.array([0.0, 1.0 if lay.grain_edge(laid) > 0 else -1.0])


def _shown(lay: Lay, laid: LaidPiece, stretch: Stretch, factor: float) -> Polygon:
    strip = shapely.box(stretch.low * factor, -1.0, stretch.high * factor, lay.width * factor + 1.0)
    parts: list[Polygon] = list(shapely.get_parts(strip.intersection(Polygon(laid.outline * factor))))
    return max(parts, key=lambda part: float(part.area))


def _names(lay: Lay, laid: LaidPiece, sizes: Sequence[float]) -> Iterator[tuple[tuple[str, ...], float]]:
    """Label or code with what is cut, in two lines or one, the larger and the more outspoken first."""
    cut = cut_here(lay, laid)
    for size in sizes:
        for name in dict.fromkeys((laid.piece.label, laid.piece.code)):
            yield (name, cut), size
            yield (f"{name}, {cut}",), size


def _distance(
    lay: Lay, laid: LaidPiece, at: Array, inward: float, text: str, space: FreeSpace, sizes: Sequence[float]
) -> Lettering | None:
    """The distance from the edge at one end of the grain line, where it is free; `inward` is 1 or -1 along x."""
    tries = [
        _centred(text, at + np.array([dx, dy]), size)
        for size in sizes
        for dx, dy in _places(text, size, inward, outwards(lay, laid)[1])
    ]
    index = space.first_free(np.array([lettering.box for lettering in tries]))
    if index is None:
        return None
    space.take(tries[index].box)
    return tries[index]


def _places(text: str, size: float, inward: float, out: float) -> Iterator[tuple[float, float]]:
    """Where the middle of a number may stand from the end of a grain line, beside its stub first."""
    half = typeface().width(text, size) / 2
    for dx in (inward * (half + 0.8), -inward * (half + 0.8), inward * (2 * half + 2.5), -inward * (2 * half + 2.5)):
        for dy in (out * (0.5 * size + 0.7), -out * (0.5 * size + 0.7), out * (1.5 * size + 0.7), 0.0):
            yield dx, dy


def _centred(text: str, middle: Array, size: float) -> Lettering:
    at = (float(middle[0]), float(middle[1]) - 0.33 * size)
    return Lettering(text, at, size, "text", anchor="middle")


def _first_block(blocks: Iterable[tuple[Sequence[str], float]], space: FreeSpace) -> tuple[Lettering, ...]:
    """The first of several (lines, size) that finds room, nearest to the middle; else nothing."""
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
