"""A strap of its own as it lies on the wearer: the ways of its two edges over the body."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from panelwright.design.separate_strap import SewnPlace
from panelwright.design.strap import Strap
from panelwright.design.strap_length import MIRROR, WornBlock, worn
from panelwright.geometry.arrays import Array
from panelwright.pattern.pattern import Pattern

EDGE: Final = "strap-edge"  # slot of its long edges


@dataclass(frozen=True, eq=False)
class WornStrap:
    """The strap of the wearer's right side, or the one that goes round to the other front.

    Attributes:
        line: of its long edges.
        inner, outer: ways of the edge that lies nearer to the centre in front and of the other, from the front end on,
            shape (n, 3), mm.
    """

    line: str
    inner: Array
    outer: Array


def worn_strap(step: Strap, before: Pattern, block: Pattern) -> WornStrap:
    """Where a strip lies, by a taut tape along each of its edges.

    Args:
        step: of the type `separate` or `halter`.
        before: the pattern that the step was carried out on.
        block: the unmodified block.

    Raises:
        DesignError: if the step cannot be carried out there.
    """
    body = worn(block)
    front, back = step.sewn(before, block)
    ways = _round_neck(step, front, body) if back is None else _over_shoulder(step, front, back, body)
    whole = step.type == "halter" and step.nape == "one"
    inner, outer = (np.vstack([way, way[-2::-1] * MIRROR]) if whole else way for way in ways)
    return WornStrap(f"{step.uid}/{EDGE}", inner, outer)


def _over_shoulder(step: Strap, front: SewnPlace, back: SewnPlace, body: WornBlock) -> tuple[Array, Array]:
    middle, half = step.over(front.half.shoulder), step.width / 2
    tops = body.shoulder(max(middle - half, 0.0)), body.shoulder(min(middle + half, front.half.shoulder))
    behind = back.ends_in_space(body)
    if step.crossed:  # it comes down on the other side with its neck edge outwards
        behind = behind[1] * MIRROR, behind[0] * MIRROR
    inner, outer = (
        np.vstack([body.way_over(low, top), body.way_over(end, top)[-2::-1]])
        for low, top, end in zip(front.ends_in_space(body), tops, behind, strict=True)
    )
    return inner, outer


def _round_neck(step: Strap, front: SewnPlace, body: WornBlock) -> tuple[Array, Array]:
    low = front.ends_in_space(body)
    neck = _from_side(body.neck_way_behind)
    below = _below(neck, step.width, body)
    inner = np.vstack([body.way_over(low[0], neck[0])[:-1], neck])
    outer = np.vstack([body.way_over(low[1], below[0])[:-1], below])
    return inner, outer


def _from_side(way: Array) -> Array:
    """The way from the side neck point to the nape."""
    return way if way[0, 0] > way[-1, 0] else way[::-1]


def _below(neck: Array, width: float, body: WornBlock) -> Array:
    """The places `width` mm below the neck base on the back, from the shoulder to the centre back."""
    seen = neck[:, [0, 2]]
    along = np.gradient(seen, axis=0)
    down = np.column_stack([-along[:, 1], along[:, 0]]) / np.linalg.norm(along, axis=1)[:, None]
    places = seen + width * down
    places[0] = body.shoulder(width)[[0, 2]]
    places[-1, 0] = 0.0
    y = body.back(places)
    return np.column_stack([places[:, 0], np.where(np.isfinite(y), y, neck[:, 1]), places[:, 1]])
