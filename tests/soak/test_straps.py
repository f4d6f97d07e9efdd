"""Straps at random on invented bodies: sound, or refused with a reason, and read by the outside verifier."""

from dataclasses import replace
from itertools import islice
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from plausible_bodies import plausible_bodies
from verifier import violations

from panelwright.app.garment import make_garment
from panelwright.app.garment_design import HEM_STEP, GarmentDesign
from panelwright.blocks.block import Block
from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions
from panelwright.body.measurements import Measurements
from panelwright.design.position import Height
from panelwright.design.strap import Strap
from panelwright.design.top_edge import TopEdge
from panelwright.errors import PanelwrightError
from panelwright.finish.options import Finish
from panelwright.output.pattern_document import pattern_to_json

BODIES, CHUNK, DESIGNS = 40, 10, 6
LEAST_ACCEPTED = 0.85  # of a chunk; nine in ten over all of them


class StrapChance:
    """Draws designs with straps; one seed gives the same designs again."""

    def __init__(self, seed: int) -> None:
        self.chance = np.random.default_rng(seed)

    def one(self, *choices: Any) -> Any:
        return choices[int(self.chance.integers(len(choices)))]

    def between(self, low: float, high: float) -> float:
        return round(float(self.chance.uniform(low, high)), 1)

    def block(self) -> BlockOptions:
        ends = {f"{half}_princess_to": self.one("shoulder", "armhole") for half in ("front", "back")}
        return BlockOptions(panels=self.one(4, 4, 6), top="shoulder", **ends)

    def top(self) -> TopEdge:
        shape = self.one("straight", "scooped", "sweetheart", "v", "square")
        low = {"straight": (-20.0, -5.0), "square": (-35.0, -10.0)}.get(shape, (-45.0, -15.0))
        side = Height("upper-bust", self.between(-20.0, -4.0))
        back = None if self.chance.random() < 0.5 else Height("upper-bust", self.between(-50.0, -5.0))
        return TopEdge("top", shape, Height("upper-bust", self.between(*low)), side, back)

    def strap(self) -> Strap:
        type, width = self.one("grown", "grown", "grown", "separate", "halter"), self.between(15.0, 60.0)
        foot = None if self.chance.random() < 0.6 else self.between(max(15.0, 0.6 * width), 1.5 * width)
        if type == "separate":
            return Strap("strap", type, width=width, foot_width=foot, crossed=bool(self.chance.random() < 0.4))
        if type == "halter":
            return Strap("strap", type, width=width, foot_width=foot, nape=self.one("seam", "one", "tie"))
        share = None if self.chance.random() < 0.4 else self.between(0.0, 1.0)
        rounding, corner = self.between(8.0, 50.0), bool(self.chance.random() < 0.2)
        return Strap("strap", share=share, width=width, foot_width=foot, rounding=rounding, corner=corner)


def faults(wearer: Measurements, design: GarmentDesign, block: Block, shared: Path) -> set[str]:
    """What our own checks and the outside verifier find wrong, without its numbers."""
    garment = make_garment(wearer, design, block=block)
    errors = {f"{f.code} {f.subject}" for f in garment.findings if f.severity == "error"}
    read = violations(shared, pattern_to_json(garment.cutting, garment.findings))
    return {error for error in errors if not error.startswith("cannot-be-put-on")} | {
        line.partition(":")[0] for line in read
    }


@pytest.mark.soak
@pytest.mark.parametrize("chunk", range(BODIES // CHUNK))
def test_straps_are_sound_or_refused_with_a_reason(chunk: int, shared: Path) -> None:
    accepted, reasons = 0, []
    bodies = enumerate(plausible_bodies(BODIES, seed=41))
    for number, wearer in islice(bodies, chunk * CHUNK, (chunk + 1) * CHUNK):
        chance = StrapChance(number)
        options = chance.block()
        block = make_block(wearer, options)
        for _ in range(DESIGNS):
            top, strap, facing = chance.top(), chance.strap(), chance.one("none", "full")
            design = GarmentDesign("proof-1", "Proof", options, (top, HEM_STEP, strap), Finish(facing=facing))
            try:
                found = faults(wearer, design, block, shared)
            except PanelwrightError as error:
                reasons.append(str(error))
                continue
            # A square top edge may have a fault of its own, at its own corner: that is not the strap's.
            if found:
                found -= faults(wearer, replace(design, steps=(top, HEM_STEP)), block, shared)
            assert found == set(), design
            accepted += 1
    assert all(len(reason) > 40 for reason in reasons)
    assert accepted >= LEAST_ACCEPTED * (accepted + len(reasons)), reasons
