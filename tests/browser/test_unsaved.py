"""What is not saved yet, what others saved meanwhile, and what was refused: told, and never mixed up."""

from browser.conftest import Open
from browser.hand import AWAY, Hand
from browser.pencil import draw_lower_top
from browser.served_workroom import ServedWorkroom
from playwright.sync_api import expect

GONE = ("WebSocket connection to", "Failed to load resource: net::ERR_")

SAVED_WIDTH = """async width => {
  const { document } = await (await fetch("/api/designs/away")).json();
  return document.steps.some(step => step.width_cm === width);
}"""


def steps(workroom: ServedWorkroom, ref: str) -> dict[str, dict[str, object]]:
    return {step["uid"]: step for step in workroom.ask(f"/api/designs/{ref}")["document"]["steps"]}


def opened_step(hand: Hand, label: str) -> None:
    hand.page.get_by_role("listitem").filter(has_text=label).get_by_role("button", expanded=False).click()


def test_a_value_that_was_undone_is_gone_from_the_open_step(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "undone-value")
    hand = open_page(workroom)
    hand.open_design(title)
    opened_step(hand, "Bones: spiral")
    width = hand.page.get_by_label("Width")
    width.fill("1.2")
    with hand.saving():
        width.press("Tab")
    assert steps(workroom, "undone-value")["bones"]["width_cm"] == 1.2
    with hand.saving():
        hand.press("Undo")
    expect(width).not_to_have_value("1.2")


def test_a_drawn_line_is_no_part_of_another_change(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "line-apart")
    hand = open_page(workroom)
    hand.open_design(title)
    before = steps(workroom, "line-apart")
    draw_lower_top(hand)
    opened_step(hand, "Hem: straight")
    note = hand.page.get_by_label("Note", exact=True)
    note.fill("clear of the belt")
    with hand.saving():
        note.press("Enter")
    assert steps(workroom, "line-apart")["neckline"] == before["neckline"]
    assert steps(workroom, "line-apart")["hem"]["note"] == "clear of the belt"
    expect(hand.button("Keep this line")).to_have_count(0)


def test_undo_takes_back_the_drawn_line_and_no_version(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "line-undone")
    hand = open_page(workroom)
    hand.open_design(title)
    hand.lower_back(10)
    saved = workroom.ask("/api/designs/line-undone")
    draw_lower_top(hand)
    hand.page.mouse.move(5, 5)
    with hand.saving():
        hand.keys("Control+z")
    expect(hand.button("Keep this line")).to_have_count(0)
    assert workroom.ask("/api/designs/line-undone") == saved


def test_what_another_page_saved_during_a_drag_is_shown_when_it_is_let_go(
    workroom: ServedWorkroom, open_page: Open
) -> None:
    title = workroom.copy_design("lantern-01", "meanwhile")
    hand = open_page(workroom)
    hand.open_design(title)
    before = hand.back.height()
    with hand.back.held() as hold:
        hold.to(0, -20)
        hand.back.wait_for(before - 20)
        document = workroom.ask("/api/designs/meanwhile")["document"]
        theirs = {**document, "title": "Theirs"}
        workroom.ask("/api/designs/meanwhile", "PUT", {"document": theirs, "what": "another title"})
    hand.see("changed elsewhere meanwhile")
    expect(hand.page.get_by_role("textbox", name="Title of the design")).to_have_value("Theirs")
    hand.back.wait_for(before)
    lowered = hand.lower_back(10)
    hand.back.wait_for(lowered)
    assert workroom.ask("/api/designs/meanwhile")["document"]["title"] == "Theirs"


def test_a_change_while_the_connection_is_away_is_not_taken_for_done(
    own_workroom: ServedWorkroom, open_page: Open
) -> None:
    title = own_workroom.copy_design("lantern-01", "away")
    hand = open_page(own_workroom)
    hand.open_design(title)
    opened_step(hand, "Bones: spiral")
    hand.watch.forgive(*GONE)
    own_workroom.stop()
    hand.see(AWAY)
    width = hand.page.get_by_label("Width")
    width.fill("1.2")
    width.press("Tab")
    card = hand.page.locator('[data-step="bones"]')
    expect(card.get_by_text(AWAY)).to_be_visible()
    own_workroom.start()
    # The number stays where it was typed, to be kept when the workroom is back.
    expect(hand.page.locator(".messages").get_by_text(AWAY)).to_have_count(0)
    assert "width_cm" not in steps(own_workroom, "away")["bones"]
    expect(width).to_have_value("1.2")
    width.fill("1.3")
    width.press("Tab")
    hand.page.wait_for_function(SAVED_WIDTH, arg=1.3)
    expect(card.get_by_text(AWAY)).to_have_count(0)


def test_a_place_that_is_refused_is_told_beside_the_number(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "too-far")
    hand = open_page(workroom)
    hand.open_design(title)
    version = workroom.ask("/api/designs/too-far")["version"]
    grip = hand.back
    with grip.held() as hold:
        hold.to(0, 200)
    hand.see("above the block")
    assert workroom.ask("/api/designs/too-far")["version"] == version


def test_findings_are_told_in_inches_where_the_page_shows_inches(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "in-inches")
    hand = open_page(workroom)
    hand.open_design(title)
    hand.lower_back(120)
    findings = hand.page.get_by_role("region", name="Findings")
    expect(findings.get_by_text("cm below the underbust")).to_be_visible()
    hand.press("in")
    expect(findings.get_by_text("in below the underbust")).to_be_visible()
    expect(findings.get_by_text("cm below the underbust")).to_have_count(0)


def test_with_keys_the_focus_goes_on_with_the_steps(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "focus")
    hand = open_page(workroom)
    hand.open_design(title)
    opened_step(hand, "Closure: centre back")
    hand.page.get_by_role("button", name="Move Closure: centre back, centred zip earlier").focus()
    with hand.saving():
        hand.keys("Enter")
    assert hand.page.evaluate("() => document.activeElement.closest('[data-step]')?.dataset.step") == "back"
    hand.page.get_by_role("listitem").filter(has_text="Closure: centre back").get_by_role(
        "button", name="Remove"
    ).focus()
    with hand.saving():
        hand.keys("Enter")
    hand.page.wait_for_function("() => document.activeElement.closest('[data-step]')")
    hand.button("Add a step").focus()
    hand.keys("Enter")
    hand.page.wait_for_function("() => document.activeElement.matches('.kind')")
