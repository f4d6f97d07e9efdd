"""The lettering of one piece: its text, the names of its levels, of its fold and of its bust point.

Everything is put where it is free of lines and other text. The text stays together: what finds no room
inside the piece goes below it as a whole. The name of a level, which the pieces beside it carry too, may be left out.
"""

from collections.abc import Iterable, Iterator, Sequence
from typing import Final

import numpy as np

from panelwright.drawing.drawing import Anchor, Lettering
from panelwright.drawing.free_space import FreeSpace
from panelwright.drawing.mark_names import MarkName
from panelwright.drawing.path import Path
from panelwright.drawing.piece_line import FoldBracket
from panelwright.drawing.scale import Scale
from panelwright.drawing.typeface import typeface
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.pattern.mark import BONE_GUIDE, InsideLine, Point, as_point

FOLD_WORDS: Final = "cut on fold"
GRAIN_WORD: Final = "grain"
LEADING: Final = 1.22
# Two names on one line are at least this many letter sizes apart.
APART: Final = 2.5
# A text that finds no room is set smaller, to no less than 2.6 mm at full scale.
SIZES: Final = (1.0, 0.85, 0.72)
# A caption keeps this far from a join, mm: none of it shows again in the strip that both pages have.
JOIN_GAP: Final = 6.0
# A text is tried as it stands and then wrapped to these widths, in letter sizes of the body text.
WRAPS: Final = (1000.0, 17.0, 13.0, 10.5, 9.0, 7.5, 6.0)
# Where along a level line its name is tried, as shares of its length.
LEVEL_PLACES: Final = (0.06, 0.1, 0.15, 0.2, 0.27, 0.35, 0.43, 0.5, 0.58, 0.66, 0.74, 0.82, 0.88)
_GRID: Final = 18

# (text, size, bold) of each line.
Block = tuple[tuple[str, float, bool], ...]


def piece_text(
    lines: Sequence[str], short: str, at: Point, space: FreeSpace, scale: Scale, below: Point, width: float
) -> tuple[Lettering, ...]:
    """The text of a piece in one block, its first line larger, nearest to `at` where it is free.

    It lies across a join only where it finds no room beside one in any wrapping and size. If it finds none
    at all, or the scale captions its pieces, the whole of it stands under the piece, in lines of at most
    `width` mm hanging from `below`, and `short` names the piece inside.
    """
    if not scale.captioned:
        inside = _set_free((_block(lines, scale, size, wrap) for size in SIZES for wrap in WRAPS), at, space)
        if inside:
            return inside
    short_blocks = [((short, size * scale.title, True),) for size in SIZES]
    return _set_free(short_blocks, at, space) + _caption(lines, below, width, scale)


def _set_free(blocks: Iterable[Block], at: Point, space: FreeSpace) -> tuple[Lettering, ...]:
    """The first of several blocks that finds room, in its place, across a join only if need be; else nothing."""
    tried: dict[Block, None] = {}
    for block in blocks:
        if block not in tried:
            tried[block] = None
            if found := _put(block, at, space, across=not space.joined):
                return found
    others = (_put(block, at, space, across=True) for block in tried if space.joined)
    return next(filter(None, others), ())


def _put(block: Block, at: Point, space: FreeSpace, across: bool) -> tuple[Lettering, ...]:
    """The block in the free place nearest to `at`, which is then taken; nothing where none is."""
    place = _free_place(block, at, space, across)
    if place is None:
        return ()
    space.take(_block_box(block, place))
    return _set_block(block, place)


def has_name(line: InsideLine) -> bool:
    """Whether a line inside a piece bears its name."""
    return line.kind in ("level", "guide") and not line.id.endswith(BONE_GUIDE)


def level_name(line: InsideLine, space: FreeSpace, scale: Scale) -> Lettering | None:
    """The name of a level, just above or below its line; None if it has no room."""
    text = line.id.rsplit("/", 1)[-1].replace("-", " ")
    curve = line.curve.scaled(scale.factor)
    above = _first_free(_beside(curve, text, scale, above=True), space)
    return above or _first_free(_beside(curve, text, scale, above=False), space)


def fold_words(bracket: FoldBracket, space: FreeSpace, scale: Scale) -> Lettering | None:
    """`cut on fold`, along the bracket on its inner side, or a little higher or lower where lines cross it."""
    return _first_free(list(_along(bracket.foot, bracket.head, bracket.inwards, FOLD_WORDS, scale)), space)


def grain_word(start: Array, end: Array, space: FreeSpace, scale: Scale) -> Lettering | None:
    """`grain`, along the grain line."""
    side = np.array([start[1] - end[1], end[0] - start[0]])
    return _first_free(list(_along(start, end, side / np.linalg.norm(side), GRAIN_WORD, scale)), space)


def mark_name(name: MarkName, space: FreeSpace, scale: Scale) -> Lettering | None:
    """The name of a mark, beside its sign, or farther in where a line such as a bone channel runs beside that."""
    x, y = name.at * scale.factor
    gap = 1.5 * scale.radius + 1.3 * scale.clearance
    drop = 0.25 * scale.small
    anchors: tuple[tuple[float, Anchor], ...] = tuple(
        place for far in (gap, 1.6 * gap, 2.4 * gap) for place in ((far, "left"), (-far, "right"))
    )
    tries = [
        Lettering(name.text, (x + dx, y + dy - drop), scale.small, anchor=anchor)
        for dy in scale.small * np.array([0.0, 1.0, -1.0, 1.8, -1.8, 2.6, -2.6])
        for dx, anchor in anchors
    ]
    return _first_free(tries, space)


def _first_free(tries: list[Lettering], space: FreeSpace) -> Lettering | None:
    """The first name that finds room; it keeps the next one on its line so far away that they read as two."""
    index = space.first_free(np.array([lettering.box for lettering in tries]))
    if index is None:
        return None
    found = tries[index]
    apart = APART * found.size * np.array([np.cos(found.angle), np.sin(found.angle)])
    space.take(found.box + np.outer([-1, 1, 1, -1], apart))
    return found


def _beside(curve: Curve, text: str, scale: Scale, above: bool) -> list[Lettering]:
    """The text at several places along a line, turned as the line runs there, clear of its bend."""
    face = typeface()
    points = curve.polyline()
    if points[-1, 0] < points[0, 0]:
        points = points[::-1]
    arcs = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1))])
    width = face.width(text, scale.small)
    starts = np.array(LEVEL_PLACES) * arcs[-1]
    stretches = starts[starts + width <= arcs[-1], None] + width * np.linspace(0.0, 1.0, 5)
    runs = np.stack([np.interp(stretches, arcs, points[:, k]) for k in (0, 1)], axis=-1)
    chords = runs[:, -1] - runs[:, 0]
    angles = np.arctan2(chords[:, 1], chords[:, 0])
    ups = np.stack([-np.sin(angles), np.cos(angles)], axis=-1)
    bends = ((runs - runs[:, :1]) * ups[:, None]).sum(axis=-1)
    gap = 1.05 * scale.clearance
    lifts = bends.max(axis=1) + gap + face.descent * scale.small
    if not above:
        lifts = bends.min(axis=1) - gap - face.ascent * scale.small
    places = runs[:, 0] + chords / 2 + lifts[:, None] * ups
    return [
        Lettering(text, as_point(place), scale.small, angle=float(angle), anchor="middle")
        for place, angle in zip(places, angles, strict=True)
    ]


def _along(start: Array, end: Array, side: Array, text: str, scale: Scale) -> Iterator[Lettering]:
    """The text along a straight line on one side of it and then on the other, at several places."""
    face = typeface()
    along = end - start
    angle = float(np.arctan2(along[1], along[0]))
    if abs(angle) > np.pi / 2 + 1e-6:
        angle -= np.copysign(np.pi, angle)
    up = np.array([-np.sin(angle), np.cos(angle)])
    for way in (side, -side):
        rise = scale.clearance * 1.05 + scale.small * (face.descent if up @ way > 0 else face.ascent)
        for share in (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9, 0.0, 1.0, -0.2, 1.2):
            at = start + share * along + rise * way
            yield Lettering(text, (float(at[0]), float(at[1])), scale.small, angle=angle, anchor="middle")


def _block(lines: Sequence[str], scale: Scale, factor: float, wrap: float) -> Block:
    """A piece's text at a factor of its size, wrapped to a width in letter sizes."""
    block: list[tuple[str, float, bool]] = []
    for k, line in enumerate(lines):
        size, bold = (factor * scale.title, True) if k == 0 else (factor * scale.body, False)
        face = typeface(bold)
        unbroken = max([wrap * factor * scale.body, *(face.width(word, size) for word in face.written(line).split())])
        block += [(part, size, bold) for part in face.wrapped(face.written(line), size, unbroken)]
    return tuple(block)


def _block_size(block: Block) -> tuple[float, float]:
    width = max((typeface(bold).width(text, size) for text, size, bold in block), default=0.0)
    return width, LEADING * sum(size for _, size, _ in block)


def _block_box(block: Block, middle: Point) -> Array:
    width, height = _block_size(block)
    x, y = middle
    half = np.array([(-width, -height), (width, -height), (width, height), (-width, height)]) / 2
    box: Array = half + np.array([x, y])
    return box


def _free_place(block: Block, at: Point, space: FreeSpace, across: bool) -> Point | None:
    """The middle nearest to `at` where the block is free, on a grid of places over the piece; None if none is."""
    left, bottom, right, top = space.bounds
    width, height = _block_size(block)
    if not (right - left > width and top - bottom > height):
        return None
    xs = np.linspace(left + width / 2, right - width / 2, _GRID)
    ys = np.linspace(bottom + height / 2, top - height / 2, 2 * _GRID)
    middles = np.concatenate([[at], np.stack(np.meshgrid(xs, ys), axis=-1).reshape(-1, 2)])
    middles = middles[np.argsort(np.hypot(*(middles - np.array(at)).T), kind="stable")]
    index = space.first_free(_block_box(block, (0.0, 0.0))[None] + middles[:, None], across)
    return None if index is None else (float(middles[index, 0]), float(middles[index, 1]))


def _set_block(block: Block, middle: Point) -> tuple[Lettering, ...]:
    """The lines of a block, centred on its middle."""
    x, y = middle
    top = y + _block_size(block)[1] / 2
    letterings = []
    for text, size, bold in block:
        top -= LEADING * size
        letterings.append(Lettering(text, (x, top + (LEADING - 0.97) * size), size, anchor="middle", bold=bold))
    return tuple(letterings)


def caption_place(
    lines: Sequence[str], below: Point, width: float, scale: Scale, span: tuple[float, float], joins: Sequence[Path]
) -> Point:
    """Where a caption hangs clear of joins: as near to `below` as may be within `span` (left, right), or lower.

    A caption that is wider than `span` stays in its middle.
    """
    wide, high = _block_size(_caption_block(lines, width, scale))
    x, y = below
    boxes = [join.bounds for join in joins]
    reach = wide / 2 + JOIN_GAP
    upright = [left for left, low, right, top in boxes if right - left < top - low and low < y]
    tries = [x, *(place + side * reach for place in upright for side in (-1.0, 1.0))]
    inside = [place for place in tries if span[0] <= place - wide / 2 and place + wide / 2 <= span[1]]
    free = [place for place in inside if all(abs(place - line) >= reach - 1e-9 for line in upright)]
    x = min(free, key=lambda place: abs(place - x), default=x)
    for line in sorted((top for left, low, right, top in boxes if right - left >= top - low), reverse=True):
        if y - high - JOIN_GAP < line < y + JOIN_GAP:
            y = line - JOIN_GAP
    return x, y


def _caption(lines: Sequence[str], below: Point, width: float, scale: Scale) -> tuple[Lettering, ...]:
    """Lines of text that hang from a point under a piece, the first one bold."""
    block = _caption_block(lines, width, scale)
    x, y = below
    return _set_block(block, (x, y - _block_size(block)[1] / 2))


def _caption_block(lines: Sequence[str], width: float, scale: Scale) -> Block:
    return tuple(
        (part, scale.body, k == 0)
        for k, line in enumerate(lines)
        for part in typeface(k == 0).wrapped(typeface().written(line), scale.body, width)
    )
