"""What a design file says of several cloths is obeyed by its lays, first and searched, each by the outside verifier."""

import json
from dataclasses import replace
from pathlib import Path

import pytest
from lay.garment_instance import lay_verifier, written

from panelwright.app.design_file import read_design
from panelwright.app.garment import Garment, make_garment
from panelwright.body.size_table import size
from panelwright.lay.piece_to_cut import pieces_to_cut
from panelwright.lay.planned_lay import Planning
from panelwright.lay.search.budget import Budget

CLOTHS = {
    "festival velvet": {"width_cm": 118, "folded": False, "one_way": True, "sold_by_cm": 25},
    "facing": {"width_cm": "45 in", "folded": True, "shrinkage_percent": 6},
    "interfacing": {"width_cm": 90, "price_per_metre": 4},
}
DESIGN = {
    "format": "panelwright-design/1",
    "ref": "lantern-09",
    "title": "Lantern bodice",
    "finish": {"facing": "full", "interfacing": True, "cloths": {"outer": "festival velvet"}},
    "cloth_to_buy": CLOTHS,
}


@pytest.fixture(scope="module")
def garment() -> Garment:
    return make_garment(size(88), read_design(json.dumps(DESIGN)))


@pytest.mark.parametrize("planning", [None, Planning(Budget(moves=300))])
def test_every_cloth_is_laid_as_it_is_told(garment: Garment, planning: Planning | None, shared: Path) -> None:
    velvet, facing, interfacing = lays = replace(garment, planning=planning).lays
    assert [(lay.cloth.name, lay.cloth.width) for lay in lays] == [
        ("festival velvet", 1180.0),
        ("facing", 1143.0),
        ("interfacing", 900.0),
    ]
    assert (velvet.folded, velvet.cloth.one_way, facing.folded) == (False, True, True)
    for lay in lays:
        own = pieces_to_cut(garment.cutting, lay.cloth.name)
        wanted = [piece if lay.folded else piece.spread() for piece in own]
        instance, result = written(lay, wanted)
        assert instance["cloth"]["napped"] == (lay is velvet)
        assert lay_verifier(shared)(instance, result)[2] == []
    assert velvet.to_buy % 250.0 == pytest.approx(0.0)
    assert 0.0 <= facing.to_buy - facing.length / 0.94 < 100.0
    assert interfacing.cost == pytest.approx(0.004 * interfacing.to_buy)
