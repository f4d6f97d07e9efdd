"""What to buy and what will be printed: the lay of every cloth, and the sheets before they are printed."""

import io
import re
from urllib.parse import parse_qs, urlsplit

import pikepdf
import pytest
from browser.conftest import Open
from browser.hand import Hand
from browser.served_workroom import ServedWorkroom
from playwright.sync_api import Locator, expect

LOADED = "image => image.complete && image.naturalWidth > 0"


def opened(workroom: ServedWorkroom, open_page: Open, copy: str, view: str, width: int = 1280) -> Hand:
    title = workroom.copy_design("lantern-01", copy)
    hand = open_page(workroom, width)
    hand.open_design(title)
    hand.press(view)
    return hand


def cloth(hand: Hand, name: str) -> Locator:
    return hand.page.get_by_role("region", name=name, exact=True)


def wait_loaded(hand: Hand, picture: Locator) -> None:
    picture.scroll_into_view_if_needed()
    hand.page.wait_for_function(LOADED, arg=picture.element_handle())


def metres(text: str | None) -> float:
    found = re.search(r"Buy ([\d.]+) cm", text or "")
    assert found is not None, text
    return float(found[1])


def test_narrower_cloth_is_typed_and_more_is_bought(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, "narrow", "Lay")
    outer = cloth(hand, "Outer cloth")
    wait_loaded(hand, outer.locator("img"))
    before = metres(outer.text_content())
    expect(cloth(hand, "Facing cloth")).to_be_visible()
    width = outer.get_by_label("Cloth width")
    width.fill("90")
    with hand.saving():
        hand.keys("Tab")
    expect(outer).not_to_contain_text("a usual width is assumed")
    expect(outer).not_to_contain_text(f"Buy {before:g} cm")
    assert metres(outer.text_content()) > before
    assert workroom.ask("/api/designs/narrow")["document"]["cloth_to_buy"]["outer"] == {"width_cm": 90}
    with hand.saving():
        outer.get_by_label("Laid").select_option("spread out")
    expect(outer).to_contain_text("Spread out, right side up")
    with hand.saving():
        outer.get_by_label(re.compile("One way")).check()
    expect(outer).to_contain_text("One-way cloth: no piece may be turned round.")
    for _ in range(3):
        with hand.saving():
            hand.press("Undo")
    expect(outer).to_contain_text(f"Buy {before:g} cm")


def test_cloth_that_is_too_narrow_says_what_helps(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, "too-narrow", "Lay")
    pictures = hand.page.locator("section img")
    expect(pictures).to_have_count(3)
    for picture in pictures.all():  # of the cloth as it was; asked for afterwards, the last one would be there no more
        wait_loaded(hand, picture)
    outer = cloth(hand, "Outer cloth")
    outer.get_by_label("Cloth width").fill("wide")
    hand.keys("Tab")
    expect(outer).to_contain_text("Write a length in cm")
    outer.get_by_label("Cloth width").fill("20")
    with hand.saving():
        hand.keys("Tab")
    expect(outer).to_contain_text("across the grain")
    expect(outer).to_contain_text(re.compile("take cloth at least", re.IGNORECASE))
    expect(outer.locator("img")).to_have_count(0)
    wait_loaded(hand, cloth(hand, "Facing cloth").locator("img"))


def test_a_lay_is_looked_at_closer_by_keys(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, "closer", "Lay")
    frame = hand.page.get_by_role("group", name=re.compile("^Lay of outer cloth"))
    wait_loaded(hand, frame.locator("img"))
    frame.focus()  # which may scroll to it
    whole = frame.locator("img").bounding_box()
    hand.keys("+", "+")
    closer = frame.locator("img").bounding_box()
    assert whole is not None
    assert closer is not None
    assert closer["width"] == pytest.approx(2.25 * whole["width"], rel=0.01)
    hand.keys("0")
    assert frame.locator("img").bounding_box() == whole


def test_the_sheets_are_seen_before_they_are_printed(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, "sheets", "Paper")
    hand.see(re.compile(r"\d+ sheets? of A4, a quarter"))
    thumbs = hand.page.get_by_role("button", name=re.compile("^Show sheet"))
    for thumb in thumbs.all():
        wait_loaded(hand, thumb.locator("img"))
    hand.press("Full")
    hand.page.get_by_role("combobox", name="Paper", exact=True).select_option("Letter")
    hand.see(re.compile(r"\d\d sheets of Letter"))
    told = workroom.ask("/api/designs/sheets/sheets?wearer=size-88&scale=full&paper=letter")["sheets"]
    expect(thumbs).to_have_count(len(told))
    hand.see("100 mm wide and high")

    thumbs.nth(1).focus()
    hand.keys("Enter")
    dialog = hand.page.get_by_role("dialog")
    expect(dialog).to_contain_text(f"Sheet 2 of {len(told)}")
    wait_loaded(hand, dialog.locator("img"))
    hand.keys("PageDown")
    expect(dialog).to_contain_text(f"Sheet 3 of {len(told)}")
    hand.keys("Escape")
    expect(dialog).to_have_count(0)
    expect(thumbs.nth(1)).to_be_focused()

    for name in ("Print", "Sign-off page (private)"):
        link = hand.page.get_by_role("link", name=name, exact=True)
        path = link.get_attribute("href") or ""
        answer = hand.page.request.get(f"{workroom.address}/{path}")
        assert answer.body().startswith(b"%PDF-")
        assert parse_qs(urlsplit(path).query)["paper"] == ["letter"]


def test_one_large_sheet_is_seen_and_printed(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, "large-sheet", "Paper")
    hand.press("One large sheet")
    (told,) = workroom.ask("/api/designs/large-sheet/sheets?wearer=size-88&scale=sheet")["sheets"]
    hand.see(f"One large sheet at full scale, {told['width'] / 10:.4g} cm wide and {told['height'] / 10:.4g} cm high")
    wait_loaded(hand, hand.page.get_by_role("button", name=re.compile("^Show sheet 1 of 1")).locator("img"))
    expect(hand.page.get_by_role("combobox", name="Paper", exact=True)).to_have_count(0)
    path = hand.page.get_by_role("link", name="Print", exact=True).get_attribute("href") or ""
    with pikepdf.open(io.BytesIO(hand.page.request.get(f"{workroom.address}/{path}").body())) as printed:
        (page,) = printed.pages
        size = [float(value) * 25.4 / 72 for value in page.mediabox[2:]]
    assert size == pytest.approx([told["width"], told["height"]], abs=0.05)


def test_an_audience_sees_nobodys_sheets(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "seen")
    hand = open_page(workroom)
    hand.press("Presenter")
    hand.press(f"Open {title}")
    hand.press("Paper")
    thumb = hand.page.get_by_role("button", name=re.compile("^Show sheet 1 of"))
    wait_loaded(hand, thumb.locator("img"))
    source = thumb.locator("img").get_attribute("src") or ""
    assert "audience=1" in source
    assert "size-88" not in hand.page.request.get(f"{workroom.address}/{source}").text()
    expect(hand.page.get_by_role("link", name=re.compile("Sign-off"))).to_have_count(0)


@pytest.mark.parametrize("width", [1280, 800])
@pytest.mark.parametrize("view", ["Lay", "Paper"])
def test_the_views_fit_and_can_be_touched(workroom: ServedWorkroom, open_page: Open, view: str, width: int) -> None:
    hand = opened(workroom, open_page, f"fits-{view.lower()}-{width}", view, width)
    wait_loaded(hand, hand.page.locator("main img").first)
    assert hand.page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
    assert (
        hand.page.evaluate("(main => main.scrollWidth - main.clientWidth)(document.querySelector('main > div'))") <= 0
    )
    for part in hand.page.locator("main :is(button, select, a, input:not([type=checkbox])):visible").all():
        box = part.bounding_box()
        assert box is not None
        assert box["height"] >= 44  # touch target, px (WCAG 2.2, 2.5.5)
