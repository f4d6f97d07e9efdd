"""A block of one's own, traced over a scan: from pressed points to a checked pattern on paper."""

from typing import Any

import numpy as np
import pytest
from browser.conftest import Open
from browser.hand import Hand
from browser.paper_block import PER_MM, PaperBlock
from browser.served_workroom import ServedWorkroom
from browser.tracer import Tracer
from design.demo_garments import demo_garment
from playwright.sync_api import expect

TRACE = "/api/traces/own-01"
NEAR = 0.3  # mm of paper at quarter scale


@pytest.fixture(scope="module")
def block() -> PaperBlock:
    return PaperBlock.of(demo_garment("lantern-01").block)


def begin(hand: Hand, block: PaperBlock) -> Tracer:
    """A new block with its picture and scale."""
    hand.press("Trace your own block")
    tracer = Tracer(hand, block)
    tracer.choose()
    tracer.set_scale()
    return tracer


def assert_on_the_lines(table: dict[str, Any], block: PaperBlock) -> None:
    """Every point of the table lies on the line that was drawn, and every corner at its corner."""
    for piece in table["pieces"]:
        id = str(piece["id"])
        for number, edge in enumerate(piece["edges"]):
            line = block.line(id, block.drawn.piece(id).edges[number].curve, 3000) / PER_MM * [1, -1]
            points = np.array(edge["points"])
            off = [float(np.hypot(*(line - point).T).min()) for point in points]
            assert max(off) < NEAR, (id, number, off)
            assert np.hypot(*(points[0] - line[0])) < NEAR, (id, number)


def test_a_traced_piece_lies_where_it_was_drawn_and_outlives_a_power_cut(
    own_workroom: ServedWorkroom, open_page: Open, block: PaperBlock
) -> None:
    hand = open_page(own_workroom)
    tracer = begin(hand, block)
    tracer.trace("CF", unsure=0.6)
    hand.see("Press a corner of a piece to begin with.")
    tracer.press(block.edge("SF", 0)[0])
    hand.see("SF, edge 1, 1 point.")
    expect(hand.page.get_by_text("Saved", exact=True)).to_be_visible()
    own_workroom.kill()
    own_workroom.start()
    hand.page.reload()
    hand.see("4 edges")
    expect(hand.page.get_by_role("img", name="Picture to work from")).to_be_visible()
    kept = own_workroom.ask(TRACE)["document"]
    assert [(piece["id"], piece["closed"]) for piece in kept["pieces"]] == [("CF", True), ("SF", False)]
    hand.press("Trace edges")
    hand.press("Take back the last point")
    hand.see("Press a corner of a piece to begin with.")
    expect(hand.page.get_by_text("Saved", exact=True)).to_be_visible()
    assert_on_the_lines(own_workroom.ask(f"{TRACE}/table.json"), block)
