"""Blocks other than the princess bodice as the board is told of them."""

import json
from typing import Any

import pytest
from bad_input.case import TOP
from skirt_garment import BAND, BODY, ZIP, document

from panelwright.app.board_pattern import board_pattern
from panelwright.app.board_places import board_places
from panelwright.app.body_view import body_view
from panelwright.app.design_file import read_design
from panelwright.app.drawn_design import draw_design
from panelwright.app.joined import joined
from panelwright.blocks.make_block import make_block
from panelwright.body.measurements import Measurements


@pytest.mark.parametrize("kind", ["circle-skirt", "gored-skirt", "straight-skirt"])
def test_a_skirt_is_told_whole_and_its_pieces_are_not_on_the_body(kind: str) -> None:
    wearer = Measurements.of("w-01", BODY)
    top = {"kind": "top-edge", "uid": "t", "shape": "straight", "centre": {"level": "bust"}, "side": {"level": "bust"}}
    design = read_design(json.dumps(document(kind, [top, ZIP, BAND])))
    drawn = draw_design(design, make_block(wearer, design.block_options))
    told: dict[str, Any] = board_pattern(drawn, board_places(drawn.cutting, {}), None, lambda _: None)
    assert json.loads(json.dumps(told))["seam_places"] == []
    states = {outcome.step: outcome.state for outcome in drawn.outcomes}
    assert states == {"t": "failed", "back": "done", "band": "done"}
    shown = body_view(drawn.pattern, drawn.block)
    assert shown.panels == ()
    assert set(shown.hanging) == {piece.id for piece in drawn.pattern.pieces if piece.layer == "outer"}
    assert len(shown.torso.points) > 1000  # the wearer stands there all the same


SKIRT = {"SKF", "SKS1", "SKS2", "SKB"}


def test_a_dress_shows_its_bodice_on_the_body_and_its_waist_seam_can_be_walked() -> None:
    wearer = Measurements.of("w-01", BODY)
    hem = {"kind": "hem", "uid": "hem", "shape": "straight", "centre": {"level": "waist"}, "side": {"level": "waist"}}
    zipped = {"kind": "closure", "uid": "back", "place": "centre-back", "type": "zip"}
    below = {"kind": "skirt", "uid": "skirt", "line": "hem/line", "type": "gored-skirt"}
    head = {"format": "panelwright-design/1", "ref": "dress-01", "title": "Dress"}
    design = read_design(json.dumps({**head, "steps": [TOP, hem, zipped, below]}))
    drawn = draw_design(design, make_block(wearer, design.block_options))
    told: dict[str, Any] = board_pattern(drawn, board_places(drawn.cutting, {}), None, lambda _: None)
    assert {outcome.state for outcome in drawn.outcomes} == {"done"}
    assert {piece["id"] for piece in told["pieces"]} >= SKIRT
    shown = body_view(drawn.pattern, drawn.block)
    assert {panel.piece for panel in shown.panels} == {"CF", "SF", "SB", "CB"}
    assert set(shown.hanging) == SKIRT
    walked = joined(drawn.pattern, "skirt/waist")
    assert {laid.piece for laid in walked.still} == {"CF", "SF", "SB", "CB"}
    assert {laid.piece for laid in walked.moved} == SKIRT
