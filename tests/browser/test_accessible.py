"""Every page and every view, as axe-core looks at it: names, roles, contrast, order (WCAG 2.2, levels A and AA)."""

from pathlib import Path

import pytest
from browser.conftest import Open
from browser.hand import Hand
from browser.served_workroom import ServedWorkroom
from playwright.sync_api import expect

AXE = Path("board/node_modules/axe-core/axe.min.js")  # installed when the page is built
LOOK = """async () => {
  const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
  const found = await axe.run(document, { runOnly: tags });
  const where = each => each.nodes.map(node => node.html.slice(0, 200));
  return found.violations.map(each => [each.id, each.impact, each.help, where(each)]);
}"""


def violations(hand: Hand, repository: Path) -> list[object]:
    """What axe-core objects to, with the elements."""
    hand.page.evaluate((repository / AXE).read_text(encoding="utf-8"))
    found: list[object] = hand.page.evaluate(LOOK)
    return found


def test_axe_finds_what_is_wrong(workroom: ServedWorkroom, open_page: Open, repository: Path) -> None:
    """A button without a name and pale letters, put on our own page, are found."""
    hand = open_page(workroom)
    expect(hand.button("New design")).to_be_visible()
    hand.page.evaluate(
        """() => document.querySelector("main").insertAdjacentHTML("beforeend",
          "<button style='width: 40px'></button><p style='color: #bbb; background: #fff'>pale</p>")"""
    )
    found = {each[0] for each in violations(hand, repository)}  # type: ignore[index]
    assert {"button-name", "color-contrast"} <= found


@pytest.mark.parametrize("width", [1280, 800])
@pytest.mark.parametrize("presenter", [False, True], ids=["maker", "audience"])
def test_start_page(workroom: ServedWorkroom, open_page: Open, repository: Path, width: int, presenter: bool) -> None:
    hand = open_page(workroom, width)
    if presenter:
        hand.press("Presenter")
    hand.press("New design")
    expect(hand.page.get_by_label("What is it called?")).to_be_visible()
    assert violations(hand, repository) == []


@pytest.mark.parametrize("width", [1280, 800])
def test_measuring(workroom: ServedWorkroom, open_page: Open, repository: Path, width: int) -> None:
    hand = open_page(workroom, width)
    hand.press("New wearer")
    expect(hand.page.get_by_role("textbox").first).to_be_visible()
    assert violations(hand, repository) == []


@pytest.mark.parametrize("width", [1280, 800])
@pytest.mark.parametrize("presenter", [False, True], ids=["maker", "audience"])
def test_tracing(workroom: ServedWorkroom, open_page: Open, repository: Path, width: int, presenter: bool) -> None:
    points = [[[100, 100], [100, 700]], [[100, 700], [400, 720]], [[400, 720], [390, 400], [400, 100]]]
    edges = [{"points": points} for points in [*points, [[400, 100], [100, 100]]]]
    levels = [{"id": "waist", "points": [[100, 400], [390, 400]]}]
    document = {
        "format": "panelwright-trace/1",
        "ref": "own-77",
        "title": "Traced to look at",
        "picture": {"width": 800, "height": 800},
        "measured": {"kind": "length", "ends": [[0, 0], [500, 0]], "mm": 100},
        "pieces": [{"id": id, "closed": True, "edges": edges, "levels": levels} for id in ("CF", "CB")],
    }
    workroom.ask("/api/traces/own-77", "PUT", {"document": document, "what": "traced"})
    hand = open_page(workroom, width)
    if presenter:
        hand.press("Presenter")
    hand.press("Open Traced to look at")
    hand.press("Level")
    assert violations(hand, repository) == []
    hand.press("Check it")
    hand.see("Truing would change")
    assert violations(hand, repository) == []


@pytest.mark.parametrize("width", [1280, 800])
@pytest.mark.parametrize("presenter", [False, True], ids=["maker", "audience"])
def test_every_way_to_look(
    workroom: ServedWorkroom, open_page: Open, repository: Path, width: int, presenter: bool
) -> None:
    hand = open_page(workroom, width)
    hand.open_design("Lantern bodice, sweetheart")
    hand.unfold()
    assert violations(hand, repository) == []
    if presenter:
        hand.press("Presenter")
    views = hand.page.get_by_role("navigation", name="Ways to look at it").get_by_role("button")
    names = views.all_text_contents()
    assert "Flat" in names
    found = {}
    for name in names:
        views.get_by_text(name, exact=True).click()
        expect(views.get_by_text(name, exact=True)).to_have_attribute("aria-current", "page")
        hand.see_no_more("One moment …")
        found[name] = violations(hand, repository)
    assert found == {name: [] for name in names}


@pytest.mark.parametrize("presenter", [False, True], ids=["maker", "audience"])
def test_fields_of_the_whole_garment(
    workroom: ServedWorkroom, open_page: Open, repository: Path, presenter: bool
) -> None:
    hand = open_page(workroom, 800)
    hand.open_design("Lantern bodice, sweetheart")
    if presenter:
        hand.unfold()
        hand.press("Presenter")
    hand.press("Ease, facing, allowances")
    region = hand.page.get_by_role("region", name="Ease, facing, allowances")
    found = {}
    for head in region.get_by_role("heading", level=3).get_by_role("button").all():
        head.click()
        expect(head).to_have_attribute("aria-expanded", "true")
        found[head.text_content()] = violations(hand, repository)
    assert len(found) == 6
    assert [each for each in found.values() if each] == []


@pytest.mark.parametrize("width", [1280, 800])
def test_buying_for_several(own_workroom: ServedWorkroom, open_page: Open, repository: Path, width: int) -> None:
    """A workroom of its own: the group is kept, and the other width's would be shown."""
    hand = open_page(own_workroom, width)
    hand.press("Buy for several")
    expect(hand.button("Lay and count")).to_be_visible()
    assert violations(hand, repository) == []
    hand.press("Add")
    hand.press("Lay and count")
    expect(hand.page.get_by_role("table", name="Cloth", exact=True)).to_be_visible()
    hand.page.get_by_text("Widths and prices").click()
    assert violations(hand, repository) == []
    hand.press("Delete this group")
    expect(hand.button("Delete it")).to_be_visible()
    assert violations(hand, repository) == []


def test_a_lay_moved_by_hand(workroom: ServedWorkroom, open_page: Open, repository: Path) -> None:
    title = workroom.copy_design("lantern-01", "axe-lay")
    hand = open_page(workroom)
    hand.open_design(title)
    hand.press("Lay")
    outer = hand.page.get_by_role("region", name="Outer cloth", exact=True)
    outer.get_by_role("button", name="Move pieces by hand").click()
    outer.get_by_role("button", name="Centre front, on the fold").focus()
    hand.keys("ArrowRight")
    expect(outer).to_contain_text("You have moved pieces in this lay.")
    outer.get_by_label("Cloth width").fill("100")
    with hand.saving():
        hand.keys("Tab")
    expect(outer).to_contain_text("earlier state")
    assert violations(hand, repository) == []
