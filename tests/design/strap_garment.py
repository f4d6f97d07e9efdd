"""Garments with straps, from invented bodies: what the tests of straps share."""

from collections.abc import Iterator
from functools import cache

import numpy as np
from plausible_bodies import plausible_bodies

from panelwright.app.garment_design import HEM_STEP
from panelwright.blocks.block import Block
from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions, PrincessTo
from panelwright.design.edge_shape import TopShape
from panelwright.design.position import Height
from panelwright.design.replay import Design, Outcome, replay
from panelwright.design.step import Step
from panelwright.design.strap import Strap
from panelwright.design.top_edge import TopEdge
from panelwright.pattern.edge import Edge
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

BODIES = tuple(plausible_bodies(6, seed=29))
CORNERS = 0.5  # mm; ends of edges nearer than this meet


@cache
def block(body: int = 0, front: PrincessTo = "shoulder", back: PrincessTo = "shoulder", panels: int = 4) -> Block:
    options = BlockOptions(panels=panels, top="shoulder", front_princess_to=front, back_princess_to=back)
    return make_block(BODIES[body], options)


def top(shape: TopShape = "sweetheart", centre: float = -35.0, back: float | None = None) -> TopEdge:
    behind = None if back is None else Height("upper-bust", back)
    return TopEdge("neck", shape, Height("upper-bust", centre), Height("upper-bust", -10.0), behind)


def outcome(own: Block, *steps: Step) -> tuple[Pattern, tuple[Outcome, ...]]:
    made = replay(Design("d-1", "Lantern bodice", steps), own.pattern)
    return made.pattern, made.outcomes


def made(own: Block, strap: Strap, edge: TopEdge | None = None) -> Pattern:
    pattern, done = outcome(own, edge or top(), HEM_STEP, strap)
    assert all(each.state == "done" for each in done), done
    return pattern


def refusal(own: Block, *steps: Step) -> str:
    _, done = outcome(own, *steps)
    return str(done[-1].reason)


def ends_on(pattern: Pattern, line: str, other: str) -> Iterator[tuple[Piece, Edge, Edge, bool]]:
    """(piece, edge on `line`, its neighbour on `other`, whether the neighbour follows) wherever the two lines meet."""
    for piece, edge in pattern.pieces_on_line(line):
        for neighbour, follows in ((piece.after(edge), True), (piece.before(edge), False)):
            if neighbour.line == other:
                yield piece, edge, neighbour, follows


def inner_angle(piece: Piece, edge: Edge, follows: bool) -> float:
    """Degrees at the corner after or before an edge."""
    return float(np.degrees(piece.inner_angle(edge if follows else piece.before(edge))))
