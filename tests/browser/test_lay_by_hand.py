"""Pieces of a lay moved by hand on the page: by pointer and by keys, never onto each other nor off the grain."""

import re

import pytest
from browser.conftest import Open
from browser.served_workroom import ServedWorkroom
from browser.test_lay_and_paper import cloth, opened
from playwright.sync_api import Locator, expect

# What Chromium writes on the console when the server is gone.
GONE = ("WebSocket connection to", "Failed to load resource: net::ERR_")


def corner(piece: Locator) -> tuple[float, float]:
    box = piece.bounding_box()
    assert box is not None
    return box["x"], box["y"]


def lies(shape: Locator) -> tuple[float, float]:
    """Where a shape lies, mm: along the cloth, and down from the fold; its line, which grows when held, is left out."""
    x, y = shape.evaluate("shape => [shape.getBBox().x, shape.getBBox().y]")
    return float(x), float(y)


def test_a_piece_is_dragged_pushed_with_keys_and_compared(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, "by-hand", "Lay", width=1280)
    outer = cloth(hand, "Outer cloth")
    outer.get_by_role("button", name="Move pieces by hand").click()
    piece = outer.get_by_role("button", name="Centre back, a pair")
    piece.scroll_into_view_if_needed()
    table = outer.get_by_role("table", name="The planner's lay and yours")
    planned, mine = (row.locator("td").first for row in table.locator("tbody tr").all())
    expect(mine).to_have_text(planned.inner_text())
    shape = piece.locator("path").first
    x, _ = corner(shape)
    box = shape.bounding_box()
    assert box is not None
    middle = (box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    hand.page.mouse.move(*middle)
    hand.page.mouse.down()
    hand.page.mouse.move(middle[0], middle[1] - 40, steps=4)  # clear of its neighbours, which it lies in
    hand.page.mouse.move(middle[0] + 60, middle[1] - 40, steps=6)
    assert corner(shape)[0] > x + 50
    hand.page.mouse.up()
    expect(mine).not_to_have_text(planned.inner_text())
    expect(table.locator("tbody tr").nth(1).locator("td").nth(1)).to_have_text(re.compile(r"\d cm"))
    expect(outer).not_to_contain_text("Cannot be cut so")
    at = corner(shape)
    hand.keys("ArrowRight")
    assert corner(shape)[0] > at[0]
    expect(outer.get_by_role("status").filter(has_text="along")).to_contain_text("Centre back")
    for _ in range(30):  # against its neighbour, which it never enters
        hand.keys("ArrowDown")
    hand.keys("r")
    expect(outer).not_to_contain_text("Cannot be cut so")
    kept = mine.inner_text()
    hand.press("Flat")
    hand.press("Lay")
    cloth(hand, "Outer cloth").get_by_role("button", name="Move pieces by hand").click()
    again = cloth(hand, "Outer cloth").get_by_role("table", name="The planner's lay and yours")
    expect(again.locator("tbody tr").nth(1).locator("td").first).to_have_text(kept)
    cloth(hand, "Outer cloth").get_by_role("button", name="Begin again from the planner's").click()
    expect(again.locator("tbody tr").nth(1).locator("td").first).to_have_text(planned.inner_text())


def test_a_piece_on_the_fold_stays_on_it(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, "by-hand-fold", "Lay", width=800)
    outer = cloth(hand, "Outer cloth")
    outer.get_by_role("button", name="Move pieces by hand").click()
    piece = outer.get_by_role("button", name="Centre front, on the fold")
    piece.scroll_into_view_if_needed()
    shape = piece.locator("path").first
    piece.focus()
    before = lies(shape)
    hand.keys("ArrowUp")
    hand.keys("ArrowRight")
    after = lies(shape)
    assert abs(after[1] - before[1]) < 1e-3
    assert after[0] > before[0]


def test_a_move_is_kept_though_the_lay_is_closed_at_once(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, "by-hand-closed", "Lay", width=800)
    outer = cloth(hand, "Outer cloth")
    outer.get_by_role("button", name="Move pieces by hand").click()
    name = "Centre front, on the fold"
    before = lies(outer.get_by_role("button", name=name).locator("path").first)
    with hand.page.expect_response(lambda told: told.request.method == "POST" and "/hand?" in told.url):
        outer.evaluate(
            """cloth => {
                const piece = cloth.querySelector("g[role=button][aria-label^='Centre front']");
                piece.dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowRight", bubbles: true }));
                cloth.querySelector("button.by-hand").click();
            }"""
        )
    outer.get_by_role("button", name="Move pieces by hand").click()
    after = lies(outer.get_by_role("button", name=name).locator("path").first)
    assert after[0] > before[0]


def test_moves_are_taken_back_by_keys_and_the_design_stays(workroom: ServedWorkroom, open_page: Open) -> None:
    """Two pushes of one piece are one move; Ctrl+Z goes back in the lay and not in the design."""
    hand = opened(workroom, open_page, "by-hand-undone", "Lay")
    outer = cloth(hand, "Outer cloth")
    version = workroom.ask("/api/designs/by-hand-undone")["version"]
    outer.get_by_role("button", name="Move pieces by hand").click()
    front, back = (
        outer.get_by_role("button", name=name) for name in ("Centre front, on the fold", "Centre back, a pair")
    )
    shapes = [piece.locator("path").first for piece in (front, back)]
    before = [lies(shape) for shape in shapes]
    for piece in (back, front):
        piece.focus()
        with hand.page.expect_response(lambda told: told.request.method == "POST" and "/hand?" in told.url):
            hand.keys("Shift+ArrowRight", "ArrowRight")
    moved = [lies(shape) for shape in shapes]
    assert moved[0][0] > before[0][0]
    expect(outer).to_contain_text("You have moved pieces in this lay.")
    hand.keys("Control+z")
    expect(outer.get_by_role("status").filter(has_text="taken back")).to_have_count(1)
    assert [lies(shape) for shape in shapes] == [before[0], moved[1]]
    hand.keys("Control+Shift+z")
    expect(outer.get_by_role("status").filter(has_text="made again")).to_have_count(1)
    assert [lies(shape) for shape in shapes] == moved
    for _ in range(2):
        outer.get_by_role("button", name="Take the move back").click()
    expect(outer.get_by_role("button", name="Take the move back")).to_be_disabled()
    assert [lies(shape) for shape in shapes] == before
    expect(outer).not_to_contain_text("You have moved pieces")
    assert workroom.ask("/api/designs/by-hand-undone")["version"] == version


def test_two_pages_see_the_same_lay_and_it_outlives_the_program(own_workroom: ServedWorkroom, open_page: Open) -> None:
    one = opened(own_workroom, open_page, "by-hand-twice", "Lay")
    other = open_page(own_workroom, 1280)
    other.open_design("Copy by-hand-twice")
    other.press("Lay")
    outers = [cloth(hand, "Outer cloth") for hand in (one, other)]
    for outer in outers:
        outer.get_by_role("button", name="Move pieces by hand").click()
    shapes = [outer.get_by_role("button", name="Centre front, on the fold").locator("path").first for outer in outers]
    before = lies(shapes[1])
    outers[0].get_by_role("button", name="Centre front, on the fold").focus()
    one.keys("ArrowRight")
    expect(outers[1]).to_contain_text("You have moved pieces in this lay.")
    expect(outers[1].get_by_role("button", name="Take the move back")).to_be_enabled()
    assert lies(shapes[1]) == lies(shapes[0])
    assert lies(shapes[1])[0] > before[0]
    for hand in (one, other):
        hand.watch.forgive(*GONE)
    own_workroom.kill()
    own_workroom.start()
    again = open_page(own_workroom, 1280)
    again.open_design("Copy by-hand-twice")
    again.press("Lay")
    outer = cloth(again, "Outer cloth")
    expect(outer).to_contain_text("You have moved pieces in this lay.")
    outer.get_by_label("Cloth width").fill("100")
    with again.saving():
        again.keys("Tab")
    expect(outer).to_contain_text("is kept for an earlier state: cloth 140.0 cm wide.")
    outer.get_by_role("button", name="Forget it").click()
    expect(outer).not_to_contain_text("earlier state")


def test_a_move_that_nobody_answered_is_sent_again(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, "by-hand-unsent", "Lay", width=800)
    hand.watch.forgive("Failed to load resource: net::ERR_")
    outer = cloth(hand, "Outer cloth")
    outer.get_by_role("button", name="Move pieces by hand").click()
    piece = outer.get_by_role("button", name="Centre front, on the fold")
    before = lies(piece.locator("path").first)
    unsent = re.compile(r"/lays/1/hand\?")
    hand.page.route(unsent, lambda route: route.abort())
    piece.focus()
    hand.keys("ArrowRight")
    expect(outer).to_contain_text("The workroom does not answer.")
    with hand.page.expect_response(lambda told: told.request.method == "POST" and "/hand?" in told.url):
        hand.page.unroute(unsent)
    expect(outer).not_to_contain_text("The workroom does not answer.")
    after = lies(piece.locator("path").first)
    told = workroom.ask("/api/designs/by-hand-unsent/lays/1/hand?wearer=size-88")
    assert [move["x"] for move in told["moves"]] == [
        pytest.approx(after[0] - before[0], abs=0.11)
    ]  # outlines are drawn to 0.1 mm
    assert after[0] > before[0]
