"""A top edge that cannot go higher: what its finding says to do can be done on that block, and helps."""

import json
from functools import cache
from typing import Any

import pytest
from high_bust import HIGH_BUST

from panelwright.app.block_shelf import BlockShelf
from panelwright.app.design_file import read_design
from panelwright.app.drawn_design import DrawnDesign, draw_design
from panelwright.app.finding_lead import finding_lead
from panelwright.checks.wearer_neckline import AT_THE_END
from panelwright.finding import Finding

Record = dict[str, Any]
PLAIN: Record = {"format": "panelwright-design/1", "ref": "lantern-09", "title": "Lantern bodice"}
SHELF = cache(BlockShelf)


def drawn(document: Record) -> DrawnDesign:
    design = read_design(json.dumps(document))
    return draw_design(design, SHELF().block(HIGH_BUST, design.block_options))


def with_top(offset_cm: float) -> Record:
    height = {"level": "upper-bust", "offset_cm": offset_cm}
    return {
        **PLAIN,
        "steps": [{"kind": "top-edge", "uid": "top", "shape": "straight", "centre": height, "side": height}],
    }


def low_edge(document: Record) -> tuple[Finding, dict[str, object] | None]:
    made = drawn(document)
    labels = {step.uid: step.label for step in made.steps.steps}
    (found,) = [finding for finding in made.findings if finding.code == "neckline-bust-point"]
    return found, finding_lead(found, document, labels)


@pytest.mark.parametrize("document", [PLAIN, with_top(0.0), with_top(-0.3)])
def test_at_the_blocks_end_nobody_is_sent_to_raise_it(document: Record) -> None:
    found, lead = low_edge(document)
    assert found.remedy.startswith("The edge lies as high as this block goes: let straps grow")
    assert "height at side" not in found.remedy
    assert lead is None


@pytest.mark.parametrize(
    "steps",
    [
        [{"kind": "strap", "uid": "straps"}],
        [{"kind": "bodice-top", "uid": "top"}],
    ],
)
def test_what_it_names_instead_takes_it_away(steps: list[Record]) -> None:
    made = drawn({**PLAIN, "steps": steps})
    assert made.complete, made.outcomes
    assert "neckline-bust-point" not in {finding.code for finding in made.findings}


def test_below_the_blocks_end_it_says_how_far_the_edge_can_go() -> None:
    end, _ = low_edge(with_top(0.0))
    found, lead = low_edge(with_top(-1.0))
    room = end.value - found.value
    assert AT_THE_END < room < 12.0
    assert f"by at most {room / 10:.1f} cm, for there this block ends" in found.remedy
    assert lead == {"step": "top", "field": "side"}
    raised, _ = low_edge(with_top(-1.0 + round(room / 10, 1)))
    assert raised.value == pytest.approx(end.value, abs=1.0)
