"""Strips of a page, one under another, and how they are shared out over pages."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from panelwright.drawing.drawing import Drawing
from panelwright.drawing.sheet import Laid


@dataclass(frozen=True)
class Strip:
    """Something as wide as its column that no page break cuts.

    Attributes:
        drawing: hangs from the origin: x from 0 rightwards, y from 0 downwards, mm.
        height: what it takes of a page, mm.
        with_next: stays on one page with the strip that follows.
    """

    drawing: Drawing
    height: float
    with_next: bool = False


def space(height: float) -> Strip:
    """Nothing, `height` mm high; at the head of a page it is left out."""
    return Strip(Drawing(), height)


def kept_together(strips: Sequence[Strip]) -> list[Strip]:
    """The strips, no two of which a page break parts."""
    return [*(replace(strip, with_next=True) for strip in strips[:-1]), *strips[-1:]]


def beside(columns: Sequence[tuple[float, Sequence[Strip]]]) -> Strip:
    """Columns of strips side by side as one strip: (left edge, strips) of each."""
    drawings, height = [], 0.0
    for left, strips in columns:
        down = 0.0
        for strip in strips:
            drawings.append(strip.drawing.moved((left, -down)))
            down += strip.height
        height = max(height, down)
    return Strip(Drawing.together(drawings), height)


def height_of(strips: Sequence[Strip]) -> float:
    """What strips under one another take, mm."""
    return sum(strip.height for strip in strips)


def flowed(strips: Sequence[Strip], room: float) -> list[list[Strip]]:
    """The strips of each page, in their order; every page has `room` mm.

    What is to stay together starts a new page where it does not fit; only what is taller than a page is parted.
    """
    pages: list[list[Strip]] = [[]]
    used = 0.0
    for bundle in _bundles(strips):
        if used + height_of(bundle) > room and used and height_of(bundle) <= room:
            pages.append([])
            used = 0.0
        for strip in bundle:
            if used + strip.height > room and used:
                pages.append([])
                used = 0.0
            if used or strip.drawing.signs:
                pages[-1].append(strip)
                used += strip.height
    return [page for page in pages if page] or [[]]


def hung(strips: Sequence[Strip], left: float, top: float) -> list[Laid]:
    """The strips under one another on a page, from (left, top) down."""
    laid = []
    for strip in strips:
        laid.append(Laid(strip.drawing, (left, top)))
        top -= strip.height
    return laid


def _bundles(strips: Sequence[Strip]) -> list[list[Strip]]:
    bundles: list[list[Strip]] = []
    joined = False
    for strip in strips:
        if joined:
            bundles[-1].append(strip)
        else:
            bundles.append([strip])
        joined = strip.with_next
    return bundles
