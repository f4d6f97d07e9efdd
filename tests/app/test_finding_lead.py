"""A finding leads to the field that its remedy speaks of."""

import json
from functools import cache

import pytest
from app.broken_designs import FOUND, Record

from panelwright.app.design_file import read_design
from panelwright.app.drawn_design import draw_design
from panelwright.app.finding_lead import finding_lead
from panelwright.app.garment_words import garment_fields
from panelwright.app.step_words import step_vocabulary
from panelwright.blocks.block import Block
from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions
from panelwright.body.size_table import size


@cache
def block(options: BlockOptions) -> Block:
    return make_block(size(88), options)


def leads(document: Record) -> dict[str, dict[str, object] | None]:
    """Code -> lead of each finding."""
    design = read_design(json.dumps(document))
    drawn = draw_design(design, block(design.block_options))
    labels = {step.uid: step.label for step in drawn.steps.steps}
    return {finding.code: finding_lead(finding, document, labels) for finding in drawn.findings}


@pytest.mark.parametrize(
    ("number", "code", "lead"),
    [
        (0, "tight", {"field": "block.ease_cm.waist"}),
        (0, "ease-unusual", {"field": "block.ease_cm.bust"}),
        (0, "unboned-strapless", None),
        (1, "no-allowance", {"field": "finish.allowance_cm"}),
        (3, "given-length-short", {"step": "c-3", "field": "zip_cm"}),
        (4, "bones-not-last", {"step": "b-4"}),
        (6, "low-back", {"step": "n-1", "field": "back"}),
        (5, "curved-hem-turned", {"field": "finish.allowance_by_line_cm"}),
        (8, "narrow-strap", {"field": "finish.allowance_by_line_cm"}),
        (10, "given-length-long", {"step": "s-5", "field": "length_cm"}),
    ],
)
def test_it_leads_to_what_its_remedy_speaks_of(number: int, code: str, lead: dict[str, object] | None) -> None:
    found = leads(FOUND[number])
    assert code in found
    assert found[code] == lead


def test_an_allowance_for_a_line_that_is_gone_leads_to_the_allowances_of_lines() -> None:
    found = leads({**FOUND[0], "finish": {"allowance_by_line_cm": {"sleeve": 1.5}}})
    assert found["finish-not-possible"] == {"field": "finish.allowance_by_line_cm"}


@pytest.mark.parametrize("number", range(len(FOUND)))
def test_every_lead_goes_to_a_field_that_the_page_has(number: int) -> None:
    vocabulary = step_vocabulary()
    steps = {step["uid"]: step["kind"] for step in FOUND[number]["steps"]}
    for lead in filter(None, leads(FOUND[number]).values()):
        if "step" in lead:
            names = {field["name"] for field in vocabulary[steps[lead["step"]]]["fields"]}
            assert lead.get("field", "uid") in names
        else:
            assert lead["field"] in garment_fields()
