"""Panel surgery at random on invented bodies: steps carried out or refused with a reason, what is made of them sound,
read by the outside verifier, the same again from its file and from a fresh memo.
"""

import json
import logging
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace
from itertools import islice
from pathlib import Path

import pytest
from plausible_bodies import plausible_measurements
from random_surgery import SurgeryChance
from verifier import violations

from panelwright.app.design_file import read_design
from panelwright.app.garment import make_garment
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


def proved(chunk: int) -> tuple[Counter[str], Counter[str], list[str]]:
    """(steps carried out by kind, steps refused by kind, reasons) of a chunk's bodies."""
    accepted: Counter[str] = Counter()
    refused: Counter[str] = Counter()
    reasons = []
    for number, (ref, taken) in islice(enumerate(plausible_measurements(BODIES)), chunk * CHUNK, (chunk + 1) * CHUNK):
        chance, wearer = SurgeryChance(number), Measurements.of(ref, taken)
        blocks = {}
        for _ in range(DESIGNS):
            document = chance.design()
            design = read_design(json.dumps(document))
            block = blocks.get(design.block_options) or make_block(wearer, design.block_options)
            blocks[design.block_options] = block
            steps = design.design.steps
            assert steps_from_json(steps_to_json(steps)) == steps
            made = replay(design.design, block.pattern, ReplayMemo())
            assert replay(design.design, block.pattern, ReplayMemo()).pattern == made.pattern, document
            kinds = {step.uid: step.kind for step in steps}
            done = {outcome.step for outcome in made.outcomes if outcome.state == "done"}
            accepted.update(kinds[uid] for uid in done)
            failed = [outcome for outcome in made.outcomes if outcome.state == "failed"]
            refused.update(kinds[outcome.step] for outcome in failed)
            reasons += [outcome.reason for outcome in failed]
            kept = Design(design.ref, design.title, tuple(step for step in steps if step.uid in done))
            garment = make_garment(wearer, replace(design, steps=kept.steps), block=block)
            errors = [f for f in garment.findings if f.severity == "error" and f.code not in CHOSEN]
            assert errors == [], (ref, document)
            if VERIFIED:
                found = violations(SHARED, pattern_to_json(garment.cutting, garment.findings))
                assert found == [], (ref, document)
    return accepted, refused, reasons


@pytest.mark.soak
def test_random_surgery_is_sound_or_refused_with_a_reason() -> None:
    accepted: Counter[str] = Counter()
    refused: Counter[str] = Counter()
    reasons: list[str] = []
    with ProcessPoolExecutor() as workers:
        for taken, left, why in workers.map(proved, range(BODIES // CHUNK)):
            accepted += taken
            refused += left
            reasons += why
    if not VERIFIED:
        log.warning("the outside verifier is not there: the designs were held against our own checks alone")
    log.info("accepted %s, refused %s: %s", accepted, refused, Counter(reasons).most_common(20))
    assert all(len(reason) > 20 for reason in reasons)
    assert {kind: accepted[kind] for kind in KINDS if accepted[kind] < LEAST_EACH} == {}
    for kind in KINDS:
        assert accepted[kind] >= LEAST_ACCEPTED * (accepted[kind] + refused[kind]), (kind, reasons)
