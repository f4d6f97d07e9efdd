"""The start page while pictures are still being made."""

from browser.conftest import Open
from browser.served_workroom import ServedWorkroom
from playwright.sync_api import Route, expect


def test_a_card_is_pencilled_until_its_picture_is_there(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom)
    held: list[Route] = []
    picture = "**/lantern-01/picture.svg*"
    hand.page.route(picture, lambda route: held.append(route))
    hand.page.reload()
    card = hand.page.get_by_role("listitem").filter(has=hand.button("Open Lantern bodice, sweetheart"))
    expect(card.get_by_text("drawing it …")).to_be_visible()
    expect(card.locator("img")).to_have_css("opacity", "0")
    assert held
    hand.page.unroute(picture)  # the page may ask for it once more
    for waiting in held:
        waiting.continue_()
    expect(card.get_by_text("drawing it …")).to_have_count(0)
    expect(card.locator("img")).to_have_css("opacity", "1")
