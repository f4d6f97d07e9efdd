"""Whether places are sound, from the true outlines alone: nothing that the search computed is trusted."""

from collections.abc import Iterator

import numpy as np
import shapely

from panelwright.lay.search.task import Found, LayTask

# What is let pass, as a share of the cloth's width (and of its square): rounding.
_OFF = 1e-7
_OVERLAP = 1e-9


def flaws(task: LayTask, found: Found) -> list[str]:
    """A sentence for everything that is wrong; none where the pieces can be cut as they lie."""
    return [*_turned(task, found), *_outside(task, found), *_too_near(task, found)]


def _turned(task: LayTask, found: Found) -> Iterator[str]:
    for number, (piece, place) in enumerate(zip(task.pieces, found.places, strict=True)):
        if place.turn not in piece.turns:
            yield f"{number} may not be turned by {place.turn.degrees:g}°"
        if piece.fold is not None:
            ends = place.points(task.outlines[piece.shape])[
                [piece.fold, piece.fold - len(task.outlines[piece.shape]) + 1]
            ]
            off = float(np.abs(ends[:, 1] - (task.fold_line(piece, place.turn) or 0.0)).max())
            if off > _OFF * task.width:
                yield f"{number} lies {off:.4f} mm off the fold"


def _outside(task: LayTask, found: Found) -> Iterator[str]:
    for number, (piece, place) in enumerate(zip(task.pieces, found.places, strict=True)):
        points = place.points(task.outlines[piece.shape])
        (left, low), (right, high) = points.min(axis=0), points.max(axis=0)
        out = max(-left, -low, high - task.width, right - found.length)
        if out > _OFF * task.width:
            yield f"{number} reaches {out:.4f} mm out of the cloth"


def _too_near(task: LayTask, found: Found) -> Iterator[str]:
    areas = np.array(
        [
            shapely.Polygon(place.points(task.outlines[piece.shape]))
            for piece, place in zip(task.pieces, found.places, strict=True)
        ]
    )
    pairs = shapely.STRtree(areas).query(areas, predicate="dwithin", distance=task.spacing)
    ones, others = pairs[:, pairs[0] < pairs[1]]
    distances = shapely.distance(areas[ones], areas[others])
    for one, other, distance in zip(ones.tolist(), others.tolist(), distances.tolist(), strict=True):
        # What is apart shares nothing: most neighbours are, and an intersection takes longest of all.
        shared = 0.0 if distance > 0.0 else float(areas[one].intersection(areas[other]).area)
        if shared > _OVERLAP * task.width**2:
            yield f"{one} and {other} overlap by {shared:.6f} mm²"
        elif task.spacing - distance > _OFF * task.width:
            yield f"{one} and {other} are {task.spacing - distance:.4f} mm too near"
