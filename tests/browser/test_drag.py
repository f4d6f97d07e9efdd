"""A style line is dragged: the pieces follow the hand, it is undone, and others see it."""

from browser.conftest import Open
from browser.served_workroom import ServedWorkroom
from playwright.sync_api import expect


def test_the_start_page_shows_the_designs_of_the_demo(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom)
    titles = [design["title"] for design in workroom.ask("/api/workroom")["designs"]]
    assert {"Lantern bodice, sweetheart", "Drum bodice, square, with sewn-on straps"} <= set(titles)
    for title in titles:
        expect(hand.button(f"Open {title}")).to_be_visible()
    cards = hand.page.locator("main > ul > li")  # traced blocks have a list of their own below
    expect(cards).to_have_count(len(titles))
    # Each card has its picture, drawn and not broken.
    expect(cards.locator("img")).to_have_count(len(titles))
    for picture in cards.locator("img").all():
        picture.scroll_into_view_if_needed()
        hand.page.wait_for_function("image => image.complete && image.naturalWidth > 0", arg=picture.element_handle())


def test_the_back_follows_the_hand_and_comes_back(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "dragged")
    hand = open_page(workroom)
    hand.open_design(title)
    back, before = hand.back, hand.back.height()
    saved = workroom.ask("/api/designs/dragged")

    with hand.saving(), back.held() as hold:
        hold.to(0, -20)
        back.wait_for(before - 20)
        assert workroom.ask("/api/designs/dragged") == saved  # nothing is saved while it is held
    expect(hand.button("Undo")).to_be_enabled()
    back.wait_for(before - 20)
    dropped = workroom.ask("/api/designs/dragged")
    assert dropped["version"] > saved["version"]
    assert (dropped["can_undo"], dropped["can_redo"]) == (True, False)

    hand.press("Undo")
    back.wait_for(before)
    assert workroom.ask("/api/designs/dragged")["document"] == saved["document"]
    hand.press("Redo")
    back.wait_for(before - 20)
    expect(hand.button("Redo")).to_be_disabled()


def test_a_line_that_cannot_be_cut_along_is_drawn_broken_until_it_is_let_go(
    workroom: ServedWorkroom, open_page: Open
) -> None:
    title = workroom.copy_design("lantern-01", "too-low")
    hand = open_page(workroom)
    hand.open_design(title)
    line = hand.page.locator("[data-held]")
    dashes = "lines => lines.length ? getComputedStyle(lines[0]).strokeDasharray : null"
    before = hand.back.height()
    with hand.back.held() as hold:
        hold.to(0, -20)
        hand.back.wait_for(before - 20)
        expect(line).to_have_count(4)
        assert line.evaluate_all(dashes) == "none"
        hold.to(0, -345)  # below the hem
        hand.page.wait_for_function(f"() => ({dashes})([...document.querySelectorAll('[data-held]')]) !== 'none'")
    expect(line).to_have_count(0)


def test_no_file_is_asked_for_while_the_hand_holds_a_line(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "asked-once")
    hand = open_page(workroom)
    hand.open_design(title)
    back, before = hand.back, hand.back.height()
    asked: list[str] = []
    with back.held() as hold:
        hold.to(0, -10)
        back.wait_for(before - 10)
        hand.page.on("request", lambda request: asked.append(request.url))
        for down in (15, 20, 25):
            hold.to(0, -down)
            back.wait_for(before - down)
        assert asked == []
        with hand.page.expect_request("**/fitting?*"):  # the notes are told anew once it stands
            hand.keys("Escape")
        back.wait_for(before)


def test_escape_puts_it_back(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "escaped")
    hand = open_page(workroom)
    hand.open_design(title)
    back, before = hand.back, hand.back.height()
    saved = workroom.ask("/api/designs/escaped")
    with back.held() as hold:
        hold.to(0, -20)
        back.wait_for(before - 20)
        hand.keys("Escape")
        back.wait_for(before)
    assert workroom.ask("/api/designs/escaped") == saved


def test_what_is_wrong_is_told_while_the_handle_is_still_held(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "told-early")
    hand = open_page(workroom)
    hand.open_design(title)
    saved = workroom.ask("/api/designs/told-early")
    findings = hand.page.get_by_role("region", name="Findings")
    low = findings.get_by_text("below the underbust")
    expect(low).to_have_count(0)
    with hand.back.held() as hold:
        hold.to(0, -120)
        expect(low).to_be_visible()
        assert workroom.ask("/api/designs/told-early") == saved
        hold.to(0, -4)
        expect(low).to_have_count(0)
        hold.to(0, -120)
        expect(low).to_be_visible()
        hand.keys("Escape")
        expect(low).to_have_count(0)
    assert workroom.ask("/api/designs/told-early") == saved


def test_two_pages_see_each_other(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "shared")
    one, other = open_page(workroom), open_page(workroom)
    one.open_design(title)
    other.open_design(title)
    before = other.back.height()
    lowered = one.lower_back(20)
    other.back.wait_for(lowered)
    other.press("Undo")
    one.back.wait_for(before)
