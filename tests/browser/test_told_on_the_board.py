"""What the page tells besides findings: what a height cuts off, what a version changed, what to buy; and where."""

import re

import pytest
from browser.conftest import Open
from browser.hand import Hand
from browser.served_workroom import ServedWorkroom
from playwright.sync_api import Locator, expect

SHORT = {
    "shape": "shaped",
    "centre": {"level": "underbust", "offset_cm": -6},
    "side": {"level": "underbust", "offset_cm": -4},
}


def opened(workroom: ServedWorkroom, open_page: Open, copy: str, width: int = 1280) -> Hand:
    """A copy of the lantern bodice with a short, shaped hem."""
    title = workroom.copy_design("lantern-01", copy)
    document = workroom.ask(f"/api/designs/{copy}")["document"]
    steps = [{**step, **SHORT} if step["uid"] == "hem" else step for step in document["steps"]]
    workroom.ask(f"/api/designs/{copy}", "PUT", {"document": {**document, "steps": steps}, "what": "shorter"})
    hand = open_page(workroom, width)
    hand.open_design(title)
    return hand


def card(hand: Hand, uid: str) -> Locator:
    return hand.page.locator(f"li[data-step={uid}]")


def raise_side(hand: Hand, height: str = "5") -> None:
    """The hem's side is typed so high that bones have no room."""
    card(hand, "hem").get_by_role("button", expanded=False).click()
    above = card(hand, "hem").get_by_label("Above it").nth(1)
    above.fill(height)
    with hand.saving():
        above.press("Tab")


@pytest.mark.parametrize("width", [1280, 800])
def test_what_a_height_cuts_off_is_told_once_at_its_field(
    workroom: ServedWorkroom, open_page: Open, width: int
) -> None:
    hand = opened(workroom, open_page, f"cut-off-{width}", width)
    raise_side(hand)
    told = hand.page.get_by_role("alert").filter(has_text="leaves no room for “Bones: spiral”; lower it by about")
    expect(told).to_have_count(1)
    field = card(hand, "hem").get_by_label("Above it").nth(1).bounding_box()
    box = told.bounding_box()
    assert field
    assert box
    assert 0 <= box["y"] - (field["y"] + field["height"]) < 30  # px: right below the field that was typed
    expect(card(hand, "bones")).to_contain_text("Not done yet: it waits for “Hem: shaped” to leave it room")
    card(hand, "hem").get_by_role("button", expanded=True).click()
    expect(card(hand, "hem")).to_contain_text("In the way: at this height the hem leaves no room")
    with hand.saving():
        hand.press("Undo")
    hand.see_no_more("leaves no room")
    hand.see_no_more("it waits for")


def test_reasons_are_in_the_unit_of_the_page(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, "in-inches")
    hand.press("in")
    raise_side(hand, "2")
    told = card(hand, "hem").get_by_role("alert")
    expect(told).to_contain_text(re.compile(r"lower it by about (\d+ )?\d+/\d+ in"))
    expect(told).not_to_contain_text(" cm")


def test_a_version_says_what_changed_and_an_audience_is_not_told(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, "in-words")
    raise_side(hand)
    hand.press("History")
    rows = hand.page.get_by_role("dialog", name="History").get_by_role("listitem")
    expect(rows).to_have_count(3)
    expect(rows.nth(0)).to_contain_text("“Hem: shaped”: height at side, from underbust, 4.0 cm below to")
    expect(rows.nth(1)).to_contain_text("shape, from straight to shaped")
    hand.keys("Escape")
    hand.press("Presenter")
    hand.press("History")
    expect(rows).to_have_count(3)
    expect(hand.page.get_by_role("dialog", name="History")).not_to_contain_text("Hem")


def test_a_wearers_history_is_read_and_gone_back_in(own_workroom: ServedWorkroom, open_page: Open) -> None:
    first = own_workroom.ask("/api/wearers/w-01")["document"]
    waist = first["measurements"]["waist_girth"]
    changed = {**first, "measurements": {**first["measurements"], "waist_girth": waist + 1}}
    own_workroom.ask("/api/wearers/w-01", "PUT", {"document": changed, "what": "after a month"})
    hand = open_page(own_workroom, path="/#/make/lantern-01/flat")
    hand.page.get_by_role("combobox", name="For", exact=True).select_option("w-01")
    expect(hand.back.handle).to_be_visible()
    hand.press("Change the measurements of w-01")
    hand.press("History")
    rows = hand.page.get_by_role("dialog", name="History").get_by_role("listitem")
    expect(rows.nth(0)).to_contain_text(f"Waist girth: from {waist:.1f} cm to {waist + 1:.1f} cm")
    rows.nth(1).get_by_role("button").click()
    expect(rows).to_have_count(0)
    expect(hand.page.get_by_label("Waist girth")).to_have_value(f"{waist:g}")
    assert own_workroom.ask("/api/wearers/w-01")["document"] == first
    hand.press("Presenter")
    hand.see("Measurements are private and are not shown to an audience")
    expect(hand.button("History")).to_have_count(0)


def test_what_to_buy_beside_the_cloth_is_told(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, "to-buy")
    hand.press("Lay")
    table = hand.page.get_by_role("region", name="To buy beside the cloth")
    expect(table.get_by_role("row").filter(has_text="zip")).to_contain_text("15.0 cm")
    expect(table.get_by_role("row").filter(has_text="front princess")).to_contain_text("2 ×")
    told = workroom.ask("/api/designs/to-buy/lays?wearer=size-88")["notions"]
    expect(table.locator("tbody tr")).to_have_count(len(told))
    hand.press("in")
    expect(table.get_by_role("row").filter(has_text="zip")).to_contain_text("5 7/8 in")


def test_a_finding_lights_on_the_body_and_on_the_pieces(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, "found-on-body")
    raise_side(hand)
    hand.press("Body")
    figure = hand.page.get_by_role("group", name="The garment on the body", exact=True)
    expect(figure).to_have_attribute("data-ready", "")
    flat = hand.page.get_by_role("group", name="The same pieces, flat").locator("[data-finding]")
    expect(flat).not_to_have_count(0)
    expect(figure).not_to_have_attribute("data-found", "0")
    expect(figure).to_have_attribute("data-lit", "0")
    findings = hand.page.get_by_role("region", name="Findings").get_by_role("listitem")
    high = findings.filter(has_text="At the centre back the hem lies")
    high.hover()
    expect(figure).to_have_attribute("data-lit", "2")  # a piece of each hand
    expect(hand.page.locator("[data-finding].lit")).to_have_count(1)
    expect(figure).to_have_attribute("data-round", "0")
    high.get_by_role("button", name=re.compile("^Show where")).click()
    expect(hand.page.get_by_text(re.compile("^From the back"))).to_be_visible()
    # And the other way round: over its place on the pieces, the finding is lit in the list.
    hand.page.mouse.move(5, 5)
    expect(figure).to_have_attribute("data-lit", "0")
    place = flat.first.bounding_box()
    assert place
    hand.page.mouse.move(place["x"] + place["width"] / 2 + 2, place["y"] + place["height"] / 2 - 2)
    expect(figure).to_have_attribute("data-lit", "2")
    hand.press("Presenter")
    expect(figure).to_have_attribute("data-found", "0")
    expect(flat).to_have_count(0)


def test_a_finding_leads_to_the_field_that_it_speaks_of(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "led")
    document = workroom.ask("/api/designs/led")["document"]
    document["block"] = {"ease_cm": {"waist": -8}}
    document["steps"][0]["back"] = {"level": "waist", "offset_cm": 3}
    workroom.ask("/api/designs/led", "PUT", {"document": document, "what": "tight and low"})
    hand = open_page(workroom)
    hand.press(f"Open {title}")
    findings = hand.page.get_by_role("region", name="Findings")
    findings.get_by_role("button", name="Go to: ease at the waist").first.click()
    expect(hand.page.get_by_role("textbox", name="Ease at the waist")).to_be_focused()
    findings.get_by_role("button", name="Go to: Top edge: sweetheart, height at centre back").first.click()
    place = hand.page.get_by_role("group", name="Height at centre back (else the side's level runs on)")
    expect(place.get_by_label("Level", exact=True)).to_be_focused()
    expect(findings).not_to_contain_text(re.compile(r"\w_\w|in a file"))


def test_a_level_that_an_edge_crosses_keeps_its_name(own_workroom: ServedWorkroom, open_page: Open) -> None:
    document = own_workroom.ask("/api/designs/lantern-01")["document"]
    top = {**document["steps"][0], "back": {"level": "underbust", "offset_cm": 1.0}}
    low = {**document, "ref": "low", "title": "Low back", "steps": [top, *document["steps"][1:]]}
    own_workroom.ask("/api/designs/low", "PUT", {"document": low, "what": "a low back"})
    hand = open_page(own_workroom)
    hand.press("Open Low back")
    drawing = hand.page.locator("svg", has=hand.button("Piece Centre back"))
    expect(drawing.get_by_text("bust", exact=True)).to_have_count(1)
    expect(drawing.get_by_text("underbust", exact=True)).to_have_count(1)


# Whether the letters of a name lie on one of the marks of their piece: both as boxes on the screen.
ON_A_MARK = """() => [...document.querySelectorAll("g:has(> [data-piece])")].filter(group => {
  const words = [...group.querySelectorAll(":scope > .text text")].map(text => text.getBoundingClientRect());
  const marks = [...group.querySelectorAll(".mark")].map(mark => mark.getBoundingClientRect());
  return words.some(a => marks.some(b =>
    a.left < b.right && b.left < a.right && a.top + 3 < b.bottom && b.top < a.bottom - 3));
}).map(group => group.textContent.trim())"""


@pytest.mark.parametrize("width", [1280, 800])
def test_no_code_stands_on_an_eyelet_or_button(workroom: ServedWorkroom, open_page: Open, width: int) -> None:
    hand = open_page(workroom, width)
    hand.press("Open Drum bodice, square, with sewn-on straps")
    expect(hand.button("Piece Strap")).to_be_visible()
    expect(hand.page.locator(".text", has_text="CB")).to_be_attached()  # codes, since names would run together
    assert hand.page.evaluate(ON_A_MARK) == []
