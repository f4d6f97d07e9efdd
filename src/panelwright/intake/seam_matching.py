"""Which of all likely pairs of edges are seams together: the likeliest whole."""

import math
from collections.abc import Mapping, Sequence
from itertools import combinations
from typing import Final

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp

from panelwright.intake.edge_trait import EdgeTrait
from panelwright.intake.seam_score import SeamScore

# A pair that agrees less than this is better left open (own trials).
LEAST_SCORE: Final = 0.55

# Two edges by their places in the list of all.
Pair = tuple[int, int]


def best_pairs(free: Sequence[EdgeTrait], weighed: Mapping[Pair, SeamScore]) -> list[Pair]:
    """The matching in which most is known to agree: each edge in one pair at most.

    No two pairs of it would make a bag, and what looks like a centre closes no ring of panels: those of one half of the
    body make a row from centre to centre.
    """
    centres = {k for k, trait in enumerate(free) if _like_centre(trait, free)}
    likely = {
        pair: (weight.value - LEAST_SCORE) * weight.weight * _tells(free[pair[0]], free[pair[1]])
        for pair, weight in weighed.items()
        if weight.value > LEAST_SCORE and not centres.issuperset(pair)
    }
    barred = [
        {first, second}
        for first, second in combinations(likely, 2)
        if _bag(*(free[k] for k in first), *(free[k] for k in second))
    ]
    while True:
        chosen = _matching(likely, barred)
        ring = next((ring for pair in chosen if centres & set(pair) if (ring := _ring(pair, chosen, free))), None)
        if ring is None:
            return chosen
        barred.append(ring)


def _tells(a: EdgeTrait, b: EdgeTrait) -> float:
    """How much it tells that two edges agree: long ones hardly do by chance."""
    return math.sqrt(min(a.curve.length, b.curve.length))


def _matching(likely: Mapping[Pair, float], barred: Sequence[set[Pair]]) -> list[Pair]:
    """The pairs of largest sum that share no edge, and of each barred set all but one at most."""
    if not likely:
        return []
    edges = sorted({edge for pair in likely for edge in pair})
    rows = [[float(edge in pair) for pair in likely] for edge in edges]
    rows += [[float(pair in together) for pair in likely] for together in barred]
    most = np.array([1.0] * len(edges) + [len(together) - 1.0 for together in barred])
    whole = milp(
        -np.array(list(likely.values())),
        integrality=np.ones(len(likely), int),
        bounds=Bounds(0, 1),
        constraints=LinearConstraint(np.array(rows), -np.inf, most),
    )
    taken = np.zeros(len(likely)) if whole.x is None else whole.x
    return [pair for pair, share in zip(likely, taken, strict=True) if share > 0.5]


def _like_centre(trait: EdgeTrait, free: Sequence[EdgeTrait]) -> bool:
    """Whether an edge is straight up the body while another of its piece that runs up it is not."""
    others = [other for other in free if other.piece.id == trait.piece.id and other.upright]
    return trait.role == "seam" and trait.plumb and any(not other.plumb for other in others)


def _bag(a: EdgeTrait, b: EdgeTrait, c: EdgeTrait, d: EdgeTrait) -> bool:
    """Whether the seams a-b and c-d join the same two pieces round a corner that both have: it would stand up."""
    for here, there in ((c, d), (d, c)):
        if (a.piece.id, b.piece.id) == (here.piece.id, there.piece.id):
            return _beside(a, here) and _beside(b, there)
    return False


def _beside(a: EdgeTrait, b: EdgeTrait) -> bool:
    return (a.ref.number - b.ref.number) % len(a.piece.edges) in (1, len(a.piece.edges) - 1)


def _ring(pair: Pair, chosen: Sequence[Pair], free: Sequence[EdgeTrait]) -> set[Pair] | None:
    """The pairs of upright edges that make a ring of panels with this one; None where it closes none."""
    start, end = (free[k].piece.id for k in pair)
    ways: dict[str, set[Pair]] = {start: {pair}}
    reached = [start]
    for piece in reached:
        for other in chosen:
            if other == pair or not all(free[k].upright for k in other):
                continue
            a, b = (free[k].piece.id for k in other)
            there = b if a == piece else a if b == piece else None
            if there is not None and there not in ways:
                ways[there] = {*ways[piece], other}
                reached.append(there)
    return ways.get(end)
