"""An edge that leaves other steps no room says so once, with a way out that really is one; the others wait."""

import json
import re
from functools import cache

import pytest
from app.broken_designs import BODICE, BONES, HEM, STRAPS, TOP, ZIP, Record, at, design

from panelwright.app.design_file import read_design
from panelwright.app.drawn_design import DrawnDesign, draw_design
from panelwright.app.garment import make_garment
from panelwright.blocks.block import Block
from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions
from panelwright.body.size_table import size
from panelwright.errors import DesignError


@cache
def block(options: BlockOptions) -> Block:
    return make_block(size(88), options)


def drawn(*steps: Record) -> DrawnDesign:
    read = read_design(json.dumps(design(*steps)))
    return draw_design(read, block(read.block_options))


def hem(centre: float, side: float | None = None) -> Record:
    """A hem so far above the bust, cm."""
    if side is None:
        return {**HEM, "centre": at("bust", centre), "side": at("bust", centre)}
    return {**HEM, "shape": "shaped", "centre": at("bust", centre), "side": at("bust", side)}


def test_the_edge_says_once_what_it_cuts_off_and_the_others_wait() -> None:
    told = {outcome.step: outcome for outcome in drawn(TOP, hem(0.01), ZIP, BONES).outcomes}
    edge, bones = told["h-2"], told["b-4"]
    assert (edge.state, edge.reason, edge.field) == ("done", "", "centre")
    assert "the hem leaves no room for “Bones: spiral”; lower it by about" in edge.cuts_off
    assert (bones.state, bones.reason) == ("waiting", "it waits for “Hem: straight” to leave it room")
    assert [outcome.cuts_off for outcome in told.values() if outcome.step != "h-2"] == ["", "", ""]


def test_the_way_out_is_one_and_half_a_centimetre_less_is_none() -> None:
    (told,) = [outcome.cuts_off for outcome in drawn(TOP, hem(0.01), ZIP, BONES).outcomes if outcome.cuts_off]
    found = re.search(r"by about (\d+\.\d) cm", told)
    assert found
    by = float(found[1])
    assert drawn(TOP, hem(0.01 - by), ZIP, BONES).complete
    assert not drawn(TOP, hem(0.01 - by + 0.5), ZIP, BONES).complete


def test_the_height_at_fault_is_named() -> None:
    told = drawn(TOP, hem(-14, 1), ZIP, BONES)
    (edge,) = [outcome for outcome in told.outcomes if outcome.cuts_off]
    assert (edge.step, edge.field) == ("h-2", "side")


@pytest.mark.parametrize(
    ("steps", "edge", "waiting"),
    [
        ((TOP, {**HEM, "centre": at("upper-bust"), "side": at("upper-bust")}, ZIP, BONES), "h-2", ["c-3", "b-4"]),
        (({**BODICE, "shoulder_in_cm": 11}, HEM, ZIP), "n-1", ["c-3"]),
    ],
)
def test_what_needs_an_edge_that_could_not_be_drawn_waits_for_it(
    steps: tuple[Record, ...], edge: str, waiting: list[str]
) -> None:
    told = {outcome.step: outcome for outcome in drawn(*steps).outcomes}
    assert (told[edge].state, told[edge].field) == ("failed", "")
    assert told[edge].cuts_off.endswith(" for it")
    assert [uid for uid, outcome in told.items() if outcome.state == "waiting"] == waiting


def test_a_step_that_fails_for_itself_blames_no_edge() -> None:
    told = {outcome.step: outcome for outcome in drawn(TOP, HEM, ZIP, {**STRAPS, "at_front_cm": 30}).outcomes}
    assert told["s-5"].state == "failed"
    assert not any(outcome.cuts_off for outcome in told.values())


def test_the_command_line_names_the_edge_first() -> None:
    read = read_design(json.dumps(design(TOP, hem(0.01), ZIP, BONES)))
    with pytest.raises(DesignError, match=r"^x: at this height the hem leaves no room for “Bones: spiral”") as caught:
        make_garment(size(88), read, block=block(read.block_options))
    assert caught.value.where == "step h-2"
