"""A layout to begin with, in machine code: piece after piece as far back on the cloth as some tries bring it."""

from typing import Any, Final

import numpy as np

from panelwright.lay.search.kernel import FAR, chance, look_round, seen_depth
from panelwright.lay.search.machine_code import compiled
from panelwright.lay.search.tables import Layout, Tables

TRIES: Final = 200  # places for each piece
FINEST: Final = 0.002  # step of the last shift, as a share of a piece's size


@compiled
def is_clear(tables: Tables, laid: Layout, boxes: Any, p: int, x: float, y: float) -> bool:
    """Whether pose p at (x, y) lies in nothing that is laid; `boxes` are those of `look_round`."""
    for j in range(len(laid.poses)):
        if x <= boxes[j, 0] or x >= boxes[j, 2] or y <= boxes[j, 1] or y >= boxes[j, 3]:
            continue
        if seen_depth(tables, laid.poses[j], p, x - laid.xs[j], y - laid.ys[j]) > 0.0:
            return False
    return True


@compiled
def shifted(tables: Tables, laid: Layout, boxes: Any, p: int, x: float, y: float) -> Any:
    """(x, y) of a clear place, shifted back along the cloth, down it, and back again, as far as it stays clear."""
    room, size = tables.rooms[p], tables.sizes[p]
    for turn in range(3):
        step = size
        while step > FINEST * size:
            if turn == 1:
                new_x, new_y = x, max(y - step, room[2])
            else:
                new_x, new_y = max(x - step, room[0]), y
            if (new_x < x or new_y < y) and is_clear(tables, laid, boxes, p, new_x, new_y):
                x, y = new_x, new_y
            else:
                step /= 2.0
    return x, y


@compiled
def laid_down(tables: Tables, order: Any, spacing: float, dice: Any) -> Any:
    """(poses, xs, ys) of all pieces.

    Args:
        tables: of the task.
        order: the pieces, by their numbers, as they are laid.
        spacing: least distance of two pieces.
        dice: changed in place.
    """
    count = len(order)
    poses, xs, ys = np.zeros(count, np.int64), np.zeros(count), np.zeros(count)
    kinds_most = tables.allowed.shape[1]
    boxes = np.empty((kinds_most, count + 1, 4))
    reach = 0.0
    for number in range(count):
        piece, kinds = order[number], 0
        while kinds < kinds_most and tables.allowed[piece, kinds] >= 0:
            kinds += 1
        laid = Layout(poses[:number], xs[:number], ys[:number])
        for k in range(kinds):
            look_round(tables, laid, number, tables.allowed[piece, k], boxes[k])
        least, best_pose, best_x, best_y = FAR, 0, 0.0, 0.0
        for trial in range(TRIES + kinds):
            k = trial - TRIES if trial >= TRIES else int(chance(dice) * kinds)
            p = tables.allowed[piece, k]
            room = tables.rooms[p]
            x, y = room[0] + chance(dice) * reach, room[2] + chance(dice) * (room[3] - room[2])
            if trial >= TRIES:  # behind all others, where it is always clear
                x = room[0] + reach + 2.0 * spacing
            if x + room[1] >= least + tables.sizes[p] or not is_clear(tables, laid, boxes[k], p, x, y):
                continue
            x, y = shifted(tables, laid, boxes[k], p, x, y)
            if x + room[1] < least:
                least, best_pose, best_x, best_y = x + room[1], p, x, y
        poses[number], xs[number], ys[number] = best_pose, best_x, best_y
        reach = max(reach, least)
    return poses, xs, ys
