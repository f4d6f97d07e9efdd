"""Garment lays of the folder `shared`, judged by its own verifier, which knows none of our code."""

import json
from pathlib import Path

import pytest
from lay.garment_instance import Verify, cloth_of, lay_verifier, load, pieces_of, result_of

from panelwright.lay.lay_garment import lay_pieces

FOLDED = ("circle_skirt", "gored_skirt", "shirt_top", "strapless_bodice", "waistcoat")
# The lays of `baselines.json` were searched for a minute each; a first lay takes a fraction of a second.
LONGER = 1.3


@pytest.fixture(scope="module")
def verify(shared: Path) -> Verify:
    return lay_verifier(shared)


@pytest.mark.parametrize("name", [*(f"folded/{name}" for name in FOLDED), "open/mao"])
def test_a_first_lay_is_sound_and_not_much_longer_than_a_long_search(name: str, shared: Path, verify: Verify) -> None:
    path = shared / "data" / "lays" / f"{name}.json"
    instance = load(path)
    lay = lay_pieces(cloth_of(instance), pieces_of(instance), instance["spacing_mm"])
    length, density, bad = verify(instance, result_of(lay))
    assert bad == []
    assert length == pytest.approx(lay.length, abs=0.01)
    assert density == pytest.approx(lay.use, abs=1e-3)
    baselines = json.loads((path.parent / "baselines.json").read_text(encoding="utf-8"))
    assert lay.length <= LONGER * baselines["instances"][path.stem]["best_mm"]


def test_the_verifier_sees_a_lay_that_is_not_sound(shared: Path, verify: Verify) -> None:
    instance = load(shared / "data" / "lays" / "folded" / "waistcoat.json")
    result = result_of(lay_pieces(cloth_of(instance), pieces_of(instance), instance["spacing_mm"]))
    result["placements"][0]["y"] += 3.0
    assert verify(instance, result)[2]
