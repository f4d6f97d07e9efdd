"""Where the sum of two outlines ends, in machine code: edges of one at corners of the other, where nothing covers them.

The sum is all a + b, with a in the one and b in the other. Its boundary consists of stretches of edges of one outline
laid at outward corners of the other (A. Behar and J.-M. Lien, 2011, call these the reduced convolution). What of them
lies inside the sum of any two convex parts is cut away; what is left is linked to rings.
"""

from typing import Any, Final

import numpy as np

from panelwright.geometry.arrays import Array
from panelwright.lay.search.machine_code import compiled

# As shares of the sum's size: what lies so near is the same, what is so short is dropped, ends so near are linked.
SAME: Final = 1e-12
SHORT: Final = 1e-9
LINKED: Final = 3e-8
PARALLEL: Final = 1e-12  # sine of an angle that counts as none


@compiled
def lowest(ring: Array) -> int:
    """The number of the lowest corner, of two the left one."""
    best = 0
    for k in range(1, len(ring)):
        if ring[k, 1] < ring[best, 1] or (ring[k, 1] == ring[best, 1] and ring[k, 0] < ring[best, 0]):
            best = k
    return best


@compiled
def convex_sum(one: Array, other: Array, made: Array) -> int:
    """Fill in the corners of the sum of two convex polygons; returns how many. All run anticlockwise."""
    n, m, count = len(one), len(other), 0
    first, second = lowest(one), lowest(other)
    i, j = 0, 0
    while i < n or j < m:
        a, b = one[(first + i) % n], other[(second + j) % m]
        made[count, 0], made[count, 1] = a[0] + b[0], a[1] + b[1]
        count += 1
        next_a, next_b = one[(first + i + 1) % n], other[(second + j + 1) % m]
        turn = (next_a[0] - a[0]) * (next_b[1] - b[1]) - (next_a[1] - a[1]) * (next_b[0] - b[0])
        step_one = j >= m or (i < n and turn >= 0.0)
        step_other = i >= n or (j < m and turn <= 0.0)
        i += step_one
        j += step_other
    return count


@compiled
def convex_sums(one: Array, one_starts: Any, other: Array, other_starts: Any, same: float) -> Any:
    """The sums of every two convex parts.

    Returns:
        (inner half planes (x, y, c), where x·px + y·py > c, of all sums; first of each sum; boxes of the sums).
    """
    ones, others = len(one_starts) - 1, len(other_starts) - 1
    planes = np.empty((ones * len(other) + others * len(one), 3))
    starts, boxes = np.zeros(ones * others + 1, np.int64), np.empty((ones * others, 4))
    ring = np.empty((len(one) + len(other), 2))
    used, number = 0, 0
    for i in range(ones):
        part = one[one_starts[i] : one_starts[i + 1]]
        for j in range(others):
            count = convex_sum(part, other[other_starts[j] : other_starts[j + 1]], ring)
            for k in range(count):
                x, y = ring[k]
                dx, dy = ring[(k + 1) % count, 0] - x, ring[(k + 1) % count, 1] - y
                long = np.sqrt(dx * dx + dy * dy)
                if long > same:
                    planes[used, 0], planes[used, 1] = -dy / long, dx / long
                    planes[used, 2] = (dx * y - dy * x) / long + same
                    used += 1
            boxes[number, 0], boxes[number, 1] = ring[:count, 0].min(), ring[:count, 1].min()
            boxes[number, 2], boxes[number, 3] = ring[:count, 0].max(), ring[:count, 1].max()
            number += 1
            starts[number] = used
    return planes, starts, boxes


@compiled
def edges_at_corners(corners: Array, edges: Array, made: Array, count: int) -> int:
    """Add the edges of one outline at every corner of the other that they may slide past; returns how many now."""
    n, m = len(corners), len(edges)
    for v in range(n):
        ux, uy = corners[v, 0] - corners[v - 1, 0], corners[v, 1] - corners[v - 1, 1]
        wx, wy = corners[(v + 1) % n, 0] - corners[v, 0], corners[(v + 1) % n, 1] - corners[v, 1]
        u, w = np.sqrt(ux * ux + uy * uy), np.sqrt(wx * wx + wy * wy)
        if ux * wy - uy * wx < -PARALLEL * u * w:
            continue
        ahead = ux * wx + uy * wy > 0.0
        for e in range(m):
            dx, dy = edges[(e + 1) % m, 0] - edges[e, 0], edges[(e + 1) % m, 1] - edges[e, 1]
            d = np.sqrt(dx * dx + dy * dy)
            if ux * dy - uy * dx < -PARALLEL * u * d or dx * wy - dy * wx < -PARALLEL * d * w:
                continue
            if ahead and ux * dx + uy * dy < 0.0:
                continue
            made[count, 0], made[count, 1] = corners[v, 0] + edges[e, 0], corners[v, 1] + edges[e, 1]
            made[count, 2], made[count, 3] = made[count, 0] + dx, made[count, 1] + dy
            count += 1
    return count


@compiled
def cut_away(free: Array, count: int, low: float, high: float) -> int:
    """Take (low, high) out of stretches of one edge; returns how many there are then."""
    k = 0
    while k < count:
        start, end = free[k]
        if high <= start or low >= end:
            k += 1
            continue
        if low > start and high < end:
            free[count, 0], free[count, 1] = high, end
            free[k, 1] = low
            return count + 1
        if low > start:
            free[k, 1] = low
            k += 1
        elif high < end:
            free[k, 0] = high
            k += 1
        else:
            count -= 1
            free[k, 0], free[k, 1] = free[count]
    return count


@compiled
def stretch_inside(planes: Array, x: float, y: float, dx: float, dy: float) -> Any:
    """(first, last) share of an edge that lies inside a convex polygon; first > last where none does."""
    low, high = 0.0, 1.0
    long = np.sqrt(dx * dx + dy * dy)
    for k in range(len(planes)):
        here = planes[k, 0] * x + planes[k, 1] * y - planes[k, 2]
        slope = planes[k, 0] * dx + planes[k, 1] * dy
        if abs(slope) <= PARALLEL * long:
            if here <= 0.0:
                return 1.0, 0.0
        elif slope > 0.0:
            low = max(low, -here / slope)
        else:
            high = min(high, -here / slope)
        if low >= high:
            return 1.0, 0.0
    return low, high


@compiled
def overlap(kept: Array, x: float, y: float, dx: float, dy: float, same: float) -> Any:
    """(first, last) share of an edge that an edge in the same line and direction covers; first > last where none."""
    ex, ey = kept[2] - kept[0], kept[3] - kept[1]
    square = dx * dx + dy * dy
    long = np.sqrt(square)
    if ex * dx + ey * dy <= 0.0 or abs(ex * dy - ey * dx) > 8.0 * same * long:
        return 1.0, 0.0
    if abs((kept[0] - x) * dy - (kept[1] - y) * dx) > 8.0 * same * long:
        return 1.0, 0.0
    low = ((kept[0] - x) * dx + (kept[1] - y) * dy) / square
    high = ((kept[2] - x) * dx + (kept[3] - y) * dy) / square
    return low, high


@compiled
def uncovered(edges: Array, planes: Array, starts: Any, boxes: Array, same: float, short: float) -> Array:
    """The stretches of edges that lie in no sum, shape (k, 4); of such as lie on each other, one."""
    kept, count = np.empty((len(edges) + 64, 4)), 0
    free = np.empty((len(boxes) + len(edges) + 65, 2))
    for e in range(len(edges)):
        x, y = edges[e, 0], edges[e, 1]
        dx, dy = edges[e, 2] - x, edges[e, 3] - y
        left, right, bottom, top = min(x, x + dx), max(x, x + dx), min(y, y + dy), max(y, y + dy)
        free[0, 0], free[0, 1], stretches = 0.0, 1.0, 1
        for k in range(len(boxes)):
            if right <= boxes[k, 0] or left >= boxes[k, 2] or top <= boxes[k, 1] or bottom >= boxes[k, 3]:
                continue
            low, high = stretch_inside(planes[starts[k] : starts[k + 1]], x, y, dx, dy)
            if low < high:
                stretches = cut_away(free, stretches, low, high)
            if stretches == 0:
                break
        for k in range(count):
            if stretches == 0:
                break
            low, high = overlap(kept[k], x, y, dx, dy, same)
            if low < high:
                stretches = cut_away(free, stretches, low, high)
        if count + stretches > len(kept):
            more = np.empty((2 * len(kept) + stretches, 4))
            more[:count] = kept[:count]
            kept = more
            wider = np.empty((len(boxes) + len(kept) + 1, 2))
            wider[:stretches] = free[:stretches]
            free = wider
        long = np.sqrt(dx * dx + dy * dy)
        for k in range(stretches):
            start, end = free[k]
            if (end - start) * long > short:
                kept[count, 0], kept[count, 1] = x + start * dx, y + start * dy
                kept[count, 2], kept[count, 3] = x + end * dx, y + end * dy
                count += 1
    return kept[:count]


@compiled
def linked(pieces: Array, near: float) -> Array:
    """The stretches in order, each beginning where one before it ends, in closed rings; none if they don't close."""
    count = len(pieces)
    used = np.zeros(count, np.bool_)
    made = np.empty((count, 4))
    k, first, placed = 0, -1, 0
    while placed < count:
        if first < 0:
            while used[k]:
                k += 1
            first, at = placed, k
            used[k] = True
            made[placed] = pieces[k]
            placed += 1
        best, least = -1, near
        for j in range(count):
            if not used[j]:
                gap = max(abs(pieces[j, 0] - pieces[at, 2]), abs(pieces[j, 1] - pieces[at, 3]))
                if gap <= least:
                    best, least = j, gap
        home = max(abs(made[first, 0] - pieces[at, 2]), abs(made[first, 1] - pieces[at, 3]))
        if home <= least:
            made[placed - 1, 2], made[placed - 1, 3] = made[first, 0], made[first, 1]
            first = -1
        elif best < 0:
            return made[:0]
        else:
            at = best
            used[at] = True
            made[placed] = pieces[at]
            made[placed - 1, 2], made[placed - 1, 3] = made[placed, 0], made[placed, 1]
            placed += 1
    return made if first < 0 else closed(made, first, near)


@compiled
def closed(made: Array, first: int, near: float) -> Array:
    """All stretches if the last ring comes back to where it begins; else none."""
    last = made[-1]
    if max(abs(made[first, 0] - last[2]), abs(made[first, 1] - last[3])) > near:
        return made[:0]
    last[2], last[3] = made[first, 0], made[first, 1]
    return made


@compiled
def boundary(
    one: Array, one_parts: Array, one_starts: Any, other: Array, other_parts: Array, other_starts: Any
) -> Array:
    """The boundary of the sum of two outlines: stretches (x, y, x, y), shape (k, 4), the sum on their left.

    Args:
        one, other: outlines, shape (n, 2), open, anticlockwise.
        one_parts, other_parts: corners of convex polygons that cover them, one after another.
        one_starts, other_starts: the number of each one's first corner, and how many corners there are in all.

    Returns:
        nothing where rounding leaves rings that don't close.
    """
    # Far from the origin rounding would be larger than what counts as the same.
    middle, other_middle = one[0].copy(), other[0].copy()
    one, one_parts = one - middle, one_parts - middle
    other, other_parts = other - other_middle, other_parts - other_middle
    size = max(np.ptp(one[:, 0]) + np.ptp(other[:, 0]), np.ptp(one[:, 1]) + np.ptp(other[:, 1]))
    edges = np.empty((2 * len(one) * len(other), 4))
    count = edges_at_corners(one, other, edges, 0)
    count = edges_at_corners(other, one, edges, count)
    planes, starts, boxes = convex_sums(one_parts, one_starts, other_parts, other_starts, SAME * size)
    made = linked(uncovered(edges[:count], planes, starts, boxes, SAME * size, SHORT * size), LINKED * size)
    made[:, :2] += middle + other_middle
    made[:, 2:] += middle + other_middle
    return made
