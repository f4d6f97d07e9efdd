"""Garments of several wearers bought together on the page: chosen, laid, stopped, priced, printed."""

import re

from browser.conftest import Open
from browser.hand import AWAY, Hand
from browser.served_workroom import ServedWorkroom
from playwright.sync_api import Locator, expect

# What Chromium writes on the console when the server is gone.
GONE = ("WebSocket connection to", "Failed to load resource: net::ERR_")
COST = re.compile(r"In all [\d.]+ EUR")


def buying(workroom: ServedWorkroom, open_page: Open, width: int = 1280) -> Hand:
    hand = open_page(workroom, width)
    hand.press("Buy for several")
    expect(hand.page.get_by_role("heading", name="Buy for several")).to_be_visible()
    return hand


def add(hand: Hand, design: str, wearer: str, count: int = 1) -> None:
    hand.page.get_by_label("Design").select_option(design)
    hand.page.get_by_label("For whom").select_option(wearer)
    hand.page.get_by_label("How many", exact=True).fill(str(count))
    hand.press("Add")


def rows(table: Locator) -> list[list[str]]:
    return [row.locator("th, td").all_inner_texts() for row in table.locator("tbody tr").all()]


def test_two_wearers_are_bought_for_with_prices_and_a_list_to_print(
    own_workroom: ServedWorkroom, open_page: Open
) -> None:
    hand = buying(own_workroom, open_page)
    expect(hand.button("Lay and count")).to_have_attribute("aria-disabled", "true")
    add(hand, "lantern-01", "w-01")
    add(hand, "lantern-01", "w-02")
    add(hand, "lantern-01", "w-02")
    counts = hand.page.get_by_label(re.compile("^How many of"))
    expect(counts.nth(1)).to_have_value("2")
    hand.page.get_by_label("Currency").fill("EUR")
    hand.press("Lay and count")
    cloths = hand.page.get_by_role("table", name="Cloth", exact=True)
    expect(cloths).to_be_visible()
    outer = next(row for row in rows(cloths) if row[0] == "Outer cloth")
    metres = float(outer[2].removesuffix(" m"))
    assert (outer[5], outer[7]) == ("–", "all")
    hand.see("No prices are given, so there is no cost.")
    picture = hand.page.get_by_role("group", name=re.compile("^Lay 1 of 1 of outer cloth")).locator("img")
    picture.scroll_into_view_if_needed()
    hand.page.wait_for_function("image => image.complete && image.naturalWidth > 0", arg=picture.element_handle())
    hand.page.get_by_text("Widths and prices").click()
    hand.page.get_by_label("Price of outer cloth").fill("20,50")
    hand.keys("Tab")
    hand.see("This list is of what was chosen before.")
    hand.press("Lay and count again")
    hand.see(COST)
    hand.see_no_more("This list is of what was chosen before.")
    assert f"{metres * 20.5:.2f} EUR" in next(row for row in rows(cloths) if row[0] == "Outer cloth")
    for name in ("Print the list", "Print the lays"):
        path = hand.page.get_by_role("link", name=name).get_attribute("href") or ""
        assert own_workroom.fetch(path).startswith(b"%PDF-")
    hand.page.get_by_role("button", name=re.compile("^Take out .* for w-02")).click()
    expect(counts).to_have_count(1)
    hand.page.get_by_role("button", name="Workroom").click()
    hand.press("Buy for several")
    expect(counts).to_have_count(1)
    expect(cloths).to_be_visible()  # the list is kept until the page is closed


def test_it_is_stopped_and_a_cloth_that_is_too_narrow_says_so(own_workroom: ServedWorkroom, open_page: Open) -> None:
    hand = buying(own_workroom, open_page, 800)
    own_workroom.copy_design("lantern-01", "narrow-group")
    document = own_workroom.ask("/api/designs/narrow-group")["document"]
    narrow = {**document, "cloth_to_buy": {"outer": {"width_cm": 30, "folded": True}}}
    own_workroom.ask("/api/designs/narrow-group", "PUT", {"document": narrow, "what": "narrow"})
    hand.page.reload()
    add(hand, "lantern-01", "w-01")
    hand.page.get_by_label("Look for shorter lays").select_option("1 minute")
    hand.press("Lay and count")
    expect(hand.page.get_by_role("progressbar", name="Laying the garments")).to_be_visible()
    expect(hand.page.get_by_role("status").filter(has_text="lay of")).to_be_visible()
    hand.press("Stop")
    expect(hand.page.get_by_role("progressbar")).to_have_count(0)
    hand.page.get_by_role("button", name=re.compile("^Take out")).click()
    add(hand, "narrow-group", "w-01")
    hand.page.get_by_label("Look for shorter lays").select_option("not at all")
    hand.press("Lay and count")
    expect(hand.page.get_by_role("alert")).to_contain_text("across the grain")


def test_an_audience_does_not_see_who_gets_what(own_workroom: ServedWorkroom, open_page: Open) -> None:
    hand = buying(own_workroom, open_page)
    add(hand, "lantern-01", "w-01")
    expect(hand.page.get_by_role("main")).to_contain_text("w-01")
    hand.page.get_by_label("Title of the list").fill("For Anna")
    hand.keys("Tab")
    expect(hand.page.get_by_role("combobox", name="Group", exact=True).locator("option:checked")).to_have_text(
        "For Anna"
    )
    hand.press("Presenter")
    hand.see("Who gets what is not shown to an audience.")
    expect(hand.page.get_by_role("main")).not_to_contain_text("w-01")
    assert "Anna" not in hand.page.locator("body").inner_text() + hand.page.title()
    hand.page.reload()
    hand.see("Who gets what is not shown to an audience.")
    assert "Anna" not in hand.page.locator("body").inner_text() + hand.page.title()


def test_a_group_is_there_after_a_restart_and_what_is_changed_meanwhile_is_saved(
    own_workroom: ServedWorkroom, open_page: Open
) -> None:
    hand = buying(own_workroom, open_page)
    add(hand, "lantern-01", "w-01", 3)
    expect(hand.page.get_by_role("combobox", name="Group", exact=True)).to_be_visible()
    hand.watch.forgive(*GONE)
    own_workroom.kill()
    hand.page.get_by_label("Currency").fill("EUR")
    hand.keys("Tab")
    hand.see(AWAY)
    own_workroom.start()
    hand.see_no_more(AWAY)
    again = buying(own_workroom, open_page)
    expect(again.page.get_by_label(re.compile("^How many of"))).to_have_value("3")
    expect(again.page.get_by_label("Currency")).to_have_value("EUR")


def test_what_one_page_chooses_another_shows(own_workroom: ServedWorkroom, open_page: Open) -> None:
    one, other = buying(own_workroom, open_page), buying(own_workroom, open_page)
    add(one, "lantern-01", "w-01")
    counts = other.page.get_by_label(re.compile("^How many of"))
    expect(counts).to_have_value("1")
    counts.fill("4")
    other.keys("Tab")
    expect(one.page.get_by_label(re.compile("^How many of"))).to_have_value("4")
    own_workroom.ask("/api/wearers/w-01", "DELETE")
    for each in (one, other):
        each.see("Choose a design, and for whom, and add it.")


def test_several_groups_are_kept_and_one_is_deleted(own_workroom: ServedWorkroom, open_page: Open) -> None:
    hand = buying(own_workroom, open_page)
    title = hand.page.get_by_label("Title of the list")
    title.fill("Festival")
    hand.keys("Tab")
    add(hand, "lantern-01", "w-01")
    hand.press("Begin another group")
    hand.see("Choose a design, and for whom, and add it.")
    expect(title).to_have_value("Our garments")
    add(hand, "drum-03", "size-88", 2)
    which = hand.page.get_by_role("combobox", name="Group", exact=True)
    expect(which.locator("option:checked")).to_have_text("Our garments")
    which.select_option("Festival")
    expect(title).to_have_value("Festival")
    expect(hand.page.get_by_label(re.compile("^How many of"))).to_have_value("1")
    hand.press("Delete this group")
    hand.press("Cancel")
    hand.press("Delete this group")
    hand.press("Delete it")
    expect(title).to_have_value("Our garments")
    expect(hand.page.get_by_label(re.compile("^How many of"))).to_have_value("2")
    assert [group["title"] for group in own_workroom.ask("/api/workroom")["groups"]] == ["Our garments"]
