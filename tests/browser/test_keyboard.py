"""All of it without a mouse."""

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
