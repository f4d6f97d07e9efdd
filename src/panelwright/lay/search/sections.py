"""Very many unlike pieces: divided among sections of the cloth, each searched by itself, one behind the other."""

from collections.abc import Sequence
from dataclasses import replace

import shapely

from panelwright.lay.search.task import Found, LayTask, Place


def divided(task: LayTask, count: int) -> list[tuple[LayTask, list[int]]]:
    """So many tasks, and which of the task's pieces each has. Every one gets large and small shapes."""
    areas = [float(shapely.Polygon(outline).area) for outline in task.outlines]
    order = sorted(range(len(areas)), key=lambda shape: -areas[shape])
    section = {shape: place % count for place, shape in enumerate(order)}
    groups = [[k for k, piece in enumerate(task.pieces) if section[piece.shape] == number] for number in range(count)]
    return [(_only(task, group), group) for group in groups if group]


def _only(task: LayTask, group: Sequence[int]) -> LayTask:
    shapes = sorted({task.pieces[k].shape for k in group})
    number = {shape: place for place, shape in enumerate(shapes)}
    names = tuple(task.names[shape] for shape in shapes) if task.names else ()
    pieces = tuple(replace(task.pieces[k], shape=number[task.pieces[k].shape]) for k in group)
    return LayTask(task.width, tuple(task.outlines[shape] for shape in shapes), pieces, task.spacing, names)


def behind_each_other(task: LayTask, sections: Sequence[tuple[Found, Sequence[int]]]) -> Found:
    """The lays of sections as one."""
    places: dict[int, Place] = {}
    start = end = 0.0
    for found, group in sections:
        places |= {k: replace(place, x=place.x + start) for k, place in zip(group, found.places, strict=True)}
        end = start + found.length
        start = end + task.spacing
    return Found(end, tuple(places[k] for k in range(len(task.pieces))))
