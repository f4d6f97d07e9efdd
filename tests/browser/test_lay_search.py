"""A search for a shorter lay on the page: each better lay is shown, and it stops when it is told to."""

import re

from browser.conftest import Open
from browser.served_workroom import ServedWorkroom
from browser.test_lay_and_paper import cloth, metres, opened, wait_loaded
from playwright.sync_api import expect

WAIT = 90_000  # ms: a machine that compiles the search first, and is busy


def test_a_search_is_watched_stopped_and_compared(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, "searched", "Lay")
    outer = cloth(hand, "Outer cloth")
    before = metres(outer.text_content())
    outer.get_by_label("Cloth width").fill("96")
    with hand.saving():
        hand.keys("Tab")
    expect(outer).not_to_contain_text(f"Buy {before:g} cm")
    picture = outer.locator("img")
    wait_loaded(hand, picture)
    assert "found=" not in (picture.get_attribute("src") or "")
    outer.get_by_label("Look for").select_option("5 minutes")
    outer.get_by_role("button", name="Look for a shorter lay").focus()
    hand.keys("Enter")
    expect(outer.get_by_role("progressbar", name="Looking for a shorter lay of outer cloth")).to_be_visible()
    looking = re.compile(r"(\d+) s by the clock")
    expect(outer).to_contain_text(looking)
    expect(outer).to_contain_text(re.compile(r"[2-9] s by the clock"))  # it counts
    table = outer.get_by_role("table")
    expect(table).to_be_visible(timeout=WAIT)
    assert "found=" in (picture.get_attribute("src") or "")
    outer.get_by_role("button", name="Stop").click()
    expect(outer.get_by_role("button", name="Look again")).to_be_visible(timeout=WAIT)
    expect(outer.get_by_role("status")).to_contain_text(re.compile(r"Found a lay that is [\d.]+ cm shorter\."))
    wait_loaded(hand, picture)
    first, found = (float(row.locator("td").first.inner_text().split()[0]) for row in table.locator("tbody tr").all())
    assert found < first
    expect(outer).to_contain_text(f"the lay is {found:.1f} cm long")
    hand.press("Flat")
    hand.press("Lay")
    expect(cloth(hand, "Outer cloth")).to_contain_text(f"the lay is {found:.1f} cm long")


def test_what_cannot_be_shorter_says_so_at_once(workroom: ServedWorkroom, open_page: Open) -> None:
    """On cloth of a usual width the bodice's lay is as long as its longest piece."""
    hand = opened(workroom, open_page, "shortest", "Lay", width=800)
    outer = cloth(hand, "Outer cloth")
    expect(outer).to_contain_text(re.compile(r"No lay can be shorter: .+ alone takes \d+\.\d cm along the grain\."))
    expect(outer.get_by_role("button", name="Look for a shorter lay")).to_have_count(0)
    expect(outer.get_by_role("table")).to_have_count(0)
