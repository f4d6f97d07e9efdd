"""Every closure on invented bodies, panels, necklines and hems drawn by lot, read by the outside verifier."""

from collections import Counter
from pathlib import Path

import numpy as np
import pytest
from design.closed_garment import Entry, closing
from plausible_bodies import plausible_bodies
from verifier import violations

from panelwright.app.garment import make_garment
from panelwright.app.garment_design import GarmentDesign
from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions
from panelwright.checks.level_girth import drawn_girth
from panelwright.design.hem import Hem
from panelwright.design.position import Height
from panelwright.design.step_file import steps_from_json
from panelwright.design.top_edge import TopEdge
from panelwright.errors import DesignError
from panelwright.finish.options import Finish
from panelwright.output.pattern_document import pattern_to_json

BODIES, OF_EACH = 40, 8
UNDERARM = Height("upper-bust", offset=-4.0)
TOPS = (
    TopEdge("top", "straight", UNDERARM, UNDERARM),
    TopEdge("top", "sweetheart", Height("bust", offset=12.0), Height("upper-bust", offset=-12.0)),
    TopEdge("top", "scooped", Height("bust", offset=8.0), UNDERARM, Height("bust", offset=-15.0)),
    TopEdge("top", "v", Height("bust", offset=5.0), UNDERARM),
    TopEdge("top", "square", Height("bust", offset=12.0), UNDERARM),
)
HEMS = (
    Hem("hem", "straight", Height("top-hip"), Height("top-hip")),
    Hem("hem", "shaped", Height("hip", offset=15.0), Height("top-hip", offset=10.0), Height("top-hip")),
    Hem("hem", "pointed", Height("hip", offset=15.0), Height("top-hip", offset=20.0)),
)
CENTRES: tuple[Entry, ...] = tuple(
    closing(place, type, **fields)
    for place in ("centre-front", "centre-back")
    for type, fields in (
        ("fold", {}),
        ("seam", {}),
        ("zip", {}),
        ("zip", {"style": "exposed"}),
        ("zip", {"style": "invisible", "opening_cm": 22}),
        ("zip", {"style": "lapped", "down_to": {"level": "waist", "offset_cm": -3}}),
        ("lacing", {}),
        ("lacing", {"gap_cm": 7, "modesty_overlap_cm": 3, "cord_cm": 500}),
        ("hooks", {"underlap_cm": 2}),
        ("buttons", {}),
        ("buttons", {"stand_cm": 2.5, "spacing_cm": 4}),
        ("tie", {}),
    )
)
SIDES: tuple[Entry, ...] = (
    closing("side", "zip"),
    closing("side", "zip", style="invisible", hand="right", opening_cm=20),
    closing("side", "hooks"),
    closing("side", "tie"),
)
# What a body or a block may refuse, each for a reason that the message gives.
REASONS = ("no side seam", "off the straight", "wide at its narrowest", "of another seam of piece")


@pytest.mark.soak
def test_closures_are_sound_on_every_body(shared: Path) -> None:
    chance = np.random.default_rng(31)
    done: Counter[str] = Counter()
    refused = []
    for wearer in plausible_bodies(BODIES, seed=62):
        panels, straight = int(chance.choice([3, 4, 4, 5, 6])), bool(chance.random() < 0.5)
        options = BlockOptions(panels=panels, centre_back_shape="straight" if straight else "shaped")
        own = make_block(wearer, options)
        for number in chance.choice(len(CENTRES) + len(SIDES), OF_EACH, replace=False):
            entry = (*CENTRES, *SIDES)[number]
            steps = (TOPS[chance.integers(len(TOPS))], HEMS[chance.integers(len(HEMS))], *steps_from_json([entry]))
            ready = Finish(facing="full" if number % 2 else "none", interfacing=bool(number % 3 == 0))
            try:
                garment = make_garment(wearer, GarmentDesign("proof-1", "Proof", options, steps, ready), block=own)
            except DesignError as error:
                refused.append(str(error))
                continue
            assert violations(shared, pattern_to_json(garment.cutting, garment.findings)) == [], (wearer.ref, entry)
            errors = {f.code for f in garment.findings if f.severity == "error"}
            assert errors <= {"cannot-be-put-on", "cannot-be-laid", "given-length-short"}, (wearer.ref, entry)
            for level in garment.pattern.levels:
                assert abs(drawn_girth(garment.pattern, level) - level.finished_girth) < 1.0
            done[entry["type"]] += 1
    assert [error for error in refused if not any(reason in error for reason in REASONS)] == []
    assert len(refused) < 0.15 * BODIES * OF_EACH, refused
    assert min(done[entry["type"]] for entry in CENTRES) >= 5, done
