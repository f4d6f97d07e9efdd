"""How each measurement is taken, drawn: a figure with the tape as a strong line at its place."""

from collections.abc import Callable
from functools import lru_cache
from typing import Final

import numpy as np

from panelwright.app.measuring_figure import View, facing, measuring_figure, outlines, seen
from panelwright.app.measuring_places import SHOWN, bust_point, girth_at
from panelwright.body.measurement_file import FIELDS
from panelwright.body.term import Term
from panelwright.drawing.drawing import Drawing, Fill, Sign, Stroke
from panelwright.drawing.path import Path
from panelwright.drawing.pen import Pen
from panelwright.drawing.sheet import Laid, Sheet
from panelwright.errors import InputError
from panelwright.geometry.arrays import Array
from panelwright.output.svg import svg_text
from panelwright.quotation import quoted

TAPE: Final = Pen(0.9)
BEHIND: Final = Pen(0.45, (1.2, 1.0), 0.35)
FIGURE: Final = Pen(0.3, (), 0.45)
WAIST: Final = Pen(0.25, (1.0, 0.8), 0.4)
HELP: Final = Pen(0.2, (), 0.3)
SKIN: Final = 0.94
ARROW: Final = 2.4  # mm on paper, as all pens, in a picture as high as the page; thinner in a smaller one
LEAST_PEN: Final = 0.45
DOT: Final = 0.5  # mm on paper: a bust point
PAGE: Final = (70.0, 88.0)
MARGIN: Final = 1.5


def measuring_picture(name: str) -> str:
    """The picture of a measurement as an SVG document.

    Args:
        name: as in a measurement file.

    Raises:
        InputError: if there is no such measurement.
    """
    if name not in FIELDS:
        raise InputError(f"{quoted(name)} is not a measurement; those known are {', '.join(FIELDS)}", "measurement")
    return _svg(name)


@lru_cache(maxsize=len(FIELDS))
def _svg(name: str) -> str:
    term = FIELDS[name]
    sheet = Sheet(*PAGE, f"How {term.label} is taken", (Laid(measuring_drawing(term, *PAGE)),))
    return svg_text(sheet)


def measuring_drawing(term: Term, width: float, height: float) -> Drawing:
    """The picture of a measurement within `width` and `height` mm, its lower left corner at the origin."""
    figure = measuring_figure()
    shown = SHOWN[term.id](figure)
    shapes = outlines(shown.view, shown.whole)
    bounds = np.array([shape.bounds for shape in shapes])
    low, high = bounds[:, :2].min(axis=0), bounds[:, 2:].max(axis=0)
    more = [seen(run, shown.view) for run in (*(run for run, _ in shown.tapes), *shown.help)]
    low, high = (
        np.min([low, *(run.min(axis=0) for run in more)], axis=0),
        np.max([high, *(r.max(axis=0) for r in more)], axis=0),
    )
    scale = min((width - 2 * MARGIN) / (high - low)[0], (height - 2 * MARGIN) / (high - low)[1])
    finer = max(min(height / PAGE[1], 1.0), LEAST_PEN)
    shift = np.array([width, height]) / 2 - (low + high) / 2 * scale

    def on_paper(points: Array) -> Array:
        placed: Array = points * scale + shift
        return placed

    signs: list[Sign] = []
    for shape in shapes:
        path = Path.polyline(on_paper(np.array(shape.exterior.coords)[:-1]), closed=True)
        signs += [Fill(path, SKIN, "sheet"), Stroke(path, _thinned(FIGURE, finer), "sheet")]
    signs += _ring(girth_at(figure, 0.0), shown.view, on_paper, _thinned(WAIST, finer), None)
    if shown.view == "front":
        point = bust_point(figure)
        dots = on_paper(seen(np.array([point, point * [-1.0, 1.0, 1.0]]), "front"))
        signs += [Fill(Path.circle(dot, DOT * finer), 0.4, "sheet") for dot in dots]
    signs += [
        Stroke(Path.polyline(on_paper(seen(run, shown.view))), _thinned(HELP, finer), "sheet") for run in shown.help
    ]
    if shown.round is not None:
        signs += _ring(shown.round, shown.view, on_paper, _thinned(TAPE, finer), _thinned(BEHIND, finer))
    for run, ends in shown.tapes:
        signs += _tape(on_paper(seen(run, shown.view)), ends, finer)
    return Drawing(tuple(signs))


def _thinned(pen: Pen, factor: float) -> Pen:
    return Pen(pen.width * factor, tuple(length * factor for length in pen.dash), pen.shade)


def _tape(line: Array, ends: bool, finer: float) -> list[Sign]:
    signs: list[Sign] = [Stroke(Path.polyline(line), _thinned(TAPE, finer), "sheet")]
    arrow = ARROW * finer
    if ends:
        for tip, back in ((line[0], line[1]), (line[-1], line[-2])):
            way = (back - tip) / np.linalg.norm(back - tip)
            across = np.array([-way[1], way[0]])
            corners = [tip, tip + arrow * (way + 0.4 * across), tip + arrow * (way - 0.4 * across)]
            signs.append(Fill(Path.polyline(np.array(corners), closed=True), 0.0, "sheet"))
    return signs


def _ring(points: Array, view: View, on_paper: Callable[[Array], Array], before: Pen, behind: Pen | None) -> list[Sign]:
    """A closed line round the body: the part in front in one pen, the part behind it in another, or not at all."""
    front, flat = facing(points, view), on_paper(seen(points, view))
    changes = np.flatnonzero(front != np.roll(front, 1))
    if not len(changes):
        return [Stroke(Path.polyline(flat, closed=True), before, "sheet")]
    signs: list[Sign] = []
    for start, end in zip(changes, np.append(changes[1:], changes[0] + len(points)), strict=True):
        run = flat[np.arange(start, end + 1) % len(points)]
        pen = before if front[start] else behind
        if pen is not None and len(run) > 1:
            signs.append(Stroke(Path.polyline(run), pen, "sheet"))
    return signs
