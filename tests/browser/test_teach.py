"""A design is told step by step, with what each step makes and takes away."""

from browser.conftest import Open
from browser.hand import Hand
from browser.served_workroom import ServedWorkroom
from playwright.sync_api import expect


def taught(hand: Hand) -> None:
    """Turn to the lesson and wait until it is drawn."""
    hand.press("Teach")
    expect(hand.page.get_by_text("Before the first step")).to_be_visible()


def test_each_step_is_told_and_what_it_changes_is_drawn(workroom: ServedWorkroom, open_page: Open) -> None:
    saved = workroom.ask("/api/designs/lantern-01")
    hand = open_page(workroom)
    hand.open_design("Lantern bodice, sweetheart")
    taught(hand)
    fresh, gone = hand.page.locator("path.fresh"), hand.page.locator("path.gone")
    expect(fresh).to_have_count(0)

    hand.press("Next")
    expect(hand.page.get_by_role("heading", name="Top edge: sweetheart")).to_be_visible()
    hand.see("Step 1 of 4")
    hand.see("New on every piece")
    assert fresh.count() >= 4  # one edge for each of four pieces
    assert gone.count() >= 4
    # The new top lies below the one that went.
    assert min(_tops(hand, "path.fresh")) > min(_tops(hand, "path.gone"))

    hand.keys("ArrowRight", "ArrowRight", "ArrowRight")
    expect(hand.page.get_by_role("heading", name="Bones: spiral")).to_be_visible()
    hand.see("New on every piece")
    expect(hand.button("Next")).to_be_disabled()
    hand.press("Back")
    hand.see("Step 3 of 4")
    assert workroom.ask("/api/designs/lantern-01") == saved


def test_it_plays_by_itself_to_the_end_and_stops(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom)
    hand.page.clock.install()
    hand.open_design("Lantern bodice, sweetheart")
    taught(hand)
    hand.press("Play")
    for step in range(1, 5):
        hand.page.clock.run_for(3600)
        hand.see(f"Step {step} of 4")
    expect(hand.button("Play")).to_have_attribute("aria-pressed", "false")
    hand.page.clock.run_for(20_000)
    hand.see("Step 4 of 4")


def _tops(hand: Hand, which: str) -> list[float]:
    boxes = [path.bounding_box() for path in hand.page.locator(which).all()]
    return [box["y"] for box in boxes if box is not None]
