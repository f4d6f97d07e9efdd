"""What is bought beside the cloth: the board's list and the sign-off page say the same, and bones are drawn as told."""

import json
from pathlib import Path

import pytest
from app.broken_designs import BONES, HEM, TOP, ZIP, Record, design
from pdf_reading import text_of

from panelwright.app.cloth_lays import cloth_lays
from panelwright.app.design_file import read_design
from panelwright.app.drawn_design import draw_design
from panelwright.app.garment import Garment, make_garment
from panelwright.app.paper import PaperChoice, PrintJob
from panelwright.app.sign_off import write_sign_off
from panelwright.body.size_table import size
from panelwright.body.units import Unit

LACED = {**ZIP, "type": "lacing", "gap_cm": 5}
BUTTONS = {**ZIP, "uid": "c-8", "place": "centre-front", "type": "buttons"}
SHOWN = 0.5  # mm


def made(*steps: Record) -> Garment:
    return make_garment(size(88), read_design(json.dumps(design(*steps))))


@pytest.mark.parametrize("unit", [Unit.CM, Unit.INCH])
@pytest.mark.parametrize("closure", [ZIP, LACED, BUTTONS], ids=["zip", "lacing", "buttons"])
def test_the_lays_and_the_sign_off_page_list_the_same(closure: Record, unit: Unit, tmp_path: Path) -> None:
    garment = made(TOP, HEM, closure, BONES)
    drawn = draw_design(garment.design, garment.block, unit)
    told = cloth_lays(drawn, unit).document()["notions"]
    job = PrintJob(garment.cutting, garment.design.title, PaperChoice(unit=unit), garment.block.pattern)
    path = write_sign_off(garment, job, tmp_path)
    page = " ".join(" ".join(text_of(path, number) for number in range(2)).split())
    assert isinstance(told, list)
    assert [each["name"] for each in told] == [notion.name for notion in garment.pattern.notions]
    for each in told:
        assert each["count"] in page
        assert each["length"] in page
    assert any(each["length"] for each in told)


def test_each_bone_on_a_seam_is_drawn_on_both_its_pieces_as_long_as_it_may_be() -> None:
    garment = made(TOP, HEM, ZIP, BONES)
    for line in ("front-princess", "side", "back-princess"):
        drawn = [
            inside.curve
            for piece in garment.pattern.pieces
            for inside in piece.inside
            if inside.kind == "guide" and inside.id == f"b-4/{line}-bone"
        ]
        assert len(drawn) == 2
        (reckoned,) = [each for each in garment.pattern.workings if each.id == f"b-4/{line}"]
        for curve in drawn:
            # From seam to seam: half a bone in at each end, and along it no shorter than the bone that is bought.
            assert curve.length - 2 * 4.0 >= reckoned.length - SHOWN
            assert curve.length - 2 * 4.0 <= reckoned.length + 25.0
