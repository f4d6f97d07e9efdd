"""The start page: while pictures are still being made, and what a new design begins with."""

import pytest
from browser.conftest import Open
from browser.served_workroom import ServedWorkroom
from playwright.sync_api import Route, expect


def test_a_card_is_pencilled_until_its_picture_is_there(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom)
    held: list[Route] = []
    let_go = False

    def hold(route: Route) -> None:
        """The page may ask for the picture more than once."""
        if let_go:
            route.continue_()
        else:
            held.append(route)

    hand.page.route("**/lantern-01/picture.svg*", hold)
    hand.page.reload()
    card = hand.page.get_by_role("listitem").filter(has=hand.button("Open Lantern bodice, sweetheart"))
    expect(card.get_by_text("drawing it …")).to_be_visible()
    expect(card.locator("img")).to_have_css("opacity", "0")
    assert held
    let_go = True
    for waiting in held:
        waiting.continue_()
    expect(card.get_by_text("drawing it …")).to_have_count(0)
    expect(card.locator("img")).to_have_css("opacity", "1")


@pytest.mark.parametrize(
    ("begun", "pieces"),
    [
        ("A plain bodice", 4),
        ("A plain bodice to the shoulder", 4),
        ("A bodice with darts", 2),
        ("A circle skirt", 2),
        ("A gored skirt", 4),
        ("A straight skirt with darts", 2),
    ],
)
def test_a_design_begins_with_any_block(workroom: ServedWorkroom, open_page: Open, begun: str, pieces: int) -> None:
    hand = open_page(workroom)
    hand.press("New design")
    hand.page.get_by_label("What is it called?").fill(f"From {begun.lower()}")
    hand.page.get_by_label("Begin with").select_option(label=begun)
    hand.press("Make it")
    expect(hand.page.locator("[data-piece]")).to_have_count(pieces)
    expect(hand.page.get_by_role("alert")).to_have_count(0)


@pytest.mark.parametrize("address", ["#/trace", "#/make", "#/trace/", "#/nothing-there"])
def test_an_address_that_names_nothing_to_show_is_the_start_page(
    workroom: ServedWorkroom, open_page: Open, address: str
) -> None:
    hand = open_page(workroom)
    hand.page.evaluate("address => { location.hash = address }", address)
    hand.page.reload()
    expect(hand.button("New design")).to_be_visible()
    expect(hand.page.get_by_role("alert")).to_have_count(0)
