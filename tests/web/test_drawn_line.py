"""A line drawn by hand over the pieces: shown, then kept or forgotten."""

import re

import pytest
from starlette.testclient import TestClient
from web.page import Page, Told, handle, piece

DOWN = 12.0  # mm
TOLERANCE = 2.0  # mm, to which a drawn line is followed


def stroke(told: Told, id: str, line: str, down: float) -> Told:
    """What a hand draws that follows the edges of a piece on a line, `down` mm below them."""
    points = []
    for edge in piece(told, id)["edges"]:
        if edge["line"] == line:
            numbers = [float(number) for number in re.findall(r"-?\d+\.\d+", edge["d"])]
            places = list(zip(numbers[::2], numbers[1::2], strict=True))
            for k in range(0, len(places) - 1, 3):
                points += [_on(places[k : k + 4], share / 8) for share in range(8)]
            points.append(places[-1])
    return {"piece": id, "points": [[x, y - down] for x, y in points]}


def _on(cubic: list[tuple[float, float]], t: float) -> tuple[float, float]:
    weights = ((1 - t) ** 3, 3 * (1 - t) ** 2 * t, 3 * (1 - t) * t**2, t**3)
    x, y = (sum(weight * place[axis] for weight, place in zip(weights, cubic, strict=True)) for axis in (0, 1))
    return x, y


def drawn(told: Told, down: float) -> Told:
    """The top edge of lantern-01, drawn anew all round."""
    return {"kind": "top-edge", "strokes": [stroke(told, id, "neckline/line", down) for id in ("CF", "SF", "SB", "CB")]}


def saved_version(client: TestClient) -> int:
    version: int = client.get("/api/designs/lantern-01").json()["version"]
    return version


def test_a_drawn_line_is_shown_and_saved_when_it_is_dropped(client: TestClient, page: Page) -> None:
    told = page.open()
    shown = page.ask("draw", **drawn(told, DOWN))
    assert (shown["say"], shown["dragging"]) == ("pattern", True), shown
    assert saved_version(client) == told["version"]
    for name in ("centre", "side", "back"):
        was, now = (handle(each, "neckline", name)["at"][1] for each in (told, shown))
        assert now == pytest.approx(was - DOWN, abs=TOLERANCE), name
    kept = page.ask("drop")
    assert (kept["dragging"], kept["version"]) == (False, saved_version(client))
    assert kept["version"] > told["version"]
    assert kept["design"] == shown["design"]
    assert page.ask("undo")["design"] == told["design"]


def test_a_drawn_line_that_is_left_changes_nothing(client: TestClient, page: Page) -> None:
    told = page.open()
    assert page.ask("draw", **drawn(told, DOWN))["design"] != told["design"]
    assert page.ask("leave")["design"] == told["design"]
    assert page.ask("drop")["version"] == told["version"] == saved_version(client)


def test_a_line_takes_the_place_of_no_step_that_is_switched_off(page: Page) -> None:
    told = page.open()
    steps = [{**step, "off": True} if step["uid"] == "neckline" else step for step in told["design"]["steps"]]
    order = drawn(told, DOWN)
    page.ask("change", document={**told["design"], "steps": steps}, what="left out")
    shown = page.ask("draw", **order)
    assert shown["say"] == "pattern", shown
    kept = page.ask("drop")["design"]["steps"]
    assert {step["uid"]: step for step in kept}["neckline"]["off"] is True
    assert sum(step["kind"] == "top-edge" for step in kept) == 2


def test_a_top_edge_cannot_be_drawn_where_another_step_makes_the_top(page: Page) -> None:
    told = page.open("moon-05")
    refused = page.ask("draw", kind="top-edge", strokes=[{"piece": "CF", "points": [[-50, 100], [-10, 100]]}])
    assert (refused["say"], refused["where"]) == ("refused", "kind")
    assert page.ask("leave")["design"] == told["design"]


@pytest.mark.parametrize(
    ("order", "where"),
    [
        ({"kind": "sleeve", "strokes": [{"piece": "CF", "points": [[0, 0], [1, 1]]}]}, "kind"),
        ({"kind": "hem", "strokes": []}, "strokes"),
        ({"kind": "hem", "strokes": [{"piece": "CF", "points": []}]}, "strokes"),
        ({"kind": "hem", "strokes": [{"piece": "CF", "points": [[0, "a"]]}]}, "strokes"),
        ({"kind": "hem", "strokes": [{"points": [[0, 0], [1, 1]]}]}, "strokes"),
        ({"kind": "hem", "strokes": [{"piece": "CF", "points": [[0, 0]] * 5001}]}, "strokes"),
        ({"kind": "hem", "strokes": [{"piece": "CF", "points": [[0, 0], [1, 1]]}] * 65}, "strokes"),
    ],
)
def test_a_line_that_is_none_is_refused(page: Page, order: Told, where: str) -> None:
    page.open()
    refused = page.ask("draw", **order)
    assert (refused["say"], refused["where"]) == ("refused", where)


def test_a_design_is_told_before_its_first_step(client: TestClient, page: Page) -> None:
    told = page.open()
    first = told["outcomes"][0]["step"]
    plain = page.ask("upto", step=first, before=True)
    assert plain["outcomes"] == []
    after = page.ask("upto", step=first)
    # The top edge cuts away what stands above it.
    assert max(piece(plain, "CB")["box"][3::4]) > max(piece(after, "CB")["box"][3::4])
    assert page.ask("upto", step=first, before="yes")["where"] == "before"
    assert saved_version(client) == told["version"]
