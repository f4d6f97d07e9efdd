"""Every option of a design, at random on invented bodies: sound or refused with a reason, and read by the outside
verifier.

Three errors are no fault of the program: a closed garment that its wearer cannot get into (`cannot-be-put-on`), a
piece too wide for the cloth (`cannot-be-laid`) and a tie whose length chance drew far too short for the wearer
(`given-length-short`). The pattern itself is sound all the same.
"""

import json
import logging
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from itertools import islice
from pathlib import Path

import pytest
from plausible_bodies import plausible_measurements
from random_design import DesignChance
from verifier import violations

from panelwright.app.design_file import read_design
from panelwright.app.garment import make_garment
from panelwright.blocks.make_block import make_block
from panelwright.body.measurements import Measurements
from panelwright.errors import PanelwrightError
from panelwright.output.pattern_document import pattern_to_json

BODIES, CHUNK, DESIGNS = 432, 12, 4
SHARED = Path(__file__).resolve().parents[3] / "shared"
VERIFIED = (SHARED / "tools" / "verify_pattern.py").is_file()
LEAST_ACCEPTED = 0.9
LEAST_EACH = 50
CHOSEN = {"cannot-be-put-on", "cannot-be-laid", "given-length-short"}  # a matter of what was asked for
log = logging.getLogger(__name__)


def proved(chunk: int) -> tuple[Counter[str], Counter[str], list[str]]:
    """(accepted options, refused options, reasons) of a chunk's bodies, each of whose patterns was read outside."""
    accepted: Counter[str] = Counter()
    refused: Counter[str] = Counter()
    reasons = []
    bodies = enumerate(plausible_measurements(BODIES))
    for number, (ref, taken) in islice(bodies, chunk * CHUNK, (chunk + 1) * CHUNK):
        chance = DesignChance(number)
        options, block = chance.block(), None
        for place in range(DESIGNS):
            drawn = chance.design(options)
            design = read_design(json.dumps(drawn.document))
            wearer = Measurements.of(ref, taken)
            block = block or make_block(wearer, design.block_options)
            try:
                garment = make_garment(wearer, design, block=block)
            except PanelwrightError as error:
                reasons.append(str(error))
                refused.update(("all", *drawn.options))
                continue
            errors = [finding for finding in garment.findings if finding.severity == "error"]
            errors = [finding for finding in errors if finding.code not in CHOSEN]
            assert errors == [], (ref, drawn.document)
            if place == 0:  # making a lay proves it, and takes longest: one for every body
                assert len(garment.lays) == len(garment.cloths), (ref, drawn.document)
            if VERIFIED:
                found = violations(SHARED, pattern_to_json(garment.cutting, garment.findings))
                assert found == [], (ref, drawn.document)
            accepted.update(("all", *drawn.options))
    return accepted, refused, reasons


@pytest.mark.soak
def test_random_designs_are_sound_or_refused_with_a_reason() -> None:
    accepted: Counter[str] = Counter()
    refused: Counter[str] = Counter()
    reasons: list[str] = []
    with ProcessPoolExecutor() as workers:
        for taken, left, why in workers.map(proved, range(BODIES // CHUNK)):
            accepted += taken
            refused += left
            reasons += why
    log.info("accepted %s, refused %s: %s", accepted, refused, Counter(reasons).most_common())
    assert all(len(reason) > 20 for reason in reasons)
    assert accepted["all"] >= 300
    assert accepted["all"] >= LEAST_ACCEPTED * (accepted["all"] + refused["all"]), reasons
    rare = {option: count for option, count in accepted.items() if count < LEAST_EACH}
    assert rare == {}
    assert set(refused) <= set(accepted), "an option that was never accepted"
