"""Steps are put in another order, opened, switched off and noted on, with the mouse and with keys."""

import re

import pytest
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
    own = hand.page.get_by_role("button", name=f"Move {grip},")
    own.hover()  # once it stays where it is
    start, end = own.bounding_box(), row(hand, past).bounding_box()
    assert start
    assert end
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


def head(hand: Hand, label: str) -> Locator:
    """The heading of a step, which opens it."""
    return row(hand, label).locator(".head")


def wholly_seen(hand: Hand, what: Locator) -> None:
    """Wait until all of it is within the column of the steps."""
    hand.page.wait_for_function(
        """shown => {
            const own = shown.getBoundingClientRect(), column = shown.closest("[data-column]").getBoundingClientRect();
            return own.top >= column.top - 0.5 && own.bottom <= column.bottom + 0.5;
        }""",
        arg=what.element_handle(),
    )


@pytest.mark.parametrize("motion", ["reduce", "no-preference"])
def test_what_was_just_opened_is_seen(workroom: ServedWorkroom, open_page: Open, motion: str) -> None:
    hand = open_page(workroom, 1280, 480)
    hand.page.emulate_media(reduced_motion="reduce" if motion == "reduce" else "no-preference")
    hand.open_design("Lantern bodice, sweetheart")
    labels = ["Top edge: sweetheart", "Hem: straight", "Closure: centre back, centred zip", "Bones: spiral"]
    for label in (labels[0], labels[2], labels[1], labels[3], labels[0]):
        head(hand, label).click()
        wholly_seen(hand, head(hand, label))
        wholly_seen(hand, row(hand, label).locator(".body :is(input, select)").first)
    # With keys the focus stays on the heading, and the first field comes next.
    head(hand, labels[2]).focus()
    hand.keys("Enter")
    expect(head(hand, labels[2])).to_be_focused()
    wholly_seen(hand, head(hand, labels[2]))
    hand.keys("Tab")
    first = row(hand, labels[2]).locator(".body :is(input, select)").first
    expect(first).to_be_focused()
    wholly_seen(hand, first)


def test_a_heading_stays_where_it_was_pressed(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom, 1280, 400)
    hand.page.emulate_media(reduced_motion="reduce")
    hand.open_design("Lantern bodice, sweetheart")
    head(hand, "Top edge: sweetheart").click()
    heading = head(hand, "Hem: straight")
    # Higher than it comes to lie when the long form above it closes, so that there is room to scroll.
    heading.evaluate("node => node.closest('[data-column]').scrollBy(0, node.getBoundingClientRect().top - 170)")
    before = heading.bounding_box()
    heading.click()
    expect(heading).to_have_attribute("aria-expanded", "true")
    after = heading.bounding_box()
    assert before
    assert after
    assert after["y"] == pytest.approx(before["y"], abs=1)


def test_a_step_that_is_chosen_on_the_paper_is_seen(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom, 800, 600)
    hand.press("Open Drum bodice, square, with sewn-on straps")
    label = "Closure: centre back, lacing"
    hand.grip("gap of the lacing", label, "Centre back").handle.click()
    wholly_seen(hand, head(hand, label))
    wholly_seen(hand, row(hand, label).locator("select").first)


def test_the_form_of_a_new_step_is_seen_from_its_heading(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom, 1280, 480)
    hand.open_design("Lantern bodice, sweetheart")
    hand.press("Add a step")
    heading = hand.page.get_by_role("heading", name="What shall be added?")
    wholly_seen(hand, heading)
    hand.page.get_by_role("button", name="Straps Lets straps").click()
    wholly_seen(hand, hand.page.locator(".add h3"))
    expect(hand.page.locator(".add select").first).to_be_focused()
    wholly_seen(hand, hand.page.locator(".add select").first)


def test_a_shape_with_a_dip_has_one_at_once(workroom: ServedWorkroom, open_page: Open) -> None:
    document = workroom.ask("/api/designs/lantern-01")["document"]
    level = {"level": "upper-bust", "offset_cm": -1}
    straight = {"kind": "top-edge", "uid": "neckline", "shape": "straight", "centre": level, "side": level}
    steps = [straight, *document["steps"][1:]]
    dipped = {**document, "ref": "dipped", "title": "Copy dipped", "steps": steps}
    workroom.ask("/api/designs/dipped", "PUT", {"document": dipped, "what": "level edges"})
    hand = open_page(workroom)
    hand.press("Open Copy dipped")
    before = hand.grip("height at centre front", "Top edge: straight", "Centre front").height()
    head(hand, "Top edge: straight").click()
    with hand.saving():
        hand.page.get_by_label("Shape").select_option("sweetheart")
    assert step(workroom, "dipped", "neckline")["centre"] == {"level": "upper-bust", "offset_cm": -5}
    hand.grip("height at centre front", "Top edge: sweetheart", "Centre front").wait_for(before - 40)
    head(hand, "Hem: straight").click()
    with hand.saving():
        hand.page.get_by_label("Shape").select_option("pointed")
    hem = step(workroom, "dipped", "hem")
    assert (hem["shape"], hem["side"]) == ("pointed", document["steps"][1]["side"])
    expect(head(hand, "Hem: pointed")).to_be_visible()
    hand.see_no_more("Could not be done:")
    with hand.saving():
        hand.page.get_by_label("Shape").select_option("straight")
    assert step(workroom, "dipped", "hem")["centre"] == hem["side"]
    hand.see_no_more("Could not be done:")


def test_a_new_closure_begins_as_the_commonest_one(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "opened-behind")
    saved = workroom.ask("/api/designs/opened-behind")["document"]
    saved["steps"] = [step for step in saved["steps"] if step["kind"] != "closure"]
    workroom.ask("/api/designs/opened-behind", "PUT", {"document": saved, "what": "closed"})
    hand = open_page(workroom)
    hand.press(f"Open {title}")
    hand.press("Add a step")
    hand.page.get_by_role("button", name=re.compile("^Closure ")).click()
    where, how = (hand.page.get_by_label(name, exact=True) for name in ("Where", "How"))
    expect(where).to_have_value("centre-back")
    expect(how).to_have_value("zip")
    where.select_option("centre-front")
    expect(how).to_have_value("buttons")
    how.select_option("hooks")
    where.select_option("centre-back")
    expect(how).to_have_value("hooks")
