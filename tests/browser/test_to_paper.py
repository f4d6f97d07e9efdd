"""From a tape to paper: somebody new is measured, a design is made for her, and the PDF is printed."""

import re
from io import BytesIO

import pikepdf
import pypdfium2
import pytest
from browser.conftest import Open
from browser.served_workroom import ServedWorkroom
from playwright.sync_api import expect

TAPE_CM = {
    "Back neck point to waist": "40",
    "Bust girth": "92",
    "Underbust girth": "79",
    "Waist girth": "76",
    "Hip girth": "100",
}
A4_POINTS = (595.28, 841.89)  # 210 × 297 mm (ISO 216)


def test_sheets_of_the_stand_say_so_and_what_cannot_be_made_is_not_printed(
    workroom: ServedWorkroom, open_page: Open
) -> None:
    title = workroom.copy_design("lantern-01", "unfinished")
    hand = open_page(workroom)
    hand.open_design(title)
    hand.press("Paper")
    link = hand.page.get_by_role("link", name="Print", exact=True)
    expect(link).to_be_visible()
    stand = hand.page.get_by_text("These sheets are the neutral stand's")
    expect(stand).to_be_visible()
    hand.page.get_by_role("combobox", name="For", exact=True).select_option("w-01")
    expect(stand).to_have_count(0)
    expect(link).to_be_visible()
    hand.watch.forgive("400 (Bad Request)")  # sheets that were being shown
    saved = workroom.ask("/api/designs/unfinished")
    document = saved["document"]
    document["steps"][0]["side"] = {"level": "upper-bust", "offset_cm": 9}
    workroom.ask(
        "/api/designs/unfinished", "PUT", {"document": document, "what": "too high", "based_on": saved["version"]}
    )
    expect(hand.page.get_by_role("alert")).to_be_visible()
    expect(link).to_have_count(0)
    expect(hand.page.get_by_role("link", name="Order of work")).to_have_count(0)


@pytest.mark.parametrize("scale", ["Quarter", "Full"])
def test_a_new_wearer_gets_a_new_design_on_paper(workroom: ServedWorkroom, open_page: Open, scale: str) -> None:
    hand = open_page(workroom)
    hand.press("New wearer")
    for label, amount in TAPE_CM.items():
        hand.page.get_by_label(label, exact=True).fill(amount)
    wearer = hand.page.get_by_label("Reference", exact=True).input_value()
    hand.press("Save")
    expect(hand.page.get_by_label("For whom")).to_have_value(wearer)

    title = f"Reed bodice {scale}"
    hand.press("New design")
    hand.page.get_by_label("What is it called?").fill(title)
    hand.page.get_by_label("Begin with").select_option(label="A copy of Lantern bodice, sweetheart")
    hand.press("Make it")
    expect(hand.back.handle).to_be_visible()
    assert title in [design["title"] for design in workroom.ask("/api/workroom")["designs"]]

    hand.press("Paper")
    hand.press(scale)
    told = hand.page.get_by_text(re.compile(r"\d+ sheets? of A4"))
    if scale == "Full":
        hand.see("allowances are on")
    else:
        hand.see("a quarter of the real size")
    sheets = int(told.inner_text().split()[0])
    link = hand.page.get_by_role("link", name="Print", exact=True).get_attribute("href")
    assert link is not None
    printed = workroom.fetch(link)

    with pikepdf.open(BytesIO(printed)) as document:
        assert len(document.pages) == sheets
        for page in document.pages:
            left, bottom, right, top = (float(value) for value in page.mediabox)
            assert sorted((right - left, top - bottom)) == pytest.approx(A4_POINTS, abs=0.1)
    document = pypdfium2.PdfDocument(printed)
    words = "\n".join(page.get_textpage().get_text_range() for page in document)
    document.close()
    assert title in words
    assert wearer in words
