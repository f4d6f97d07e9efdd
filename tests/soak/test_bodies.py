"""Five hundred invented bodies, each made into a checked cutting pattern and read by the outside verifier."""

from itertools import islice
from pathlib import Path

import numpy as np
import pytest
from plausible_bodies import plausible_measurements
from verifier import violations

from panelwright.app.garment import make_garment
from panelwright.app.garment_design import GarmentDesign
from panelwright.blocks.block import Block
from panelwright.body.measurements import Measurements
from panelwright.design.hem import Hem
from panelwright.design.position import Height
from panelwright.design.top_edge import TopEdge
from panelwright.errors import BlockError, MeasurementError
from panelwright.finish.options import Finish
from panelwright.output.pattern_document import pattern_to_json

BODIES, CHUNK = 500, 25
SHARED = Path(__file__).resolve().parents[3] / "shared"
VERIFIED = (SHARED / "tools" / "verify_pattern.py").is_file()
MOST_REFUSED = 0  # the proof asks for 97 %; every one of these bodies gets its pattern today
STRAIN = {"CF": 0.03, "SF": 0.045, "SB": 0.04, "CB": 0.03}  # medians of the 95th percentile
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


def design(number: int) -> GarmentDesign:
    """One of all fifteen pairs of a top edge and a hem, with a full facing for every other body."""
    steps = (TOPS[number % len(TOPS)], HEMS[number % len(HEMS)])
    cloths = Finish(facing="full" if number % 2 else "none", interfacing=number % 4 == 1)
    return GarmentDesign("proof-1", "Proof", steps=steps, finish=cloths)


def arcs_off(block: Block) -> float:
    """Largest difference of a level's arc on paper from the same arc on the body, over all panels, mm."""
    worst = 0.0
    for fit in block.fits:
        for level, z in block.torso.shape.heights.items():
            row = int(np.abs(fit.body.rows.z - z).argmin())
            line = block.pattern.piece(fit.id).inside_line(level)
            assert line is not None
            worst = max(worst, abs(line.curve.length - float(fit.body.back[row] - fit.body.front[row])))
    return worst


@pytest.mark.soak
@pytest.mark.parametrize("chunk", range(BODIES // CHUNK))
def test_bodies_get_sound_patterns(chunk: int) -> None:
    refused, strains = [], []
    bodies = enumerate(plausible_measurements(BODIES))
    for number, (ref, taken) in islice(bodies, chunk * CHUNK, (chunk + 1) * CHUNK):
        try:
            garment = make_garment(Measurements.of(ref, taken), design(number))
        except (BlockError, MeasurementError) as error:
            refused.append(f"{ref}: {error}")
            continue
        document = pattern_to_json(garment.cutting, garment.findings)
        if VERIFIED:
            assert violations(SHARED, document) == [], ref
        assert garment.without_errors, ref
        assert arcs_off(garment.block) < 0.5
        assert all(abs(span.difference) < 3.0 for span in garment.block.spans)
        strains.append(garment.block.strain_p95)
    assert len(refused) <= MOST_REFUSED, refused
    for panel, limit in STRAIN.items():
        assert np.median([strain[panel] for strain in strains]) < limit


@pytest.mark.soak
def test_the_outside_verifier_was_there() -> None:
    """Without it the bodies above are proved by our own checks alone: this line says so."""
    if not VERIFIED:
        pytest.skip("needs tools/verify_pattern.py in the folder `shared` beside the repository")
