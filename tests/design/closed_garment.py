"""Garments with a closure, from invented bodies: what the tests of closures share."""

from functools import cache
from typing import Any

from plausible_bodies import plausible_bodies

from panelwright.blocks.block import Block
from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions, CentreBackEdge, CentreBackShape
from panelwright.design.replay import Design, Outcome, replay
from panelwright.design.step_file import steps_from_json
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

Entry = dict[str, Any]

BODIES = tuple(plausible_bodies(4, seed=17))
TOP: Entry = {
    "kind": "top-edge",
    "uid": "neck",
    "shape": "sweetheart",
    "centre": {"level": "bust", "offset_cm": 2},
    "side": {"level": "upper-bust", "offset_cm": -1},
}
LEVEL_TOP: Entry = {**TOP, "shape": "straight", "centre": {"level": "upper-bust", "offset_cm": -1}}
HEM: Entry = {
    "kind": "hem",
    "uid": "low",
    "shape": "shaped",
    "centre": {"level": "hip", "offset_cm": 2},
    "side": {"level": "top-hip"},
    "back": {"level": "top-hip", "offset_cm": 1},
}
EDGES = (TOP, HEM)


@cache
def block(
    body: int = 0, shape: CentreBackShape = "straight", centre_back: CentreBackEdge = "opening", panels: int = 4
) -> Block:
    return make_block(BODIES[body], BlockOptions(panels=panels, centre_back_shape=shape, centre_back=centre_back))


def closing(place: str, type: str, uid: str = "shut", **fields: object) -> Entry:
    return {"kind": "closure", "uid": uid, "place": place, "type": type, **fields}


def outcomes(own: Block, *entries: Entry) -> tuple[Pattern, tuple[Outcome, ...]]:
    made = replay(Design("d-1", "Lantern bodice", steps_from_json(list(entries))), own.pattern)
    return made.pattern, made.outcomes


def made(own: Block, *closures: Entry, edges: tuple[Entry, ...] = EDGES) -> Pattern:
    pattern, done = outcomes(own, *edges, *closures)
    assert all(outcome.state == "done" for outcome in done), done
    return pattern


def refusal(own: Block, *entries: Entry) -> str:
    """Why the last step cannot be carried out."""
    _, done = outcomes(own, *entries)
    assert [outcome.state for outcome in done[:-1]] == ["done"] * (len(done) - 1)
    assert done[-1].state == "failed"
    return done[-1].reason


def widths(piece: Piece) -> dict[str, float]:
    """Level -> length of its line on a piece, mm."""
    return {line.id: line.curve.length for line in piece.inside if line.kind == "level"}
