"""What is traced is not lost when the workroom is away, and not muddled when it is slow."""

from typing import Any

from browser.conftest import Open
from browser.hand import AWAY, Hand
from browser.served_workroom import ServedWorkroom
from playwright.sync_api import Route, expect

TITLE = "Traced in part"
GONE = ("WebSocket connection to", "Failed to load resource: net::ERR_")
Document = dict[str, Any]


def begun(workroom: ServedWorkroom, ref: str) -> str:
    """A block with one edge of three points, traced in two steps; its title."""
    title = f"{TITLE}, {ref}"
    edge = [[200, 200], [200, 400], [220, 700]]
    for points in (edge[:2], edge):
        piece = {"id": "CF", "edges": [{"points": points}]}
        document = {
            "format": "panelwright-trace/1",
            "ref": ref,
            "title": title,
            "picture": {"width": 800, "height": 800},
            "measured": {"kind": "length", "ends": [[0, 0], [500, 0]], "mm": 100},
            "pieces": [piece],
        }
        workroom.ask(f"/api/traces/{ref}", "PUT", {"document": document, "what": "traced"})
    return title


def points(workroom: ServedWorkroom, ref: str) -> list[list[float]]:
    (piece,) = workroom.ask(f"/api/traces/{ref}")["document"]["pieces"]
    return [point for edge in piece["edges"] for point in edge["points"]]


def opened(hand: Hand, title: str) -> None:
    hand.press(f"Open {title}")
    hand.press("Trace edges")
    hand.see("CF, edge 1, 3 points")


def press_beside(hand: Hand) -> None:
    """A point in the right half of the picture, away from all others."""
    canvas = hand.page.get_by_role("group", name="The picture and what is traced on it")
    box = canvas.bounding_box()
    assert box is not None
    hand.page.mouse.click(box["x"] + box["width"] * 0.6, box["y"] + box["height"] * 0.5)


def test_a_point_pressed_while_an_undo_is_on_its_way_stays(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom)
    title = begun(workroom, "own-61")
    hand.page.reload()
    opened(hand, title)
    held: list[Route] = []
    hand.page.route("**/own-61/undo", lambda route: held.append(route))
    with hand.page.expect_request("**/own-61/undo"):
        hand.press("Undo")
    press_beside(hand)
    hand.see("CF, edge 1, 3 points")  # it waits
    with hand.page.expect_response(lambda answer: answer.request.method == "PUT"):
        for undo in held:
            undo.continue_()
    expect(hand.page.get_by_text("Saved", exact=True)).to_be_visible()
    kept = points(workroom, "own-61")
    assert kept[:2] == [[200, 200], [200, 400]]
    assert len(kept) == 3
    assert kept[2] != [220, 700]


def test_what_was_traced_last_waits_in_the_browser_for_the_workroom(
    own_workroom: ServedWorkroom, open_page: Open
) -> None:
    title = begun(own_workroom, "own-62")
    hand = open_page(own_workroom)
    opened(hand, title)
    hand.watch.forgive(*GONE)
    own_workroom.stop()
    press_beside(hand)
    hand.see("Not saved yet: kept in this browser")
    hand.see(AWAY)
    hand.press("Workroom")
    hand.see("What was traced last is not saved yet")
    own_workroom.start()
    assert len(points(own_workroom, "own-62")) == 3
    hand.page.reload()
    hand.see("What was traced last is not saved yet")
    hand.press(f"Open {title}")
    hand.see("What you traced last was kept in this browser, and is saved now.")
    hand.press("Trace edges")
    hand.see("CF, edge 1, 4 points")
    hand.press("Workroom")
    expect(hand.button(f"Open {title}")).to_be_visible()
    hand.see_no_more("What was traced last is not saved yet")
    assert len(points(own_workroom, "own-62")) == 4
