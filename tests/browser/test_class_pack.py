"""A class pack from the Paper view: each learner who is ticked draws from their own measurements."""

import re
from io import BytesIO

import pypdfium2
from browser.conftest import Open
from browser.served_workroom import ServedWorkroom
from playwright.sync_api import expect


def texts_of(content: bytes) -> list[str]:
    document = pypdfium2.PdfDocument(BytesIO(content))
    texts = [page.get_textpage().get_text_range() for page in document]
    document.close()
    return texts


def test_learners_are_ticked_and_their_packs_made_and_stopped(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom, path="/#/make/lantern-01/paper")
    page = hand.page
    own = page.get_by_role("checkbox", name="Each learner’s own measurements")
    own.check()
    pack = hand.button("Class pack")
    hand.see("Tick 1 to 60 learners")
    expect(pack).to_have_attribute("aria-disabled", "true")
    expect(page.get_by_label("Learners", exact=True).locator("input[type=number]")).to_have_count(0)
    learners = page.get_by_role("group", name="Learners")
    for wearer in ("w-03", "w-01"):
        learners.get_by_role("checkbox", name=wearer, exact=True).check()
    page.get_by_label("Spare packs").fill("1")
    expect(pack).to_have_attribute("aria-disabled", "false")
    pack.click()
    expect(page.get_by_role("progressbar", name="Making: Class pack for 2, 1 spare")).to_be_visible()
    hand.press("Stop")
    expect(page.get_by_role("progressbar")).to_have_count(0)
    pack.click()
    link = page.get_by_role("link", name="Save the PDF")
    expect(link).to_be_visible()
    pages = texts_of(workroom.fetch("/" + str(link.get_attribute("href")).lstrip("/")))
    found = re.findall(r"(learner \d|spare \d)\s+(w-\d\d)", pages[0])
    assert found == [("learner 1", "w-01"), ("learner 2", "w-03"), ("spare 1", "w-01")]
    hand.press("Tick all")
    expect(learners.get_by_role("checkbox", checked=False)).to_have_count(0)
    hand.press("Presenter")
    expect(own).to_have_count(0)
    expect(learners).to_have_count(0)
    expect(page.get_by_label("Learners", exact=True)).to_have_value("12")
