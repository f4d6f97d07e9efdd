"""A lay that always works: pieces in columns by the boxes around them. The search begins with it."""

import numpy as np

from panelwright.lay.search.task import Found, LayTask, Place, ToLay, Turn


def on_shelves(task: LayTask) -> Found:
    """Places for everything; long pieces first, those on the fold at the foot of a column of their own."""
    boxes = [_flattest(task, piece) for piece in task.pieces]
    order = sorted(range(len(boxes)), key=lambda k: (task.pieces[k].fold is None, -boxes[k][1]))
    places: dict[int, Place] = {}
    left, right, low = 0.0, 0.0, 0.0
    for k in order:
        turn, along, across = boxes[k]
        if places and (low + across > task.width or task.pieces[k].fold is not None):
            left, low = right + task.spacing, 0.0
        points = turn.points(task.outlines[task.pieces[k].shape])
        x, y = np.array([left, low]) - points.min(axis=0)
        fold = task.pieces[k].fold
        places[k] = Place(turn, float(x), float(y) if fold is None else -float(points[fold, 1]))
        right, low = max(right, left + along), low + across + task.spacing
    return Found(right, tuple(places[k] for k in range(len(boxes))))


def _flattest(task: LayTask, piece: ToLay) -> tuple[Turn, float, float]:
    """(turn, along the cloth, across it) of the way to lie that fits and takes least of the cloth's length."""
    ways = []
    for turn in piece.turns:
        along, across = np.ptp(turn.points(task.outlines[piece.shape]), axis=0)
        if across <= task.width * (1 + 1e-9) and not task.fold_line(piece, turn):  # a column begins at its foot
            ways.append((turn, float(along), float(across)))
    return min(ways, key=lambda way: way[1])
