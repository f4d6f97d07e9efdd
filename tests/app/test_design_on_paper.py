"""A design on a block read off paper: every step that needs no body is carried out, the outside verifier agrees."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from intake.drawn_pieces import on_paper
from measured_pattern import MeasuredPattern
from skirt_garment import length
from verifier import violations

from panelwright.app.design_file import design_document, read_design
from panelwright.app.drawn_design import DrawnDesign, draw_design
from panelwright.app.garment_design import GarmentDesign, Traced
from panelwright.app.paper_block import PaperBlock, paper_block
from panelwright.app.steps_possible import steps_not_possible
from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions
from panelwright.body.measurements import Measurements
from panelwright.body.size_table import size
from panelwright.design.step_file import step_list_from_json
from panelwright.errors import InputError
from panelwright.output.pattern_document import pattern_to_json
from panelwright.pattern.pattern import NOBODY

Document = dict[str, Any]
TOP = {"kind": "top-edge", "uid": "top", "shape": "straight"} | {
    side: {"level": "upper-bust", "offset_cm": -1} for side in ("centre", "side")
}
HEM = {"kind": "hem", "uid": "hem", "shape": "straight"} | {side: {"level": "top-hip"} for side in ("centre", "side")}
BODICE = {"kind": "bodice-top", "uid": "bodice", "front_depth_cm": 8}


@pytest.fixture(scope="module")
def to_bust() -> PaperBlock:
    return paper_block(on_paper(make_block(size(88), BlockOptions(centre_back_shape="straight")).pattern), true=True)


@pytest.fixture(scope="module")
def to_shoulder() -> PaperBlock:
    options = BlockOptions(top="shoulder", centre_back_shape="straight")
    block = make_block(size(88), options).pattern.to_shoulder
    assert block is not None
    return paper_block(on_paper(block), true=True)


def drawn_on(paper: PaperBlock, *steps: Document) -> DrawnDesign:
    made = step_list_from_json(list(steps)).steps
    return draw_design(GarmentDesign("own-01", "On paper", steps=made, traced=Traced("own-01")), paper)


def states(drawn: DrawnDesign) -> dict[str, str]:
    return {outcome.step: outcome.reason or outcome.state for outcome in drawn.outcomes}


STEPS = (
    [TOP, HEM, {"kind": "closure", "uid": "c", "place": "centre-back", "type": "zip"}],
    [TOP, HEM, {"kind": "closure", "uid": "c", "place": "centre-front", "type": "lacing"}],
    [TOP, HEM, {"kind": "tie", "uid": "tie", "from": "caught-in-side"}, {"kind": "bones", "uid": "bones"}],
    [TOP, HEM, {"kind": "strap", "uid": "strap", "type": "separate", "length_cm": 40}],
    [TOP, HEM, {"kind": "strap", "uid": "strap", "type": "halter", "nape": "tie", "length_cm": 60}],
)


@pytest.mark.parametrize(
    ("steps", "reaching"), [*((steps, "to_bust") for steps in STEPS[1:]), (STEPS[0], "to_shoulder")]
)
def test_steps_that_need_no_body_are_carried_out(
    steps: list[Document], reaching: str, request: pytest.FixtureRequest, shared: Any
) -> None:
    drawn = drawn_on(request.getfixturevalue(reaching), *steps)
    assert set(states(drawn).values()) == {"done"}
    assert violations(shared, pattern_to_json(drawn.cutting)) == []
    assert drawn.pattern.wearer == NOBODY
    assert not any("nobody" in line for _, cut in drawn.cutting.pieces for line in cut.text)


@pytest.mark.parametrize("wearer", [None, size(88)], ids=["nobody", "wearer"])
def test_a_skirt_on_a_block_that_is_nobodys_has_the_hips_that_were_drawn(wearer: Measurements | None) -> None:
    """The drawn hip is the sum of the level lines on paper; for a wearer it is the measured hip and the ease."""
    block = make_block(size(88), BlockOptions(centre_back_shape="straight")).pattern
    paper = paper_block(on_paper(block), wearer, true=True)
    at_waist = {**HEM, "centre": {"level": "waist"}, "side": {"level": "waist"}}
    seam = {"kind": "closure", "uid": "c", "place": "centre-back", "type": "zip"}
    skirt = {"kind": "skirt", "uid": "skirt", "line": "hem/line", "type": "straight-skirt", "hip_ease_cm": 5}
    drawn = drawn_on(paper, TOP, at_waist, seam, skirt)
    assert set(states(drawn).values()) == {"done"}
    table = MeasuredPattern(pattern_to_json(drawn.cutting))
    hips = [table.width(id, "hip") for id in table.pieces if id.startswith("SK")]
    level = block.level("hip")
    was = sum(2 * length(block.piece(step.piece).inside_line("hip").curve) for step in level.path)
    measured = size(88)["hip_girth"] + 50
    assert 2 * sum(hips) == pytest.approx(measured if wearer else was, abs=1.0)
    (working,) = (each for each in drawn.pattern.workings if each.id == "skirt/waist-seam")
    assert working.parts[0].label == ("the wearer's waist" if wearer else "the block's waist")


@pytest.mark.parametrize("steps", [[BODICE, HEM], [TOP, HEM, {"kind": "strap", "uid": "strap", "type": "grown"}]])
def test_necklines_and_grown_straps_need_a_block_that_was_drawn_to_the_shoulder(
    steps: list[Document], to_bust: PaperBlock, to_shoulder: PaperBlock, shared: Any
) -> None:
    drawn = drawn_on(to_shoulder, *steps)
    assert set(states(drawn).values()) == {"done"}
    assert violations(shared, pattern_to_json(drawn.cutting)) == []
    refused = [reason for reason in states(drawn_on(to_bust, *steps)).values() if reason != "done"]
    assert len(refused) == 1
    assert "a block read off paper has none: draw the block up to the shoulder" in refused[0]


def test_a_neckline_is_as_deep_as_the_design_says(to_shoulder: PaperBlock) -> None:
    """Held against the drawn block: 8 cm down the straight centre front, which ends at the neck base."""
    lengths = []
    for depth in (0.0, 8.0):
        drawn = drawn_on(to_shoulder, {**BODICE, "front_depth_cm": depth})
        ((_, edge),) = drawn.pattern.pieces_on_line("centre-front")
        lengths.append(edge.curve.length)
    assert lengths[0] - lengths[1] == pytest.approx(80.0, abs=0.01)


def test_a_strip_of_which_no_length_is_given_says_what_to_do(to_bust: PaperBlock) -> None:
    told = states(drawn_on(to_bust, TOP, HEM, {"kind": "strap", "uid": "strap", "type": "separate"}))
    assert told["strap"].endswith("measure it with a tape and give the length")


def test_what_a_block_cannot_carry_is_told_before_anything_is_tried(
    to_bust: PaperBlock, to_shoulder: PaperBlock
) -> None:
    assert "bodice-top" in steps_not_possible(to_bust.pattern)
    assert not {"top-edge", "hem", "closure", "tie", "strap"} & set(steps_not_possible(to_bust.pattern))
    assert steps_not_possible(to_shoulder.pattern) == {}
    bare = on_paper(make_block(size(88), BlockOptions()).pattern, named=True)
    bare = type(bare)(tuple(type(p)(p.id, p.label, p.edges, p.grain) for p in bare.pieces), 4.0, seams=bare.seams)
    without = steps_not_possible(paper_block(bare, true=True).pattern)
    assert {"top-edge", "hem", "bones", "tie"} <= set(without)
    assert "closure" not in without
    assert "fewer than two levels" in without["hem"]
    assert steps_not_possible(make_block(size(88), BlockOptions()).pattern) == {}


@given(ref=st.from_regex(r"\A[a-z][a-z0-9-]{0,20}\Z"), true=st.booleans())
@settings(max_examples=20)
def test_the_file_keeps_what_it_lies_on(ref: str, true: bool) -> None:
    import json

    design = GarmentDesign("d-1", "D", steps=(), traced=Traced(ref, true))
    read = read_design(json.dumps(design_document(design)))
    assert read.traced == Traced(ref, true)
    assert read.design.steps == ()


def test_without_the_traced_block_it_says_where_that_is() -> None:
    with pytest.raises(InputError, match='made on the traced block "own-01", not on measurements'):
        _ = GarmentDesign("d-1", "D", traced=Traced("own-01")).block_options
