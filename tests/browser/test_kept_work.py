"""Nothing that was let go is lost: the program ends, or is killed in the middle of an edit."""

import pytest
from browser.conftest import Open
from browser.hand import AWAY
from browser.served_workroom import ServedWorkroom

# What Chromium writes on the console when the server is gone.
GONE = ("WebSocket connection to", "Failed to load resource: net::ERR_")


def test_undo_and_redo_are_there_after_a_restart(own_workroom: ServedWorkroom, open_page: Open) -> None:
    title = own_workroom.copy_design("lantern-01", "restarted")
    hand = open_page(own_workroom)
    hand.open_design(title)
    before = hand.back.height()
    hand.lower_back(10)
    hand.lower_back(10)
    hand.press("Undo")
    hand.back.wait_for(before - 10)

    hand.watch.forgive(*GONE)
    own_workroom.stop()
    hand.see(AWAY)
    own_workroom.start()
    hand.see_no_more(AWAY)
    hand.back.wait_for(before - 10)
    hand.press("Redo")
    hand.back.wait_for(before - 20)
    hand.press("Undo")
    hand.back.wait_for(before - 10)
    hand.press("Undo")
    hand.back.wait_for(before)


@pytest.mark.parametrize("kills", [3, pytest.param(20, marks=pytest.mark.soak)])
def test_nothing_is_lost_when_it_is_killed_in_the_middle_of_an_edit(
    kills: int, own_workroom: ServedWorkroom, open_page: Open
) -> None:
    """Each time the back is lowered by 1 mm and let go; then it is held again and dragged far, and the power goes."""
    title = own_workroom.copy_design("lantern-01", "killed")
    hand = open_page(own_workroom)
    hand.open_design(title)
    hand.watch.forgive(*GONE)
    before = hand.back.height()
    for number in range(1, kills + 1):
        hand.back.handle.focus()
        with hand.saving():
            hand.keys("ArrowDown", "Enter")
        hand.back.wait_for(before - number)
        kept = own_workroom.ask("/api/designs/killed")
        with hand.back.held() as hold:
            hold.to(0, -40)
            hand.back.wait_for(before - number - 40)
            own_workroom.kill()
            hand.see(AWAY)
        own_workroom.start()
        assert own_workroom.ask("/api/designs/killed") == kept
        hand.page.reload()  # sooner than the page would try again by itself
        hand.back.wait_for(before - number)
    for number in reversed(range(kills)):
        hand.press("Undo")
        hand.back.wait_for(before - number)
