"""Garments of one invented wearer, by the records of a design file: what the tests of wearing and making share."""

from functools import cache
from typing import Any

from panelwright.blocks.block import Block
from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions, Ease
from panelwright.body.measurements import Measurements
from panelwright.body.size_table import size
from panelwright.design.replay import Design, replay
from panelwright.design.step_file import steps_from_json
from panelwright.pattern.pattern import Pattern

Record = dict[str, Any]

WEARER: Measurements = size(88)
TOP = {
    "kind": "top-edge",
    "uid": "neckline",
    "shape": "scooped",
    "centre": {"level": "upper-bust", "offset_cm": -3},
    "side": {"level": "upper-bust", "offset_cm": -1},
}
HEM = {"kind": "hem", "uid": "hem", "shape": "straight", "centre": {"level": "hip"}, "side": {"level": "hip"}}
HIGH = {"kind": "bodice-top", "uid": "top"}
WIDE = {"kind": "bodice-top", "uid": "top", "front_depth_cm": 9, "back_depth_cm": 6, "width_cm": 4}
STRAPS = {"kind": "strap", "uid": "straps", "width_cm": 3}


def closure(place: str, kind: str, **more: object) -> Record:
    return {"kind": "closure", "uid": f"{place}-closure", "place": place, "type": kind, **more}


@cache
def block(ease: float | None = None) -> Block:
    """To the shoulder, with the back cut straight; `ease` on every girth, else as usual."""
    eases = Ease() if ease is None else Ease.even(ease)
    return make_block(WEARER, BlockOptions(eases, centre_back_shape="straight", top="shoulder"))


def garment(tops: list[Record], closures: list[Record] | None = None, ease: float | None = None) -> Pattern:
    """Down to the hip: the first step above, the hem, the others, then the closures."""
    records = [*tops[:1], HEM, *tops[1:], *(closures or [])]
    made = replay(Design("on", "On and off", steps_from_json(records)), block(ease).pattern)
    assert made.complete, made.outcomes
    return made.pattern
