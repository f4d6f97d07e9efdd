"""Steps that are switched off and noted on, as the command line makes the garment and as a page changes it."""

import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import pikepdf
import pytest
from pdf_reading import text_of

from panelwright.app.design_change import with_step
from panelwright.app.design_file import read_design
from panelwright.app.garment import make_garment
from panelwright.app.paper import PaperChoice, PrintJob
from panelwright.app.sign_off import write_sign_off
from panelwright.body.size_table import size
from panelwright.design.hem import Hem
from panelwright.design.position import Height

HEM: dict[str, Any] = {
    "kind": "hem",
    "uid": "hem",
    "shape": "straight",
    "centre": {"level": "waist"},
    "side": {"level": "waist"},
    "note": "clear of the drum's belt",
}
ZIP: dict[str, Any] = {"kind": "closure", "uid": "back", "place": "centre-back", "type": "zip", "off": True}
DOCUMENT: dict[str, Any] = {
    "format": "panelwright-design/1",
    "ref": "drum-09",
    "title": "Drummer's bodice",
    "steps": [HEM, ZIP],
}


def test_a_garment_is_made_as_if_a_step_that_is_off_were_not_there() -> None:
    design = read_design(json.dumps(DOCUMENT))
    garment = make_garment(size(88), design)
    without = make_garment(size(88), read_design(json.dumps({**DOCUMENT, "steps": [HEM]})), block=garment.block)
    with_zip = make_garment(
        size(88), read_design(json.dumps({**DOCUMENT, "steps": [HEM, {**ZIP, "off": False}]})), block=garment.block
    )
    assert garment.pattern == without.pattern
    assert garment.findings == without.findings
    assert not garment.pattern.closures
    assert [closure.id for closure in with_zip.pattern.closures] == ["back"]


def test_a_step_that_no_wearer_could_have_stands_in_nobody_s_way_while_it_is_off() -> None:
    too_high = {**HEM, "uid": "other", "centre": {"level": "bust", "offset_cm": 90}, "side": {"level": "bust"}}
    steps = [HEM, {**too_high, "shape": "shaped", "off": True}]
    assert make_garment(size(88), read_design(json.dumps({**DOCUMENT, "steps": steps}))).without_errors


def test_the_sign_off_page_tells_the_notes_and_what_is_off(tmp_path: Path) -> None:
    garment = make_garment(size(88), read_design(json.dumps(DOCUMENT)))
    job = PrintJob(garment.cutting, "Drummer's bodice", PaperChoice())
    path = write_sign_off(garment, job, tmp_path)
    with pikepdf.open(path) as written:
        pages = len(written.pages)
    text = " ".join(" ".join(text_of(path, page) for page in range(pages)).split())
    assert "Hem: straight: clear of the drum's belt" in text
    assert "Closure: centre back, centred zip: switched off" in text


@pytest.mark.parametrize("noted", [True, False])
def test_a_step_that_is_dragged_keeps_its_note(noted: bool) -> None:
    document = {**DOCUMENT, "steps": [HEM if noted else {k: v for k, v in HEM.items() if k != "note"}, ZIP]}
    design = read_design(json.dumps(document))
    hem = design.steps[0]
    assert isinstance(hem, Hem)
    low = Height("waist", -20.0)
    changed = with_step(document, design, replace(hem, centre=low, side=low))["steps"]
    assert isinstance(changed, list)
    assert changed[0].get("note") == ("clear of the drum's belt" if noted else None)
    assert changed[0]["centre"] == {"level": "waist", "offset_cm": -2}
    assert changed[1] == ZIP
