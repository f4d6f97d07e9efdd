"""A traced outline is changed: a point put into an edge, made a corner and a point again; notches and marks."""

from typing import Any

import numpy as np
import pytest
from browser.conftest import Open
from browser.hand import Hand
from browser.served_workroom import ServedWorkroom
from intake.drawn_pieces import on_paper
from plain_block import plain_block
from playwright.sync_api import expect
from web.traced_pieces import traced

PLACE = "/api/traces/own-01"


def saved(served: ServedWorkroom) -> dict[str, Any]:
    piece: dict[str, Any] = served.ask(PLACE)["document"]["pieces"][0]
    return piece


@pytest.fixture
def shaping(own_workroom: ServedWorkroom, open_page: Open) -> Hand:
    document = traced(on_paper(plain_block(), spacing=10))
    for edge in document["pieces"][0]["edges"]:
        edge["points"] = [edge["points"][0], edge["points"][-1]]
    own_workroom.ask(PLACE, "PUT", {"document": document, "what": "traced"})
    hand = open_page(own_workroom, path="/#/trace/own-01")
    hand.page.get_by_role("button", name="Shape edges").wait_for()
    return hand


def press_middle(hand: Hand, edge: str) -> None:
    """Press the drawn edge half way along, where no point is."""
    x, y = hand.page.locator(f'[data-traced="{edge}"]').evaluate(
        """path => {
          const at = path.getPointAtLength(path.getTotalLength() / 2), m = path.getScreenCTM();
          return [at.x * m.a + at.y * m.c + m.e, at.x * m.b + at.y * m.d + m.f];
        }"""
    )
    hand.page.mouse.click(x, y)


def test_points_corners_and_marks(shaping: Hand, own_workroom: ServedWorkroom) -> None:
    page = shaping.page
    straight = max(range(4), key=lambda k: abs(np.diff(saved(own_workroom)["edges"][k]["points"], axis=0)).max()) + 1
    before = len(saved(own_workroom)["edges"])
    id = saved(own_workroom)["id"]
    page.get_by_role("button", name="Shape edges").click()
    press_middle(shaping, f"{id} {straight}")
    page.get_by_role("button", name="Make it a corner").click()
    expect(page.get_by_text("Saved", exact=True)).to_be_visible()
    expect(page.locator(f'[data-traced="{id} {before + 1}"]')).to_have_count(1)
    assert len(saved(own_workroom)["edges"]) == before + 1
    page.get_by_role("button", name="Make it a point").click()
    expect(page.locator(f'[data-traced="{id} {before + 1}"]')).to_have_count(0)
    page.get_by_role("button", name="Take it out").click()
    expect(page.get_by_role("button", name="Take it out")).to_be_disabled()
    page.get_by_role("button", name="Marks").click()
    press_middle(shaping, f"{id} {straight}")
    expect(page.locator("[data-notch]")).to_have_count(1)
    expect(page.get_by_text("Saved", exact=True)).to_be_visible()
    assert [notch["count"] for notch in saved(own_workroom)["notches"]] == [1]
    assert len(saved(own_workroom)["edges"][straight - 1]["points"]) == 2


@pytest.mark.parametrize("width", [1280, 800])
def test_the_paper_stays_where_it_is_whatever_tool_is_taken(shaping: Hand, width: int) -> None:
    page = shaping.page
    page.set_viewport_size({"width": width, "height": 800})
    tops = set()
    for tool in ("Move", "Trace edges", "Shape edges", "Level", "Grain", "Marks"):
        page.get_by_role("button", name=tool, exact=True).click()
        box = page.locator(".canvas").bounding_box()
        assert box is not None
        tops.add((box["y"], box["height"]))
    assert len(tops) == 1
