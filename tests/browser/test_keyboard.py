"""All of it without a mouse."""

import pytest
from browser.conftest import Open
from browser.hand import Hand
from browser.served_workroom import ServedWorkroom
from playwright.sync_api import expect

FOCUSED = "() => document.activeElement.getAttribute('aria-label') ?? document.activeElement.textContent.trim()"
MOST_TABS = 120


def tab_to(hand: Hand, start: str) -> None:
    """Tab until what has the focus is called so.

    Raises:
        AssertionError: when it is not reached.
    """
    met = []
    for _ in range(MOST_TABS):
        hand.keys("Tab")
        met.append(hand.page.evaluate(FOCUSED))
        if met[-1].startswith(start):
            return
    raise AssertionError(f"Tab does not lead to {start}; it led to {met}")


def test_a_design_is_opened_changed_and_undone_with_keys_alone(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "keyed")
    hand = open_page(workroom)
    expect(hand.button(f"Open {title}")).to_be_visible()
    tab_to(hand, f"Open {title}")
    hand.keys("Enter")
    expect(hand.back.handle).to_be_visible()
    before = hand.back.height()
    tab_to(hand, "height at centre back")
    # Without a pause: after one, the page keeps the place by itself.
    with hand.saving():
        hand.keys("Shift+ArrowDown", "ArrowUp", "Enter")
    hand.back.wait_for(before - 9)
    kept = workroom.ask("/api/designs/keyed")
    assert kept["can_undo"]
    with hand.saving():
        hand.keys("ArrowDown", "Escape")
    hand.back.wait_for(before - 9)
    assert workroom.ask("/api/designs/keyed") == kept
    hand.keys("Control+z")
    hand.back.wait_for(before)
    hand.keys("Control+Shift+z")
    hand.back.wait_for(before - 9)


def test_what_the_bar_has_no_room_for_is_reached_by_keys(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom, 800)
    hand.open_design("Lantern bodice, sweetheart")
    more, unit = hand.button("More"), hand.page.get_by_role("group", name="Lengths in")
    expect(more).to_have_attribute("aria-expanded", "false")
    expect(unit).to_be_hidden()
    more.focus()
    hand.keys("Enter", "Tab")
    expect(hand.page.get_by_role("combobox", name="For", exact=True)).to_be_focused()
    hand.keys("Tab", "Tab", "Enter")
    expect(unit.get_by_role("button", name="in", exact=True)).to_have_attribute("aria-pressed", "true")
    hand.keys("Escape")
    expect(unit).to_be_hidden()
    expect(more).to_be_focused()
    hand.keys("Enter", "Tab", "Tab", "Tab", "Tab", "Tab")
    expect(unit).to_be_hidden()  # the hand has gone on


def test_undo_keeps_the_focus_when_nothing_is_left_to_undo(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "undone-by-keys")
    hand = open_page(workroom)
    hand.open_design(title)
    hand.lower_back(10)
    undo, redo = hand.button("Undo"), hand.button("Redo")
    undo.focus()
    while undo.get_attribute("aria-disabled") == "false":
        with hand.saving():
            hand.keys("Enter")
    expect(undo).to_be_focused()
    expect(redo).to_have_attribute("aria-disabled", "false")
    kept = workroom.ask("/api/designs/undone-by-keys")
    hand.keys("Enter")
    assert workroom.ask("/api/designs/undone-by-keys") == kept


def test_the_start_page_keeps_the_focus(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "deleted-by-keys")
    hand = open_page(workroom)
    hand.watch.forgive("designs/deleted-by-keys/picture.svg")  # it may still be in the making when its design goes
    hand.button("New design").focus()
    hand.keys("Enter")
    expect(hand.page.get_by_label("What is it called?")).to_be_focused()
    hand.button("Cancel").focus()
    hand.keys("Enter")
    expect(hand.button("New design")).to_be_focused()
    hand.button(f"Delete {title}").focus()
    hand.keys("Enter")
    expect(hand.button("Cancel")).to_be_focused()
    hand.keys("Enter")
    expect(hand.button(f"Delete {title}")).to_be_focused()
    hand.keys("Enter", "Shift+Tab", "Enter")
    expect(hand.button(f"Open {title}")).to_have_count(0)
    assert hand.page.evaluate(FOCUSED).startswith("Open ")


def test_a_joined_seam_is_moved_and_brought_closer_with_keys(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom)
    hand.open_design("Lantern bodice, sweetheart")
    hand.press("Joined")
    drawing = hand.page.get_by_role("group", name="Keys: + and − zoom")
    piece = hand.page.locator("[data-walked] path").first
    drawing.focus()
    hand.keys("0")
    box = piece.bounding_box()
    hand.keys("ArrowRight", "ArrowUp")
    moved = piece.bounding_box()
    hand.keys("+")
    closer = piece.bounding_box()
    assert box is not None
    assert moved is not None
    assert closer is not None
    # As in Flat: the arrows look to that side, so the paper goes the other way, 40 pixels each.
    assert (moved["x"] - box["x"], moved["y"] - box["y"]) == pytest.approx((-40, 40), abs=0.5)
    assert closer["width"] / moved["width"] == pytest.approx(1.25, abs=0.03)  # its stroke is as thin as before


def test_what_has_the_focus_is_seen(workroom: ServedWorkroom, open_page: Open) -> None:
    """Each stop of Tab shows an outline or another ring (WCAG 2.2, 2.4.7)."""
    hand = open_page(workroom)
    hand.open_design("Lantern bodice, sweetheart")
    for _ in range(12):
        hand.keys("Tab")
        ring = hand.page.evaluate(
            "() => { const look = getComputedStyle(document.activeElement);"
            " return [look.outlineStyle !== 'none' && parseFloat(look.outlineWidth) >= 1, look.boxShadow !== 'none']; }"
        )
        assert any(ring) or hand.page.evaluate("() => document.activeElement.closest('svg') !== null")
