"""A photo is read on the tracing page: tracing waits meanwhile, and what is drawn on the paper comes too."""

from browser.conftest import Open
from browser.paper_block import PaperBlock
from browser.served_workroom import ServedWorkroom
from browser.tracer import Tracer
from design.demo_garments import demo_garment
from intake.rendered_photo import jpeg, render
from intake.test_paper_signs import table
from playwright.sync_api import Route, expect

TRACE = "/api/traces/own-01"
WAITS = "Tracing waits while the photo is read"


def test_tracing_waits_for_the_photo_and_gets_all_that_is_drawn_on_it(
    own_workroom: ServedWorkroom, open_page: Open
) -> None:
    hand = open_page(own_workroom)
    page = hand.page
    hand.press("Trace your own block")
    tracer = Tracer(hand, PaperBlock.of(demo_garment("lantern-01").block))
    tracer.choose()
    hand.press("Trace edges")
    held: list[Route] = []
    page.route("**/api/traces/*/photo", lambda route: held.append(route))
    photo = {"name": "photo.jpg", "mimeType": "image/jpeg", "buffer": jpeg(render(table(table="walnut"))[0], 90)}
    page.get_by_label("Read a photo").set_input_files(photo)  # type: ignore[arg-type]
    hand.see(WAITS)
    box = tracer.canvas.bounding_box()
    assert box is not None
    page.mouse.click(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    page.keyboard.press("Space")
    page.keyboard.press("Control+z")
    expect(page.get_by_label("Title of the block")).to_be_disabled()
    assert own_workroom.ask(TRACE)["document"]["pieces"] == []
    assert page.evaluate("document.scrollingElement.scrollHeight") <= page.evaluate("innerHeight")
    held[0].continue_()
    hand.see("2 pieces were read")
    hand.see_no_more(WAITS)
    expect(page.get_by_text("Saved", exact=True)).to_be_visible()
    pieces = own_workroom.ask(TRACE)["document"]["pieces"]
    assert [len(piece["levels"]) for piece in pieces] == [2, 2]
    assert all(piece["grain"] and piece["notches"] for piece in pieces)
    assert [edge["kind"] for piece in pieces for edge in piece["edges"]].count("fold") == 1
    page.locator("summary", has_text="piece-1").click()
    page.get_by_label("Which level it is: piece-1, Level: level 2").select_option("waist")
    hand.see("Level: waist")
    expect(page.get_by_text("Saved", exact=True)).to_be_visible()
    levels = own_workroom.ask(TRACE)["document"]["pieces"][0]["levels"]
    assert [level["id"] for level in levels] == ["level-1", "waist"]


def test_who_stops_the_reading_traces_on(own_workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(own_workroom)
    hand.press("Trace your own block")
    tracer = Tracer(hand, PaperBlock.of(demo_garment("lantern-01").block))
    tracer.choose()
    photo = {"name": "photo.jpg", "mimeType": "image/jpeg", "buffer": jpeg(render(table(table="walnut"))[0], 90)}
    hand.page.get_by_label("Read a photo").set_input_files(photo)  # type: ignore[arg-type]
    hand.see(WAITS)
    hand.press("Stop")
    hand.see_no_more(WAITS)
    hand.press("Trace edges")
    box = tracer.canvas.bounding_box()
    assert box is not None
    hand.page.mouse.click(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    hand.see("CF, edge 1, 1 point.")


def test_the_reference_sheet_is_printed_where_photos_are_asked_for(
    own_workroom: ServedWorkroom, open_page: Open
) -> None:
    """On the tracing page and beside the review of a learner's pattern, on Letter where lengths are in inches."""
    hand = open_page(own_workroom)
    hand.press("Trace your own block")
    sheet = hand.page.get_by_role("link", name="Print the reference sheet", exact=True)
    sheet.focus()
    expect(sheet).to_be_focused()
    address = sheet.get_attribute("href")
    assert address == "api/reference-sheet.pdf?paper=a4"
    assert own_workroom.fetch(address).startswith(b"%PDF")
    hand.page.goto(own_workroom.address)
    hand.open_design("Lantern bodice, sweetheart")
    hand.press("in")
    hand.press("Paper")
    expect(sheet).to_have_attribute("href", "api/reference-sheet.pdf?paper=letter")
    assert own_workroom.fetch("api/reference-sheet.pdf?paper=letter").startswith(b"%PDF")
