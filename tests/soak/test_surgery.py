"""Panel surgery at random on invented bodies: steps carried out or refused with a reason, what is made of them sound,
read by the outside verifier, the same again from its file and from a fresh memo.
"""

import json
import logging
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field, replace
from itertools import islice
from pathlib import Path

import pytest
from plausible_bodies import plausible_measurements
from random_surgery import Record, SurgeryChance
from verifier import violations

from panelwright.app.design_file import read_design
from panelwright.app.garment import make_garment
from panelwright.app.garment_design import GarmentDesign
from panelwright.blocks.block import Block
from panelwright.blocks.make_block import make_block
from panelwright.body.measurements import Measurements
from panelwright.design.replay import Design, ReplayMemo, replay
from panelwright.design.step_file import steps_from_json, steps_to_json
from panelwright.output.pattern_document import pattern_to_json

BODIES, CHUNK, DESIGNS = 100, 5, 20
SHARED = Path(__file__).resolve().parents[3] / "shared"
VERIFIED = (SHARED / "tools" / "verify_pattern.py").is_file()
LEAST_ACCEPTED, LEAST_EACH = 0.85, 50
KINDS = {"split", "join", "unfold", "swing", "gather", "spread", "frill", "peplum"}
CHOSEN = {"cannot-be-put-on", "cannot-be-laid"}  # a matter of what was asked for
log = logging.getLogger(__name__)


@dataclass
class Proof:
    """What became of some designs.

    Attributes:
        accepted, refused: steps carried out and refused, by kind.
        reasons: why each was refused.
        faults: of body and design, one line each.
    """

    accepted: Counter[str] = field(default_factory=Counter)
    refused: Counter[str] = field(default_factory=Counter)
    reasons: list[str] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)

    def add(self, other: "Proof") -> None:
        self.accepted += other.accepted
        self.refused += other.refused
        self.reasons += other.reasons
        self.faults += other.faults

    def carry_out(self, design: GarmentDesign, wearer: Measurements, block: Block) -> Iterator[str]:
        """What is wrong with a design and what is made of it."""
        steps = design.design.steps
        if steps_from_json(steps_to_json(steps)) != steps:
            yield "its steps are not the same from their file"
        made = replay(design.design, block.pattern)
        if replay(design.design, block.pattern, ReplayMemo()) != made:
            yield "it is not the same from a fresh memo"
        kinds = {step.uid: step.kind for step in steps}
        done = {outcome.step for outcome in made.outcomes if outcome.state == "done"}
        self.accepted.update(kinds[uid] for uid in done)
        failed = [outcome for outcome in made.outcomes if outcome.state == "failed"]
        self.refused.update(kinds[outcome.step] for outcome in failed)
        self.reasons += [f"{kinds[outcome.step]}: {outcome.reason}" for outcome in failed]
        kept = Design(design.ref, design.title, tuple(step for step in steps if step.uid in done))
        garment = make_garment(wearer, replace(design, steps=kept.steps), block=block)
        yield from (f.message for f in garment.findings if f.severity == "error" and f.code not in CHOSEN)
        if VERIFIED:
            yield from violations(SHARED, pattern_to_json(garment.cutting, garment.findings))


def designs(first: int, last: int) -> Iterator[tuple[str, Measurements, int, Record]]:
    """(reference, wearer, number, design file's document) of the designs of some bodies."""
    for number, (ref, taken) in islice(enumerate(plausible_measurements(BODIES)), first, last):
        chance, wearer = SurgeryChance(number), Measurements.of(ref, taken)
        for which in range(DESIGNS):
            yield ref, wearer, which, chance.design()


def proved(chunk: int) -> Proof:
    """What became of a chunk's designs."""
    proof, blocks = Proof(), {}
    for ref, wearer, which, document in designs(chunk * CHUNK, (chunk + 1) * CHUNK):
        design = read_design(json.dumps(document))
        key = ref, design.block_options
        block = blocks[key] = blocks.get(key) or make_block(wearer, design.block_options)
        proof.faults += [f"{ref}, design {which}: {fault}" for fault in proof.carry_out(design, wearer, block)]
    return proof


@pytest.mark.soak
def test_random_surgery_is_sound_or_refused_with_a_reason() -> None:
    proof = Proof()
    with ProcessPoolExecutor() as workers:
        for part in workers.map(proved, range(BODIES // CHUNK)):
            proof.add(part)
    if not VERIFIED:
        log.warning("the outside verifier is not there: the designs were held against our own checks alone")
    log.info("accepted %s, refused %s", proof.accepted, proof.refused)
    log.info("%s", Counter(proof.reasons).most_common(20))
    assert proof.faults == []
    assert all(len(reason) > 20 for reason in proof.reasons)
    assert {kind: proof.accepted[kind] for kind in KINDS if proof.accepted[kind] < LEAST_EACH} == {}
    for kind in KINDS:
        share = proof.accepted[kind] / (proof.accepted[kind] + proof.refused[kind])
        assert share >= LEAST_ACCEPTED, (kind, proof.reasons)
