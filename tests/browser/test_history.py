"""Going back in the history, and findings that a button puts right."""

from browser.conftest import Open
from browser.served_workroom import ServedWorkroom
from playwright.sync_api import expect


def test_an_earlier_version_comes_back_as_a_new_one(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "gone-back")
    hand = open_page(workroom)
    hand.open_design(title)
    first = workroom.ask("/api/designs/gone-back")
    before = hand.back.height()
    hand.lower_back(10)
    hand.lower_back(10)
    hand.press("History")
    history = hand.page.get_by_role("dialog", name="History")
    rows = history.get_by_role("listitem")
    expect(rows).to_have_count(3)
    expect(rows.nth(0)).to_contain_text("height at centre back")
    expect(rows.nth(0)).to_contain_text("As it is now")
    expect(rows.nth(2)).to_contain_text("a copy")
    with hand.saving():
        rows.nth(2).get_by_role("button").click()
    expect(history).to_have_count(0)
    hand.back.wait_for(before)
    now = workroom.ask("/api/designs/gone-back")
    assert now["document"] == first["document"]
    assert now["version"] > first["version"]
    kept = workroom.ask("/api/designs/gone-back/versions")["versions"]
    assert kept[0]["what"] == "Back to: a copy"
    assert len(kept) == 4
    hand.press("Undo")
    hand.back.wait_for(before - 20)


def test_a_version_that_cannot_come_back_is_told_in_the_dialog(own_workroom: ServedWorkroom, open_page: Open) -> None:
    """Another program has the same file, so this one does not hear of what is saved there."""
    title = own_workroom.copy_design("lantern-01", "behind")
    hand = open_page(own_workroom)
    hand.open_design(title)
    hand.lower_back(10)
    hand.press("History")
    history = hand.page.get_by_role("dialog", name="History")
    back = history.get_by_role("button", name="Go back to “a copy”")
    expect(back).to_be_visible()
    other = ServedWorkroom(own_workroom.file)
    other.start()
    try:
        document = other.ask("/api/designs/behind")["document"]
        other.ask("/api/designs/behind", "PUT", {"document": {**document, "title": "Theirs"}, "what": "another title"})
    finally:
        other.stop()
    back.click()
    expect(history.get_by_role("alert")).to_contain_text("changed")
    expect(hand.page.get_by_role("alert")).to_have_count(1)  # and not behind the dialog again
    assert own_workroom.ask("/api/designs/behind")["document"]["title"] == "Theirs"


def test_the_history_is_read_and_left_with_keys(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "read-with-keys")
    hand = open_page(workroom, 800)
    hand.open_design(title)
    hand.button("History").focus()
    hand.keys("Enter")
    history = hand.page.get_by_role("dialog", name="History")
    expect(history.get_by_text("As it is now")).to_be_visible()
    assert hand.page.evaluate("() => document.activeElement.closest('dialog') !== null")
    hand.keys("Escape")
    expect(history).to_have_count(0)
    expect(hand.button("History")).to_be_focused()


def test_a_finding_is_put_right_by_its_button(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "too-tight")
    document = workroom.ask("/api/designs/too-tight")["document"]
    block = {**document.get("block", {}), "ease_cm": {"waist": -8}}
    workroom.ask("/api/designs/too-tight", "PUT", {"document": {**document, "block": block}, "what": "tighter"})
    hand = open_page(workroom)
    hand.open_design(title)
    findings = hand.page.get_by_role("region", name="Findings")
    button = findings.get_by_role("button", name="Set the ease at the waist to −3.5 cm. Puts right: Waist:")
    expect(button).to_be_visible()
    expect(findings.get_by_text("a band pulled with")).to_be_visible()
    pressing = findings.get_by_role("listitem").filter(has_text="a band pulled with")
    expect(pressing.get_by_role("button", name="Set the ease")).to_have_count(0)
    with hand.saving():
        button.click()
    expect(button).to_have_count(0)
    saved = workroom.ask("/api/designs/too-tight")["document"]
    assert saved["block"]["ease_cm"] == {"waist": -3.5}
    expect(hand.page.get_by_role("status").filter(has_text="Done: Set the ease at the waist")).to_be_attached()
    with hand.saving():
        hand.press("Undo")
    expect(button).to_be_visible()


def test_an_audience_sees_no_findings_and_so_no_buttons(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "presented")
    document = workroom.ask("/api/designs/presented")["document"]
    block = {**document.get("block", {}), "ease_cm": {"waist": -8}}
    workroom.ask("/api/designs/presented", "PUT", {"document": {**document, "block": block}, "what": "tighter"})
    hand = open_page(workroom)
    hand.open_design(title)
    button = hand.page.get_by_role("button", name="Set the ease at the waist")
    expect(button).to_be_visible()
    hand.press("Presenter")
    expect(button).to_have_count(0)
