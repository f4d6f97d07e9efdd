"""Shapes for tests: stars with arms of random length, and the tasks made of them."""

import numpy as np

from panelwright.geometry.arrays import Array
from panelwright.lay.search.task import LayTask, ToLay, Turn

EITHER = (Turn(), Turn(180.0))
ANY = (*EITHER, Turn(0.0, mirrored=True), Turn(180.0, mirrored=True))


def star(generator: np.random.Generator, arms: int, most: float = 100.0) -> Array:
    """An outline round its origin, anticlockwise."""
    angles = 2 * np.pi * (np.arange(arms) + generator.uniform(-0.3, 0.3, arms)) / arms
    far = generator.uniform(0.25 * most, most, arms)
    return np.column_stack([far * np.cos(angles), far * np.sin(angles)])


def box(length: float, width: float) -> Array:
    """A rectangle, its lower left corner at the origin."""
    return np.array([[0.0, 0.0], [length, 0.0], [length, width], [0.0, width]])


def task_of(outlines: list[Array], width: float, spacing: float = 0.0, turns: tuple[Turn, ...] = ANY) -> LayTask:
    """Each laid once."""
    return LayTask(width, tuple(outlines), tuple(ToLay(k, turns) for k in range(len(outlines))), spacing)
