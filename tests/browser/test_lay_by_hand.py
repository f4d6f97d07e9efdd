"""Pieces of a lay moved by hand on the page: by pointer and by keys, never onto each other nor off the grain."""

import re

from browser.conftest import Open
from browser.served_workroom import ServedWorkroom
from browser.test_lay_and_paper import cloth, opened
from playwright.sync_api import Locator, expect


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
    with hand.page.expect_response(lambda told: told.request.method == "PUT" and "/hand?" in told.url):
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
