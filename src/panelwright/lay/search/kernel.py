"""The inner loops of the search: how far pieces lie in each other, and where one had better lie.

Compiled on first use and kept beside this file or in the user's cache, so that the first lay on a computer takes some
seconds longer. Everything is plain numbers and arrays; `Tables` says what they mean. `dice` is the state of the random
numbers, which makes a search repeat exactly.
"""

from typing import Any, Final

import numpy as np

from panelwright.geometry.arrays import Array
from panelwright.lay.search.machine_code import compiled, compiled_in_any_order
from panelwright.lay.search.tables import Layout, Tables

FAR: Final = 1e300
KEPT: Final = 3  # places that are looked at more closely
# Steps of that look, as shares of a piece's length.
WIDE_STEP: Final = 0.08
FINE_STEP: Final = 0.01
LEAST_STEP: Final = 0.0005


@compiled
def chance(dice: Any) -> float:
    """The next random number in [0, 1): 64 bits, shifted into themselves three times and multiplied."""
    x = dice[0]
    x ^= x >> np.uint64(12)
    x ^= x << np.uint64(25)
    x ^= x >> np.uint64(27)
    dice[0] = x
    return float((x * np.uint64(2685821657736338717)) >> np.uint64(11)) / 9007199254740992.0


@compiled_in_any_order
def depth(edges: Array, first: int, last: int, x: float, y: float) -> float:
    """How far (x, y) lies inside a no-fit polygon, 0 outside: the shortest way to push the two pieces apart."""
    left, low, high = edges[0, first:last], edges[1, first:last], edges[2, first:last]
    slope = edges[6, first:last]
    crossed = 0
    for k in range(last - first):  # written without branches, so that several edges are looked at in one step
        crossed += ((low[k] > y) != (high[k] > y)) & (x < left[k] + (y - low[k]) * slope[k])
    if crossed % 2 == 0:
        return 0.0
    across, up, square = edges[3, first:last], edges[4, first:last], edges[5, first:last]
    least = FAR
    for k in range(last - first):
        px, py = x - left[k], y - low[k]
        along = min(max((px * across[k] + py * up[k]) * square[k], 0.0), 1.0)
        px -= along * across[k]
        py -= along * up[k]
        least = min(least, px * px + py * py)
    return float(np.sqrt(least))


@compiled
def seen_depth(tables: Tables, p: int, q: int, x: float, y: float) -> float:
    """How deep pose q lies in pose p if it is (x, y) away from it."""
    ring, view = tables.rings[p, q], tables.views[p, q]
    seen_x, seen_y = view[0] * x + view[1] * y, view[2] * x + view[3] * y
    return depth(tables.edges, tables.ranges[ring, 0], tables.ranges[ring, 1], seen_x, seen_y)


@compiled
def pair_loss(tables: Tables, p: int, q: int, x: float, y: float) -> float:
    """What it costs that pose q lies at (x, y) as seen from pose p."""
    box = tables.boxes[p, q]
    if x <= box[0] or y <= box[1] or x >= box[2] or y >= box[3]:
        return 0.0
    return float(seen_depth(tables, p, q, x, y) * tables.scale[p, q])


@compiled
def look_round(tables: Tables, layout: Layout, i: int, p: int, boxes: Array) -> None:
    """Fill in where i in pose p is near each of the others: left, bottom, right, top; never near itself."""
    for j in range(len(layout.poses)):
        box = tables.boxes[layout.poses[j], p]
        boxes[j, 0], boxes[j, 2] = layout.xs[j] + box[0], layout.xs[j] + box[2]
        boxes[j, 1], boxes[j, 3] = layout.ys[j] + box[1], layout.ys[j] + box[3]
    boxes[i, 0], boxes[i, 2] = FAR, -FAR


@compiled
def loss_at(
    tables: Tables, layout: Layout, weights: Array, boxes: Array, i: int, p: int, x: float, y: float, bound: float
) -> float:
    """What it costs to lay i in pose p at (x, y), each neighbour by its weight; given up when it passes `bound`.

    `boxes` are those of `look_round`.
    """
    total: float = 0.0
    for j in range(len(boxes)):
        if x <= boxes[j, 0] or x >= boxes[j, 2] or y <= boxes[j, 1] or y >= boxes[j, 3]:
            continue
        q = layout.poses[j]
        inside = seen_depth(tables, q, p, x - layout.xs[j], y - layout.ys[j])
        if inside > 0.0:
            total += float(weights[i, j] * inside * tables.scale[q, p])
            if total >= bound:
                return total
    return total


@compiled
def within(value: float, low: float, high: float) -> float:
    """The value, brought between two bounds."""
    return min(max(value, low), high)


@compiled
def descend(
    tables: Tables,
    layout: Layout,
    weights: Array,
    boxes: Array,
    length: float,
    dice: Any,
    i: int,
    at: Any,
    steps: Any,
) -> Any:
    """Walk downhill from a place along the axes and between them.

    Args:
        tables, layout, weights, length, dice, i: as in `move`.
        boxes: of `look_round` for i in the pose.
        at: (pose, x, y, loss).
        steps: first and last, as shares of the piece's length.

    Returns:
        (x, y, loss) at the foot.
    """
    p, x, y, value = at
    first, last = steps[0] * tables.sizes[p], steps[1] * tables.sizes[p]
    step_x, step_y = first, first
    room = tables.rooms[p]
    pinned = tables.pinned[i]
    while max(step_x, step_y) > last and value > 0.0:
        axis = 0 if pinned else int(chance(dice) * 4)
        dx = 0.0 if axis == 1 else step_x
        dy = 0.0 if axis == 0 else (-step_y if axis == 3 else step_y)
        better = False
        for sign in (1.0, -1.0):
            new_x = within(x + sign * dx, room[0], length - room[1])
            new_y = within(y + sign * dy, room[2], room[3])
            new = loss_at(tables, layout, weights, boxes, i, p, new_x, new_y, value)
            if new < value:
                x, y, value, better = new_x, new_y, new, True
                break
        factor = 1.1 if better else 0.5
        if axis > 1:
            factor = np.sqrt(factor)
        if axis != 1:
            step_x *= factor
        if axis != 0:
            step_y *= factor
        if pinned:
            step_y = step_x
    return x, y, value


@compiled
def move(
    tables: Tables, layout: Layout, weights: Array, length: float, dice: Any, i: int, wide: int, near: int
) -> None:
    """Put i where it lies in the others least.

    Args:
        tables: of the task.
        layout: changed in place.
        weights: shape (n, n), what a loss counts.
        length: of the cloth.
        dice: changed in place.
        i: what is put.
        wide: places tried anywhere.
        near: places tried around where it lies.
    """
    pose, x, y = layout.poses[i], layout.xs[i], layout.ys[i]
    kinds = 0
    while kinds < tables.allowed.shape[1] and tables.allowed[i, kinds] >= 0:
        kinds += 1
    boxes = np.empty((kinds, len(layout.poses), 4))
    kind = 0
    for k in range(kinds):
        look_round(tables, layout, i, tables.allowed[i, k], boxes[k])
        if tables.allowed[i, k] == pose:
            kind = k
    here = loss_at(tables, layout, weights, boxes[kind], i, pose, x, y, FAR)
    if here <= 0.0:
        return
    values, ways, xs, ys = np.full(KEPT, FAR), np.zeros(KEPT, np.int64), np.zeros(KEPT), np.zeros(KEPT)
    values[0], ways[0], xs[0], ys[0] = here, kind, x, y
    for number in range(wide + near):
        kind = int(chance(dice) * kinds)
        p = tables.allowed[i, kind]
        room = tables.rooms[p]
        across, along = chance(dice), chance(dice)
        if room[0] + room[1] > length:
            continue
        if number < wide:
            x = room[0] + along * (length - room[1] - room[0])
            y = room[2] + across * (room[3] - room[2])
        else:
            x = within(layout.xs[i] + (along - 0.5) * tables.sizes[p], room[0], length - room[1])
            y = within(layout.ys[i] + (across - 0.5) * tables.sizes[p], room[2], room[3])
        value = loss_at(tables, layout, weights, boxes[kind], i, p, x, y, values[KEPT - 1])
        if value < values[KEPT - 1]:
            k = KEPT - 1
            while k > 0 and values[k - 1] > value:
                values[k], ways[k], xs[k], ys[k] = values[k - 1], ways[k - 1], xs[k - 1], ys[k - 1]
                k -= 1
            values[k], ways[k], xs[k], ys[k] = value, kind, x, y
    best = 0
    for k in range(KEPT):
        if values[k] < FAR:
            at = (tables.allowed[i, ways[k]], xs[k], ys[k], values[k])
            steps = (WIDE_STEP, FINE_STEP)
            there = boxes[ways[k]]
            xs[k], ys[k], values[k] = descend(tables, layout, weights, there, length, dice, i, at, steps)
            if values[k] < values[best]:
                best = k
    p = tables.allowed[i, ways[best]]
    at = (p, xs[best], ys[best], values[best])
    steps = (FINE_STEP, LEAST_STEP)
    x, y, value = descend(tables, layout, weights, boxes[ways[best]], length, dice, i, at, steps)
    if value < here:
        layout.poses[i], layout.xs[i], layout.ys[i] = p, x, y


@compiled
def measure(tables: Tables, layout: Layout, i: int, losses: Array) -> None:
    """Fill in what i loses to all others."""
    poses, xs, ys = layout.poses, layout.xs, layout.ys
    for j in range(len(poses)):
        if j != i:
            value = pair_loss(tables, poses[j], poses[i], xs[i] - xs[j], ys[i] - ys[j])
            losses[i, j] = value
            losses[j, i] = value


@compiled
def reweigh(losses: Array, weights: Array) -> None:
    """What still lies in each other counts more from now on, everything else less."""
    most = losses.max()
    for i in range(len(losses)):
        for j in range(i):
            if losses[i, j] > 0.0:
                weights[i, j] *= 1.2 + 0.8 * losses[i, j] / most
            else:
                weights[i, j] = max(1.0, weights[i, j] * 0.95)
            weights[j, i] = weights[i, j]


@compiled
def keep(layout: Layout, best: Layout, total: float) -> float:
    """Copy a layout to the best one; returns what it loses."""
    best.poses[:] = layout.poses
    best.xs[:] = layout.xs
    best.ys[:] = layout.ys
    return total


@compiled
def shuffle(order: Any, dice: Any) -> None:
    """Put the numbers in a random order."""
    for k in range(len(order) - 1, 0, -1):
        j = int(chance(dice) * (k + 1))
        order[k], order[j] = order[j], order[k]


@compiled
def rounds(
    tables: Tables, layout: Layout, best: Layout, weights: Array, length: float, dice: Any, so_far: Any, limits: Any
) -> Any:
    """Move what lies in something else, round after round.

    Args:
        tables: of the task.
        layout: changed in place.
        best: what lost least so far, changed in place.
        weights: changed in place.
        length: of the cloth.
        dice: changed in place.
        so_far: (least loss, rounds in a row that brought little).
        limits: (rounds in a row that may bring little, rounds now, places tried anywhere, places tried near).

    Returns:
        (least loss, rounds in a row that brought little, moves made).
    """
    least, idle = so_far
    patience, now, wide, near = limits
    count, moves, begun = len(layout.poses), 0, least < FAR
    losses = np.zeros((count, count))
    for i in range(count):
        measure(tables, layout, i, losses)
    if not begun:
        least = keep(layout, best, losses.sum() / 2)
    order = np.arange(count)
    for _ in range(now):
        if least <= 0.0 or idle >= patience:
            break
        if begun:
            reweigh(losses, weights)
        begun = True
        shuffle(order, dice)
        for k in range(count):
            i = order[k]
            if losses[i].max() > 0.0:
                move(tables, layout, weights, length, dice, i, wide, near)
                measure(tables, layout, i, losses)
                moves += 1
        total = losses.sum() / 2
        idle = 0 if total < 0.98 * least else idle + (total >= least)
        if total < least:
            least = keep(layout, best, total)
    return least, idle, moves
