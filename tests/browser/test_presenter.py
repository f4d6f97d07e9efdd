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


# All that a link, a picture or a script can give away, as the page has it and as the browser makes an address of it.
HIDDEN = """() => {
  const told = part => [...[...part.attributes].map(each => each.value), part.href, part.src, part.currentSrc];
  const texts = [...document.querySelectorAll("*")].flatMap(told).filter(text => typeof text === "string");
  return [location.href, ...texts].join("\\n");
}"""


def named(refs: list[str], text: str) -> list[str]:
    """The references that stand in a text."""
    return [ref for ref in refs if re.search(rf"\b{re.escape(ref)}\b", text)]


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
    assert named(refs, shown) == []
    measured = workroom.ask(f"/api/wearers/{wearer}")["document"]
    assert [
        number for number in numbers(measured) if re.search(rf"(?<![\d.]){re.escape(number)}(?![\d.])", shown)
    ] == []


def test_an_audience_can_read_the_names_on_the_start_pages_pictures(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom)
    picture = hand.page.locator("article", has_text="Lantern bodice, sweetheart").locator("img")

    def lettering() -> float:
        """Height of the names' letters on the screen, px; the picture is fitted into its place."""
        hand.page.wait_for_function("image => image.complete && image.naturalWidth > 0", arg=picture.element_handle())
        source, wide, high = picture.evaluate("image => [image.getAttribute('src'), image.width, image.height]")
        svg = workroom.fetch(source).decode()
        width, height = map(float, re.findall(r'viewBox="0 0 ([\d.]+) ([\d.]+)"', svg)[0])
        size = min(map(float, re.findall(r'font-size="([\d.]+)"', svg)))
        return size * min(wide / width, high / height)

    assert lettering() < 10.0
    hand.press("Presenter")
    expect(picture).to_have_attribute("src", re.compile("names=large"))
    assert lettering() >= 16.0


def test_every_way_to_look_shows_an_audience_the_stand_alone(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "on-the-stand")
    hand = open_page(workroom)
    found = workroom.ask("/api/workroom")
    refs = [wearer["ref"] for wearer in found["wearers"]]
    people = [wearer["ref"] for wearer in found["wearers"] if not wearer["neutral"]]
    hand.page.get_by_label("For whom").select_option(people[0])
    hand.press("Presenter")
    expect(hand.page.get_by_label("For whom")).to_have_count(0)
    assert named(people, hand.page.evaluate(HIDDEN)) == []
    hand.open_design(title)
    views = hand.page.get_by_role("navigation", name="Ways to look at it").get_by_role("button")
    for name in views.all_text_contents():
        views.get_by_text(name, exact=True).click()
        expect(views.get_by_text(name, exact=True)).to_have_attribute("aria-current", "page")
        hand.see_no_more(" …")
        assert named(people, hand.page.evaluate(HIDDEN)) == [], name
        assert named(refs, hand.page.evaluate(READABLE)) == [], name
    hand.press("Paper")
    printed = hand.page.get_by_role("link", name="Print", exact=True)
    expect(printed).to_have_attribute("href", re.compile(rf"\bwearer={found['stand']}\b"))
    hand.press("Presenter")
    expect(hand.page.get_by_role("banner").get_by_role("combobox")).to_have_value(people[0])
    expect(printed).to_have_attribute("href", re.compile(rf"\bwearer={people[0]}\b"))
    assert named(people, hand.page.evaluate(HIDDEN)) != []  # so it would have been found


def test_what_a_maker_has_noted_is_kept_from_an_audience(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "noted")
    document = workroom.ask("/api/designs/noted")["document"]
    first, *rest = document["steps"]
    steps = [{**first, "note": "for Anna, left hip lower"}, *rest]
    workroom.ask("/api/designs/noted", "PUT", {"document": {**document, "steps": steps}, "what": "fit for Anna"})
    hand = open_page(workroom)
    hand.open_design(title)

    def look() -> str:
        hand.press("Teach")
        hand.press("Next")
        card = hand.page.get_by_role("listitem").filter(has_text="Top edge: sweetheart").first
        card.get_by_role("button", name="Top edge: sweetheart", expanded=False).click()
        expect(hand.page.get_by_role("heading", name="Top edge: sweetheart")).to_be_visible()
        shown = str(hand.page.evaluate(READABLE))
        hand.press("History")
        history = hand.page.get_by_role("dialog", name="History")
        expect(history.get_by_text("As it is now")).to_be_visible()
        shown += str(hand.page.evaluate(READABLE))
        hand.keys("Escape")
        return shown

    assert len(re.findall("for Anna", look())) >= 4  # in the lesson, the note's field, the history, and the card
    hand.page.reload()
    hand.press("Presenter")
    shown = look()
    assert "Version" in shown
    assert "Anna" not in shown


def test_an_audience_is_told_no_length_of_an_edge(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom)
    hand.open_design("Lantern bodice, sweetheart")
    expect(hand.back.handle).to_have_attribute("aria-valuetext", re.compile(r"\d cm"))
    expect(hand.back.handle).not_to_have_attribute("aria-valuemax", "100")
    assert len(edges(hand, r"\d cm$")) > 10
    hand.press("Presenter")
    told = edges(hand, "")
    assert len(told) > 10
    assert [edge for edge in told if re.search(r"\d (cm|in)$", edge)] == []
    assert len(set(told)) == len(told)  # told apart by numbers
    hand.press("Move and choose")
    expect(hand.back.handle).to_have_attribute("aria-valuemax", "100")
    assert hand.back.handle.get_attribute("aria-valuetext") is None


def edges(hand: Hand, ending: str) -> list[str]:
    """The edges that can be chosen to be measured, those that end so."""
    hand.press("Measure it")
    hand.press("Along edges")
    names = hand.page.get_by_label("Add an edge …").get_by_role("option").all_text_contents()
    return [name for name in names[1:] if re.search(ending, name)]


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
    bar = hand.page.get_by_role("banner").bounding_box()
    assert bar is not None
    assert bar["height"] < 2 * 44  # one line
    hand.unfold()
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
