"""Steps are put in another order, switched off and noted on, with the mouse and with keys."""

from browser.conftest import Open
from browser.hand import Hand
from browser.served_workroom import ServedWorkroom
from playwright.sync_api import Locator, expect

LANTERN = ["neckline", "hem", "back", "bones"]


def order(workroom: ServedWorkroom, ref: str) -> list[str]:
    """Names of the steps as they are saved."""
    return [step["uid"] for step in workroom.ask(f"/api/designs/{ref}")["document"]["steps"]]


def step(workroom: ServedWorkroom, ref: str, uid: str) -> dict[str, object]:
    found: dict[str, object] = next(
        each for each in workroom.ask(f"/api/designs/{ref}")["document"]["steps"] if each["uid"] == uid
    )
    return found


def row(hand: Hand, label: str) -> Locator:
    """A step of the list."""
    return hand.page.get_by_role("listitem").filter(has=hand.page.get_by_role("button", name=f"Move {label},"))


def carry(hand: Hand, grip: str, past: str, drop: bool = True) -> None:
    """Take a step by its grip and carry it past the middle of another row."""
    start = hand.page.get_by_role("button", name=f"Move {grip},").bounding_box()
    end = row(hand, past).bounding_box()
    assert start
    assert end
    hand.page.mouse.move(start["x"] + start["width"] / 2, start["y"] + start["height"] / 2)
    hand.page.mouse.down()
    hand.page.mouse.move(start["x"] + 20, (start["y"] + end["y"]) / 2)
    hand.page.mouse.move(start["x"] + 20, end["y"] + end["height"] * (0.8 if end["y"] > start["y"] else 0.2))
    if drop:
        hand.page.mouse.up()


def leave_out(hand: Hand, label: str) -> None:
    row(hand, label).get_by_role("button", expanded=False).click()
    row(hand, label).get_by_role("button", name="Leave out").click()


def opened(workroom: ServedWorkroom, open_page: Open, ref: str, width: int = 1280) -> Hand:
    title = workroom.copy_design("lantern-01", ref)
    hand = open_page(workroom, width)
    hand.open_design(title)
    assert order(workroom, ref) == LANTERN
    return hand


def test_a_step_is_carried_by_its_grip_and_undo_carries_it_back(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, "carried")
    with hand.saving():
        carry(hand, "Bones: spiral", past="Hem: straight")
    assert order(workroom, "carried") == ["neckline", "bones", "hem", "back"]
    expect(hand.page.get_by_role("button", name="Move Bones: spiral, 2 of 4")).to_be_focused()
    with hand.saving():
        carry(hand, "Top edge: sweetheart", past="Closure: centre back, centred zip")
    assert order(workroom, "carried") == ["bones", "hem", "back", "neckline"]
    for _ in range(2):
        with hand.saving():
            hand.press("Undo")
    assert order(workroom, "carried") == LANTERN


def test_a_step_that_is_let_go_where_it_lay_changes_nothing(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, "stayed")
    version = workroom.ask("/api/designs/stayed")["version"]
    carry(hand, "Hem: straight", past="Hem: straight")
    carry(hand, "Hem: straight", past="Bones: spiral", drop=False)
    hand.keys("Escape")
    hand.page.mouse.up()
    with hand.saving():  # what comes next is the only thing that was saved
        leave_out(hand, "Hem: straight")
    assert order(workroom, "stayed") == LANTERN
    kept = workroom.ask("/api/designs/stayed/versions")["versions"]
    assert [each["version"] for each in kept].index(version) == 1


def test_arrow_keys_move_a_step_and_keep_the_focus_on_it(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, "moved-by-keys", 800)
    hand.page.get_by_role("button", name="Move Hem: straight, 2 of 4").focus()
    for key, place in (("ArrowDown", 3), ("ArrowUp", 2), ("Home", 1), ("End", 4)):
        with hand.saving():
            hand.keys(key)
        expect(hand.page.get_by_role("button", name=f"Move Hem: straight, {place} of 4")).to_be_focused()
    hand.keys("ArrowDown")  # it is the last one already
    assert order(workroom, "moved-by-keys") == ["neckline", "back", "bones", "hem"]
    expect(hand.page.get_by_role("status").filter(has_text="Hem: straight is now 4 of 4.")).to_be_attached()


def test_a_step_is_switched_off_in_the_design_and_on_again(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, "switched")
    before = step(workroom, "switched", "bones")
    with hand.saving():
        leave_out(hand, "Bones: spiral")
    hand.see("left out for now")
    assert step(workroom, "switched", "bones") == {**before, "off": True}
    hand.see("Nothing but its fit holds this strapless bodice up")
    with hand.saving():
        hand.press("Put back")
    assert step(workroom, "switched", "bones") == before
    hand.see_no_more("Nothing but its fit holds this strapless bodice up")


def test_a_note_is_kept_shown_and_hidden_from_an_audience(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, "noted")
    head = row(hand, "Hem: straight").get_by_role("button", expanded=False)
    head.click()
    note = hand.page.get_by_label("Note", exact=True)
    note.fill("clear of the drum's belt")
    with hand.saving():
        note.press("Enter")
    assert step(workroom, "noted", "hem")["note"] == "clear of the drum's belt"
    row(hand, "Hem: straight").get_by_role("button", expanded=True).click()
    hand.see("clear of the drum's belt")
    hand.press("Presenter")
    hand.see_no_more("clear of the drum's belt")
    hand.press("Presenter")
    head.click()
    note.fill("")
    with hand.saving():
        note.press("Enter")
    assert "note" not in step(workroom, "noted", "hem")


def test_the_old_length_written_again_is_right_again(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "written-again")
    hand = open_page(workroom)
    hand.open_design(title)
    row(hand, "Hem: straight").get_by_role("button", expanded=False).click()
    above = hand.page.get_by_label("Above it").first
    old = above.input_value()
    above.fill("abc")
    above.press("Tab")
    expect(above).to_have_attribute("aria-invalid", "true")
    hand.see("Write a length")
    above.fill(old)
    above.press("Tab")
    expect(above).to_have_attribute("aria-invalid", "false")
    hand.see_no_more("Write a length")
