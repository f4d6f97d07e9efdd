"""Designs with something wrong in each, for the words that they are told in."""

from typing import Any

Record = dict[str, Any]


def at(level: str, offset: float = 0) -> Record:
    """A height."""
    return {"level": level, **({"offset_cm": offset} if offset else {})}


TOP = {
    "kind": "top-edge",
    "uid": "n-1",
    "shape": "scooped",
    "centre": at("upper-bust", -3),
    "side": at("upper-bust", -1),
}
HEM = {"kind": "hem", "uid": "h-2", "shape": "straight", "centre": at("top-hip"), "side": at("top-hip")}
ZIP = {"kind": "closure", "uid": "c-3", "place": "centre-back", "type": "zip"}
BONES = {"kind": "bones", "uid": "b-4"}
STRAPS = {"kind": "strap", "uid": "s-5", "type": "grown"}
TIE = {"kind": "tie", "uid": "t-6", "from": "side"}
BODICE = {"kind": "bodice-top", "uid": "n-1"}


def design(*steps: Record, **parts: Record) -> Record:
    """A design file."""
    return {"format": "panelwright-design/1", "ref": "x", "title": "X", "steps": list(steps), **parts}


def channel(towards: str, fraction: float) -> Record:
    """Bones with one channel from the centre front."""
    return {**BONES, "channels": [{"line": "centre-front", "towards": towards, "fraction": fraction}]}


FAILING = (
    design(TOP, HEM, ZIP, {**ZIP, "uid": "c-7"}),
    design(TOP, {**HEM, "centre": at("hip", -10), "side": at("hip", -10)}, ZIP),
    design({**TOP, "centre": at("upper-bust", 9), "side": at("upper-bust", 9)}, HEM),
    design(TOP, {**HEM, "centre": at("upper-bust"), "side": at("upper-bust")}, ZIP, BONES),
    design(TOP, HEM, {**ZIP, "type": "lacing", "gap_cm": 20}),
    design(TOP, HEM, {**ZIP, "type": "fold"}),
    design(TOP, HEM, ZIP, channel("front-princess", 0.05)),
    design(TOP, HEM, ZIP, channel("front-princess", 0.9)),
    design(TOP, HEM, ZIP, channel("side", 0.9)),
    design(TOP, HEM, ZIP, {**BONES, "up_to": at("waist", -8)}),
    design(TOP, HEM, {**STRAPS, "at_front_cm": 30}),
    design(TOP, HEM, {**STRAPS, "length_cm": 60}),
    design(STRAPS, TOP, HEM),
    design(TOP, HEM, ZIP, TIE),
    design(TIE, TOP, HEM),
    design(TOP, HEM, {**TIE, "width_cm": 30}),
    design(TOP, HEM, {**TIE, "height": at("bust", 8)}),
    design(TOP, HEM, {**TIE, "length_cm": 20}),
    design(TOP, HEM, {**TIE, "from": "centre-front"}),
    design({**BODICE, "front_depth_cm": 29, "width_cm": 11}, HEM),
    design({**BODICE, "shoulder_in_cm": 11}, HEM, ZIP),
    design(TOP, HEM, {**BODICE, "uid": "n-7"}),
)
FOUND = (
    design(TOP, HEM, block={"ease_cm": {"waist": -8, "bust": 9}}),
    design(TOP, HEM, ZIP, block={"ease_cm": {"waist": 20}}, finish={"allowance_cm": 0}),
    design(TOP, HEM, {**ZIP, "opening_cm": 20, "zip_cm": 57}),
    design(TOP, HEM, {**ZIP, "zip_cm": 10}),
    design(TOP, HEM, BONES, {**ZIP, "type": "tie"}),
    design({**TOP, "shape": "square"}, HEM, ZIP, finish={"allowance_cm": 4.5}),
    design({**TOP, "back": at("waist", 3)}, {**HEM, "centre": at("bust", -2), "side": at("bust", -2)}, ZIP),
    design(TOP, {**HEM, "shape": "pointed", "centre": at("top-hip", -3), "side": at("waist")}, ZIP),
    design(
        TOP,
        HEM,
        ZIP,
        {**STRAPS, "width_cm": 1.5},
        finish={"allowance_by_line_cm": {"strap-neckline": 1, "strap-armhole": 1}},
    ),
    design(TOP, HEM, ZIP, cloth_to_buy={"outer": {"width_cm": 30, "folded": True}}),
    design(TOP, HEM, ZIP, {**STRAPS, "type": "separate", "length_cm": 80}),
)
