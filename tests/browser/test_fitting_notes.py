"""Fitting notes on the page: a pin pressed on a piece, kept with the wearer, switched off, hidden from an audience."""

from typing import Any

from browser.conftest import Open
from browser.served_workroom import ServedWorkroom
from playwright.sync_api import expect

TITLE = "Lantern bodice, sweetheart"
WEARER = "w-01"


def saved(workroom: ServedWorkroom) -> list[dict[str, Any]]:
    return list(workroom.ask(f"/api/fittings/{WEARER}")["document"]["notes"])


# Saved by another page while a note is being written here, under the uid that this one would take.
THEIRS = {"uid": "note", "kind": "sway-back", "amount_cm": 1}


def test_a_pin_pressed_on_a_piece_becomes_a_note_of_the_wearer(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom, 1280)
    page = hand.page
    hand.open_design(TITLE)
    page.get_by_role("combobox", name="For", exact=True).select_option(WEARER)
    expect(page.get_by_role("combobox", name="For", exact=True)).to_have_value(WEARER)
    page.get_by_role("button", name="Fitting notes").click()
    page.get_by_role("button", name="Add a note").click()
    page.get_by_role("button", name="Take in a seam").click()
    waist = page.locator('#pattern svg [data-piece="SB"]')
    expect(waist).to_be_visible()
    place = page.evaluate(
        """() => {
          const edge = document.querySelector('#pattern [data-edge="SB.back-princess"]');
          const at = edge.getPointAtLength(edge.getTotalLength() * 0.5);
          const on = new DOMPoint(at.x, at.y).matrixTransform(edge.getScreenCTM());
          return [on.x, on.y];
        }"""
    )
    page.mouse.click(*place)
    region = page.get_by_role("region", name="Fitting notes")
    expect(region.get_by_label("Seam", exact=True)).to_have_value("back-princess")
    region.get_by_label("On each side").fill("0.8")
    document = {"format": "panelwright-fitting/1", "wearer": WEARER, "notes": [THEIRS]}
    workroom.ask(f"/api/fittings/{WEARER}", "PUT", {"document": document, "what": "sway back"})
    expect(region.get_by_text("Sway back: a wedge")).to_be_visible()
    region.get_by_role("button", name="Keep the note").click()
    label = region.get_by_text("Take in the back princess seam")
    expect(label).to_be_visible()
    theirs, note = saved(workroom)
    assert theirs == THEIRS
    assert (note["kind"], note["seam"], note["amount_cm"]) == ("take-in", "back-princess", 0.8)
    with page.expect_response(lambda told: "/api/fittings/" in told.url and told.request.method == "PUT"):
        region.get_by_role("checkbox").last.uncheck()
    expect(region.get_by_role("checkbox").last).not_to_be_checked()
    assert [each.get("off", False) for each in saved(workroom)] == [False, True]
    page.get_by_role("button", name="Presenter").click()
    expect(page.get_by_text("Fitting notes")).to_have_count(0)
