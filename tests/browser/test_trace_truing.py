"""Truing is taken or left edge by edge on the tracing page, and the block remembers."""

from browser.conftest import Open
from browser.served_workroom import ServedWorkroom
from intake.drawn_pieces import on_paper
from plain_block import plain_block
from playwright.sync_api import expect
from web.traced_pieces import traced

PLACE = "/api/traces/own-01"


def test_a_change_is_left_and_taken_again(own_workroom: ServedWorkroom, open_page: Open) -> None:
    document = traced(on_paper(plain_block(), noise=0.3, spacing=10))
    own_workroom.ask(PLACE, "PUT", {"document": document, "what": "traced"})
    hand = open_page(own_workroom, path="/#/trace/own-01")
    page = hand.page
    page.get_by_label("True it").check()
    hand.press("Check it")
    hand.see("By how much, edge by edge")
    page.get_by_text("By how much, edge by edge").click()
    dotted = page.locator(".view .other")
    before = dotted.count()
    tick = page.get_by_role("checkbox", name="Side front, side:")
    expect(tick).to_be_checked()
    rows = page.get_by_role("list", name="By how much, edge by edge").get_by_role("listitem")
    names = [name.split(":")[0] for name in rows.all_inner_texts()]
    tick.uncheck()
    hand.see("left as drawn")
    expect(dotted).to_have_count(before - 1)
    assert [name.split(":")[0] for name in rows.all_inner_texts()] == names  # no line jumps away under the hand
    saved = own_workroom.ask(PLACE)["document"]
    assert [(p["id"], e["line"]) for p in saved["pieces"] for e in p["edges"] if e.get("as_drawn")] == [("SF", "side")]
    page.reload()
    page.get_by_label("True it").check()
    hand.press("Check it")
    page.get_by_text("By how much, edge by edge").click()
    expect(tick).not_to_be_checked()
    tick.check()
    expect(dotted).to_have_count(before)
    hand.see_no_more("left as drawn")
    saved = own_workroom.ask(PLACE)["document"]
    assert not [edge for piece in saved["pieces"] for edge in piece["edges"] if edge.get("as_drawn")]
