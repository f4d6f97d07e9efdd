"""What is told of a design whose steps were not all carried out: the cause first, and nothing that only follows."""

import json
from functools import cache

import pytest
from app.broken_designs import BODICE, BONES, HEM, STRAPS, TOP, ZIP, Record, at, design

from panelwright.app.design_file import read_design
from panelwright.app.drawn_design import DrawnDesign, draw_design
from panelwright.app.finding_lead import finding_lead
from panelwright.app.remedy import remedy
from panelwright.blocks.block import Block
from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions
from panelwright.body.size_table import size
from panelwright.checks.blend import check_blends
from panelwright.finding import Finding

HIGH = {**TOP, "centre": at("upper-bust", 1), "side": at("upper-bust", 1)}
LOW = {**HEM, "centre": at("hip", -3), "side": at("hip", -3)}
SHORT_HEM = {**HEM, "centre": at("bust", 0.01), "side": at("bust", 0.01)}


@cache
def block(options: BlockOptions) -> Block:
    return make_block(size(88), options)


def drawn(*steps: Record, upto: str | None = None) -> DrawnDesign:
    read = read_design(json.dumps(design(*steps)))
    return draw_design(read, block(read.block_options), upto=upto)


def errors(made: DrawnDesign) -> list[tuple[str, str]]:
    return [(finding.code, finding.subject) for finding in made.findings if finding.severity == "error"]


def of_code(made: DrawnDesign, code: str) -> Finding:
    (found,) = [finding for finding in made.findings if finding.code == code]
    return found


@pytest.mark.parametrize(("edge", "others"), [(HIGH, (HEM,)), (LOW, (TOP,))])
def test_a_step_that_failed_is_the_first_finding_and_the_only_error(edge: Record, others: tuple[Record, ...]) -> None:
    steps = (edge, *others, ZIP, BONES)
    made = drawn(*steps)
    assert errors(made) == [("step-not-possible", edge["uid"])]
    first = made.findings[0]
    (reason,) = [outcome.reason for outcome in made.outcomes if outcome.state == "failed"]
    why = reason.partition(": ")[2].partition("; ")[0]
    assert why in first.message
    labels = {step.uid: step.label for step in made.steps.steps}
    assert finding_lead(first, design(*steps), labels) == {"step": edge["uid"]}


def test_the_bare_edge_would_be_faulted_if_nothing_were_left_out() -> None:
    assert check_blends(drawn(HIGH, HEM).cutting)
    assert not check_blends(drawn(TOP, HEM).cutting)


def test_what_lies_on_an_edge_that_was_drawn_is_still_told() -> None:
    short = {**TOP, "centre": at("bust", 2.5), "side": at("bust", 2.5)}
    assert "neckline-bust-point" in {finding.code for finding in drawn(short, LOW).findings}
    assert "neckline-bust-point" not in {finding.code for finding in drawn(HIGH, HEM).findings}


def test_an_edge_that_leaves_no_room_is_told_with_its_field_and_those_that_wait_are_not() -> None:
    steps = (TOP, SHORT_HEM, ZIP, BONES)
    made = drawn(*steps)
    told = [finding for finding in made.findings if finding.code == "step-not-possible"]
    assert [finding.subject for finding in told] == ["h-2"]
    assert "leaves no room for “Bones: spiral”" in told[0].message
    labels = {step.uid: step.label for step in made.steps.steps}
    assert finding_lead(told[0], design(*steps), labels) == {"step": "h-2", "field": "centre"}


def test_before_an_edge_is_drawn_the_bare_one_is_not_judged() -> None:
    assert errors(drawn(HEM, TOP, upto="h-2")) == []


@pytest.mark.parametrize(
    ("steps", "words"),
    [
        ((HIGH, HEM, ZIP, BONES), "The step “Bones: spiral” is to hold it, and is not carried out yet."),
        (
            (TOP, HEM, {**BONES, "off": True}),
            "The step “Bones: spiral” is to hold it and is switched off: switch it on.",
        ),
        ((TOP, HEM, {**STRAPS, "at_front_cm": 30}), "is to hold it, and is not carried out yet."),
    ],
)
def test_no_bones_are_offered_beside_a_step_that_is_to_hold_it(steps: tuple[Record, ...], words: str) -> None:
    made = drawn(*steps)
    found = of_code(made, "unboned-strapless")
    assert words in found.remedy
    assert remedy(found, design(*steps), made.pattern) is None


def test_bones_are_offered_where_nothing_is_to_hold_it() -> None:
    made = drawn(HIGH, HEM)
    offered = remedy(of_code(made, "unboned-strapless"), design(HIGH, HEM), made.pattern)
    assert offered is not None
    assert offered.words == "Add bones along the seams"


def test_a_bodice_to_the_shoulder_that_failed_says_so_alone() -> None:
    made = drawn({**BODICE, "shoulder_in_cm": 11}, HEM, ZIP)
    assert errors(made) == [("step-not-possible", "n-1")]
