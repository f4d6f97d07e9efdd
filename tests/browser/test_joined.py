"""A seam is chosen and walked: what lies still, what is laid on it, and what is said of both."""

import re

from browser.conftest import Open
from browser.hand import Hand
from browser.served_workroom import ServedWorkroom
from playwright.sync_api import expect

MOVED = "() => document.querySelector('[data-walked]').getAttribute('transform')"
LAID = re.compile("is laid on it")


def opened(workroom: ServedWorkroom, open_page: Open, width: int = 1280) -> Hand:
    hand = open_page(workroom, width)
    hand.open_design("Lantern bodice, sweetheart")
    hand.press("Joined")
    expect(hand.page.locator("[data-walked]")).to_be_attached()
    return hand


def test_the_slider_walks_side_b_by_keys(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page)
    slider = hand.page.get_by_role("slider", name="Walk the seam")
    gap = hand.page.locator("dt", has_text="Opens so far by").locator("xpath=following-sibling::dd")
    slider.focus()
    hand.keys("Home")
    expect(gap).to_contain_text("0 cm")
    start = hand.page.evaluate(MOVED)
    hand.keys("End")
    expect(slider).to_have_js_property("value", "100")
    expect(gap).to_contain_text("the edges bend differently")
    assert hand.page.evaluate(MOVED) != start
    hand.keys("Home")
    expect(gap).to_contain_text("good")
    assert hand.page.evaluate(MOVED) == start


def test_a_seam_opens_where_it_is_understood_best_and_says_why_paper_cannot_lie_on_it(
    workroom: ServedWorkroom, open_page: Open
) -> None:
    hand = opened(workroom, open_page)
    slider = hand.page.get_by_role("slider", name="Walk the seam")
    stand = workroom.ask("/api/workroom")["stand"]
    told = workroom.ask(f"/api/designs/lantern-01/joined?wearer={stand}&seam=front-princess")
    # Side by side near the bust, as test_joined of the use cases proves; far from both ends of the walk.
    assert 0.0 < told["opens_at"] < 1.0
    expect(slider).to_have_js_property("value", str(round(100 * told["opens_at"])))
    hand.see("the pieces lie across each other or gape")
    slider.focus()
    hand.keys("Home")
    hand.page.get_by_label("Seam", exact=True).select_option("Side: Side front with Side back")
    expect(slider).not_to_have_js_property("value", "0")  # another seam is not walked yet


def test_a_seam_whose_edges_lie_on_each_other_says_nothing_of_gaps(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom)
    hand.press("Open Moon bodice, V neck to the shoulder")
    hand.press("Joined")
    hand.see("the pieces lie across each other or gape")
    hand.page.get_by_label("Seam", exact=True).select_option("Shoulder: Centre front, Side front with Centre back")
    hand.see_no_more("the pieces lie across each other or gape")


def test_another_seam_is_chosen_by_name_and_kept_in_the_flat_view(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page)
    hand.page.get_by_label("Seam", exact=True).select_option("Side: Side front with Side back")
    expect(hand.page.get_by_text(LAID)).to_contain_text("Side back")
    hand.press("Flat")
    expect(hand.button("Piece Side front")).to_have_attribute("aria-pressed", "true")
    expect(hand.button("Piece Side back")).to_have_attribute("aria-pressed", "false")


def test_an_edge_is_pressed_and_its_seam_is_shown(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page)
    side = hand.page.locator("[data-walked] [data-edge='SF.side']")
    x, y = side.evaluate(
        """path => { const at = path.getPointAtLength(path.getTotalLength() / 2).matrixTransform(path.getScreenCTM());
                     return [at.x, at.y]; }"""
    )
    hand.page.mouse.click(x, y)
    expect(hand.page.get_by_text(LAID)).to_contain_text("Side back")


def test_play_walks_to_the_end_and_rests(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page)
    slider = hand.page.get_by_role("slider", name="Walk the seam")
    slider.focus()
    hand.keys("Home", "PageUp", "PageUp", "PageUp", "PageUp", "PageUp")
    walked = int(slider.input_value())
    hand.press("Play")  # runs on from there
    expect(hand.button("Stop")).to_be_visible()
    expect(slider).to_have_js_property("value", "100")
    expect(hand.button("Play")).to_be_visible()
    assert 0 < walked < 100
