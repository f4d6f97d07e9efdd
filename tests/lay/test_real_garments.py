"""Lays of garments that the program makes, each judged by the outside verifier of garment lays."""

import json
from collections import Counter
from itertools import product
from pathlib import Path
from typing import Any

import pytest
from lay.garment_instance import lay_verifier, written
from plausible_bodies import plausible_measurements

from panelwright.app.design_file import read_design
from panelwright.app.garment import make_garment
from panelwright.app.garment_design import GarmentDesign
from panelwright.app.lay import lays_of, wide_enough
from panelwright.body.measurements import Measurements
from panelwright.errors import BlockError, DesignError, LayError
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.lay.cloth import Cloth
from panelwright.lay.lay import Lay
from panelwright.lay.piece_to_cut import cloths_of, pieces_to_cut

PLAIN = {"format": "panelwright-design/1", "ref": "lantern-09", "title": "Lantern bodice"}
EDGES = [
    {"kind": "top-edge", "uid": "top", "shape": "sweetheart", "centre": {"level": "bust", "offset_cm": 3},
     "side": {"level": "upper-bust", "offset_cm": -1}},
    {"kind": "hem", "uid": "hem", "shape": "shaped", "centre": {"level": "lower-waist", "offset_cm": -2},
     "side": {"level": "lower-waist", "offset_cm": -1}},
]  # fmt: skip
BOW = {"knot": "bow", "tail_cm": 30}
DESIGNS: tuple[dict[str, Any], ...] = (
    {},
    {"finish": {"facing": "full", "interfacing": True}},
    {"finish": {"facing": "full", "cloths": {"facing": "outer"}}},
    {"steps": [*EDGES, {"kind": "closure", "uid": "back", "place": "centre-back", "type": "zip"}]},
    {"steps": [*EDGES, {"kind": "tie", "uid": "tie", "from": "side", **BOW}]},
    {
        "steps": [*EDGES, {"kind": "tie", "uid": "tie", "from": "side", "grain_along": True, **BOW}],
        "finish": {"facing": "full"},
    },
)
CHOICES = tuple(product((True, False, None), (False, True)))  # (folded, one way)
BODIES = 24
FAST = 2


def body(number: int) -> Measurements:
    ref, taken = list(plausible_measurements(BODIES, seed=7))[number]
    return Measurements.of(ref, taken)


def design(number: int) -> GarmentDesign:
    return read_design(json.dumps({**PLAIN, **DESIGNS[number]}))


def judged(cutting: CuttingPattern, folded: bool | None, one_way: bool, width: float, shared: Path) -> tuple[Lay, ...]:
    """The garment's lays, each found sound by the verifier and straight by its two distances."""
    verify = lay_verifier(shared)
    cloths = [Cloth(name, width, folded, one_way) for name in cloths_of(cutting)]
    lays = lays_of(cutting, cloths)
    for lay in lays:
        own = [piece if lay.folded else piece.spread() for piece in pieces_to_cut(cutting, lay.cloth.name)]
        length, _, bad = verify(*written(lay, own))
        assert bad == []
        assert length == pytest.approx(lay.length, abs=0.01)
        for piece in lay.laid:
            near, far = lay.grain_distances(piece)
            assert near == pytest.approx(far, abs=0.1)
    return lays


@pytest.mark.parametrize("number", range(len(DESIGNS)))
def test_a_garment_is_laid_soundly(number: int, shared: Path) -> None:
    garment = make_garment(body(number % FAST), design(number))
    for lay in judged(garment.cutting, None, False, 1400.0, shared):
        assert 0.25 < lay.use < 0.95
        assert lay.to_buy - 100.0 < lay.length <= lay.to_buy


def test_a_long_tie_across_folded_cloth_is_refused_and_each_remedy_helps(shared: Path) -> None:
    cutting = make_garment(body(0), design(4)).cutting
    with pytest.raises(LayError, match=r"spread it out .*grain_along, true.* wide or put a seam"):
        lays_of(cutting, [Cloth("outer", 1400.0, folded=True)])
    assert [lay.folded for lay in judged(cutting, False, False, 1400.0, shared)] == [False]
    assert [lay.folded for lay in judged(cutting, True, False, 2400.0, shared)] == [True]
    along = make_garment(body(0), design(5)).cutting
    assert all(lay.folded for lay in judged(along, True, False, 1400.0, shared))


def test_a_remedy_that_shows_how_a_field_is_written_is_told_whole() -> None:
    cutting = make_garment(body(0), design(4)).cutting
    _, (told,) = wide_enough(cutting, [Cloth("outer", 1400.0, folded=True)])
    assert (told.code, told.severity) == ("cannot-be-laid", "error")
    assert told.message.endswith("and the outer cloth, folded, is 70.0 cm wide.")
    assert told.remedy.startswith(
        "Spread it out (in a file: folded, false), lay it lengthwise (in a file: of a tie, grain_along, true),"
    )
    assert told.remedy.endswith("or put a seam across the piece.")


@pytest.mark.soak
@pytest.mark.parametrize("number", range(BODIES))
def test_every_design_on_every_body_in_every_way(number: int, shared: Path) -> None:
    """24 bodies, 6 designs, 6 ways to lay the cloth, two widths: a garment is laid soundly or refused by its width."""
    done: Counter[str] = Counter()
    for k in range(len(DESIGNS)):
        try:
            cutting = make_garment(body(number), design(k)).cutting
        except (BlockError, DesignError):
            done["not made"] += 1
            continue
        for folded, one_way in CHOICES:
            for width in (1100.0, 1500.0):
                try:
                    judged(cutting, folded, one_way, width, shared)
                    done["laid"] += 1
                except LayError:
                    done["refused"] += 1
    assert done["not made"] <= 1
    assert done["laid"] >= 0.75 * (done["laid"] + done["refused"])
