"""A whole shoulder is sewn to both parts of a divided one on the tracing page."""

import json

from browser.conftest import Open
from browser.served_workroom import ServedWorkroom
from intake.shoulder_pieces import shoulder_table
from playwright.sync_api import expect
from web.traced_pieces import traced

from panelwright.app.drawn_file import read_drawn

PLACE = "/api/traces/own-01"


def test_the_parts_are_chosen_one_after_another(own_workroom: ServedWorkroom, open_page: Open) -> None:
    document = {**traced(read_drawn(json.dumps(shoulder_table()))), "scale": 1}
    own_workroom.ask(PLACE, "PUT", {"document": document, "what": "traced"})
    hand = open_page(own_workroom, path="/#/trace/own-01")
    page = hand.page
    hand.press("Check it")
    hand.see("Sew another pair")
    page.get_by_text("Sew another pair").click()
    page.get_by_role("combobox", name="Choose an edge").select_option("F 4")
    page.get_by_role("combobox", name="With", exact=True).select_option("SB 4")
    hand.press("And one more, beside it")
    page.get_by_role("combobox", name="With, edge 2").select_option("SB 4")
    hand.press("Sew them together")
    hand.see("Choose two edges")
    page.get_by_role("combobox", name="With, edge 2").select_option("CB 3")
    hand.press("Sew them together")
    hand.see("f-sb: F, edge 4 with SB, edge 4 and CB, edge 3")
    expect(page.get_by_text("it is divided 5.0 cm from the neckline")).to_be_visible()
    (seam,) = own_workroom.ask(PLACE)["document"]["seams"]
    assert seam["a"] == {"piece": "F", "edge": 4}
    assert seam["b"] == [{"piece": "SB", "edge": 4}, {"piece": "CB", "edge": 3}]
    page.get_by_label("Ease: how much longer SB, edge 4 and CB, edge 3").fill("0.6")
    page.keyboard.press("Enter")
    expect(page.get_by_text("Saved", exact=True)).to_be_visible()
    hand.press("Take back: f-sb: F, edge 4 with SB, edge 4 and CB, edge 3")
    hand.see_no_more("it is divided 5.0 cm")
    assert own_workroom.ask(PLACE)["document"]["seams"] == []
