"""Shelves: boxes side by side in rows, the tallest first, upright as they are."""

from collections.abc import Sequence

import numpy as np

from panelwright.pattern.mark import Point


def shelved(sizes: Sequence[tuple[float, float]], width: float, gap: float) -> list[Point]:
    """Where the upper left corner of each box (width, height) goes: x from 0 right, y from 0 down (negative).

    Each box stands on the first shelf that has room for it, tallest boxes first; a shelf is as tall as
    its first box. A box wider than `width` has a shelf of its own.
    """
    places: list[Point] = [(0.0, 0.0)] * len(sizes)
    shelves: list[list[float]] = []  # [used width, top]
    bottom = 0.0
    for k in np.argsort([-height for _, height in sizes], kind="stable"):
        wide, tall = sizes[k]
        shelf = next((shelf for shelf in shelves if shelf[0] + gap + wide <= width + 1e-9), None)
        if shelf is None:
            shelf = [-gap, bottom]
            shelves.append(shelf)
            bottom -= tall + gap
        places[k] = (shelf[0] + gap, shelf[1])
        shelf[0] += gap + wide
    return places
