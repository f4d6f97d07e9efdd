"""Before an audience, on a narrow screen, and without a mouse."""

import re

import pytest
from browser.conftest import Open
from browser.hand import Hand
from browser.served_workroom import ServedWorkroom
from playwright.sync_api import expect

# All that can be read or heard: text, names for screen readers, tips, and what fields hold.
READABLE = """() => {
  const told = part => [part.textContent, part.value, ...["aria-label", "title", "alt", "aria-valuetext"].map(
    name => part.getAttribute(name))].filter(text => typeof text === "string");
  return [document.title, location.href, ...[...document.body.querySelectorAll("*")].flatMap(told)].join("\\n");
}"""


def test_an_audience_sees_no_wearer_and_no_measurement(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "presented")
    hand = open_page(workroom)
    refs = [wearer["ref"] for wearer in workroom.ask("/api/workroom")["wearers"]]
    wearer = next(ref for ref in refs if ref.startswith("w-"))
    hand.page.get_by_label("For whom").select_option(wearer)
    hand.open_design(title)
    shown = hand.page.evaluate(READABLE)
    assert wearer in shown
    hand.press("Presenter")
    expect(hand.button("Presenter")).to_have_attribute("aria-pressed", "true")
    expect(hand.back.handle).to_be_visible()
    shown = hand.page.evaluate(READABLE)
    assert [ref for ref in refs if re.search(rf"\b{re.escape(ref)}\b", shown)] == []
    measured = workroom.ask(f"/api/wearers/{wearer}")["document"]
    assert [
        number for number in numbers(measured) if re.search(rf"(?<![\d.]){re.escape(number)}(?![\d.])", shown)
    ] == []


def numbers(document: object) -> list[str]:
    """Every number of a document that has a part behind the point or more than one digit, as it is written."""
    if isinstance(document, dict):
        return [number for value in document.values() for number in numbers(value)]
    if isinstance(document, list):
        return [number for value in document for number in numbers(value)]
    return [f"{document:g}"] if isinstance(document, float | int) and document > 20 else []


@pytest.mark.parametrize("width", [1280, 800])
def test_nothing_lies_outside_the_screen(workroom: ServedWorkroom, open_page: Open, width: int) -> None:
    hand = open_page(workroom, width)
    hand.see(re.compile("Lantern bodice"))
    assert overflow(hand) <= 0
    hand.open_design("Lantern bodice, sweetheart")
    assert overflow(hand) <= 0
    for name in ("Undo", "Redo", "Presenter", "Add a step"):
        box = hand.button(name).bounding_box()
        assert box is not None
        assert box["x"] >= 0
        assert box["x"] + box["width"] <= width
        assert box["height"] >= 44  # touch target, px (WCAG 2.2, 2.5.5)


def overflow(hand: Hand) -> float:
    """How far the page can be scrolled sideways, px."""
    return float(hand.page.evaluate("document.documentElement.scrollWidth - innerWidth"))
