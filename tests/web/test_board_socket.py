"""What a hand does on the board, and what it is told."""

import copy
import math
import re
from typing import Any

import pytest
from starlette.testclient import TestClient
from starlette.websockets import WebSocketDisconnect
from web.page import Page, handle, moved, page_of, piece

from panelwright.app.board_places import BETWEEN
from panelwright.design.zip_length import SOLD_CM


def saved(client: TestClient, ref: str = "lantern-01") -> dict[str, Any]:
    told: dict[str, Any] = client.get(f"/api/designs/{ref}").json()
    return told


def corners(cut: str) -> list[str]:
    """The corners of a closed line, from whichever it is counted."""
    return sorted(cut.removeprefix("M").removesuffix("Z").split("L"))


def test_an_open_design_is_told_whole(client: TestClient, page: Page) -> None:
    told = page.open()
    assert told["design"] == saved(client)["document"]
    assert (told["wearer"], told["dragging"], told["can_undo"]) == ("w-01", False, False)
    assert {each["layer"] for each in told["pieces"]} == {"outer", "facing", "interfacing"}
    assert {each["state"] for each in told["outcomes"]} == {"done"}
    front = piece(told, "CF")
    assert front["edges"][0]["d"].startswith("M")
    assert front["cut"].endswith("Z")
    assert {"waist"} <= {each["id"] for each in front["inside"]}
    seam = next(each for each in told["seams"] if each["id"] == "front-princess")
    assert seam["lengths"][0] == pytest.approx(seam["lengths"][1], abs=0.05)
    assert handle(told, "neckline", "centre")["piece"] == "CF"


def test_no_two_pieces_lie_on_each_other(page: Page) -> None:
    for design in ("lantern-01", "river-06"):
        boxes = []
        for each in page.open(design)["pieces"]:
            (left, bottom, right, top), (x, y) = each["box"], each["place"]
            boxes.append((left + x, bottom + y, right + x, top + y))
        for k, (left, bottom, right, top) in enumerate(boxes):
            for other in boxes[k + 1 :]:
                apart = max(other[0] - right, left - other[2], other[1] - top, bottom - other[3])
                assert apart > BETWEEN - 0.01


def test_a_drag_moves_the_edge_and_saves_nothing_until_it_is_dropped(client: TestClient, page: Page) -> None:
    told = page.open()
    version = told["version"]
    dragged = page.ask("drag", **moved(told, "neckline", "centre", 20.0))
    assert (dragged["say"], dragged["dragging"], dragged["version"]) == ("pattern", True, version)
    assert {each["layer"] for each in dragged["pieces"]} == {"outer"}
    before, after = handle(told, "neckline", "centre"), handle(dragged, "neckline", "centre")
    assert before["at"][1] - after["at"][1] == pytest.approx(20.0, abs=0.2)
    assert piece(dragged, "CF")["place"] == piece(told, "CF")["place"]
    assert piece(dragged, "CF")["cut"] != piece(told, "CF")["cut"]
    assert saved(client)["version"] == version

    dropped = page.ask("drop")
    assert (dropped["dragging"], dropped["can_undo"]) == (False, True)
    assert dropped["version"] > version
    assert saved(client)["document"] == dropped["design"] == dragged["design"]
    assert corners(piece(dropped, "CF")["cut"]) == corners(piece(dragged, "CF")["cut"])
    assert handle(dropped, "neckline", "centre")["at"] == after["at"]


def test_the_line_comes_ahead_of_the_pieces_and_is_where_they_are_cut(page: Page) -> None:
    told = page.open()
    dragged = page.ask("drag", **moved(told, "neckline", "centre", 20.0))
    [line] = page.lines
    assert (line["step"], line["handle"], line["piece"]) == ("neckline", "centre", "CF")
    assert line["at"] == handle(dragged, "neckline", "centre")["at"]
    assert set(line["pieces"]) == {"CF", "SF", "SB", "CB"}
    for id, path in line["pieces"].items():
        edges = [each["d"] for each in piece(dragged, id)["edges"] if each["line"] == "neckline/line"]
        assert ends(path) == sorted(end for edge in edges for end in ends(edge)), id


def ends(path: str) -> list[str]:
    """First and last places of each curve of a path, from whichever it is counted."""
    curves = path.removeprefix("M").split("M")
    return sorted(place for curve in curves for place in (curve.split("C")[0], " ".join(curve.split(" ")[-2:])))


def test_a_drag_that_cannot_be_cut_still_shows_its_line_and_one_that_has_none_shows_none(page: Page) -> None:
    told = page.open()
    low = page.ask("drag", **moved(told, "neckline", "back", 360.0))
    assert low["say"] == "refused", low
    assert [each["step"] for each in page.lines] == ["neckline"]
    page.ask("leave")
    page.ask("drag", step="neckline", handle="centre", to=[0, 0], piece="none")
    page.ask("drag", step="neckline", handle="centre", to="here")
    assert len(page.lines) == 1


def test_a_hand_that_rests_is_told_all_that_a_drop_would_tell(client: TestClient, page: Page) -> None:
    told = page.open()
    dragged = page.ask("drag", **moved(told, "neckline", "side", 60.0))
    assert dragged["findings"] is None
    rested = page.ask("rest")
    assert (rested["dragging"], rested["version"]) == (True, told["version"])
    assert rested["design"] == dragged["design"]
    assert saved(client)["version"] == told["version"]
    dropped = page.ask("drop")
    assert rested["findings"] != told["findings"]
    assert [without_button(each) for each in rested["findings"]] == [
        without_button(each) for each in dropped["findings"]
    ]
    assert [each["cut"] for each in rested["pieces"]] == [each["cut"] for each in dropped["pieces"]]


def without_button(finding: dict[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in finding.items() if name != "apply"}


def test_a_hand_that_holds_nothing_cannot_rest(page: Page) -> None:
    page.open()
    refused = page.ask("rest")
    assert refused["say"] == "refused"
    assert "nothing is being dragged" in refused["message"]


def test_a_drag_that_is_left_leaves_no_trace(client: TestClient, page: Page) -> None:
    told = page.open()
    page.ask("drag", **moved(told, "neckline", "centre", 20.0))
    left = page.ask("leave")
    assert {**left, "id": 0} == {**told, "id": 0}
    assert page.ask("drop")["version"] == told["version"]
    assert saved(client)["version"] == told["version"]


def test_a_drag_beyond_the_body_is_refused_and_the_last_good_place_is_kept(page: Page) -> None:
    told = page.open()
    good = page.ask("drag", **moved(told, "neckline", "centre", 10.0))
    refused = page.ask("drag", **moved(told, "neckline", "centre", 600.0))
    assert refused["say"] == "refused"
    assert refused["message"]
    assert page.ask("drop")["design"] == good["design"]


def test_letting_go_of_what_was_refused_says_why_and_saves_nothing(client: TestClient, page: Page) -> None:
    told = page.open()
    refused = page.ask("drag", **moved(told, "neckline", "centre", 600.0))
    dropped = page.ask("drop")
    assert (dropped["say"], dropped["message"]) == ("refused", refused["message"])
    assert page.ask("drop")["version"] == told["version"] == saved(client)["version"]
    page.ask("drag", **moved(told, "neckline", "centre", 600.0))
    page.ask("drag", **moved(told, "neckline", "centre", 0.0))
    assert page.ask("drop")["version"] == told["version"], "put back, nothing is wrong any more"


def test_of_drags_that_wait_the_newest_is_carried_out(page: Page) -> None:
    told = page.open()
    ids = [page.say("drag", **moved(told, "neckline", "centre", down)) for down in (1.0, 2.0, 3.0, 4.0, 5.0)]
    dropped = page.say("drop")
    heard = []
    while not heard or heard[-1]["id"] != dropped:
        heard.append(page.hear())
    drags = [each["id"] for each in heard[:-1] if each["say"] == "pattern"]
    assert drags == sorted(drags)
    assert drags[-1] == ids[-1]
    before, after = handle(told, "neckline", "centre"), handle(heard[-1], "neckline", "centre")
    assert before["at"][1] - after["at"][1] == pytest.approx(5.0, abs=0.2)


def test_a_change_is_a_version_and_undo_and_redo_walk_through_them(client: TestClient, page: Page) -> None:
    told = page.open()
    document = {**told["design"], "title": "Evening lantern"}
    changed = page.ask("change", document=document, what="another title")
    assert changed["design"] == saved(client)["document"] == document
    undone = page.ask("undo")
    assert (undone["design"], undone["can_redo"]) == (told["design"], True)
    assert page.ask("undo")["design"] == told["design"]
    assert page.ask("redo")["design"] == document
    assert saved(client)["document"] == document


def test_a_step_that_fails_says_why_and_the_others_are_drawn(client: TestClient, page: Page) -> None:
    told = page.open()
    document = copy.deepcopy(told["design"])
    neckline = next(step for step in document["steps"] if step["uid"] == "neckline")
    neckline["centre"] = {"level": "waist", "offset_cm": -30}
    failed = page.ask("change", document=document, what="far too low")
    assert failed["say"] == "pattern"
    states = {each["step"]: each["state"] for each in failed["outcomes"]}
    assert states["neckline"] == "failed"
    assert "done" in states.values()
    reason = next(each["reason"] for each in failed["outcomes"] if each["step"] == "neckline")
    assert reason.startswith("top edge: ")
    assert {each["id"] for each in failed["pieces"]} >= {"CF", "SF", "SB", "CB"}
    assert client.get("/api/designs/lantern-01/picture.svg?wearer=w-01").status_code == 200
    refused = client.get("/api/designs/lantern-01/lays?wearer=w-01")
    assert (refused.status_code, refused.json()["where"]) == (400, "steps")


@pytest.mark.parametrize("broken", ["ref", "format", "steps", "block"])
def test_a_document_that_is_none_is_refused_and_nothing_changes(client: TestClient, page: Page, broken: str) -> None:
    told = page.open()
    refused = page.ask("change", document={**told["design"], broken: "?!"}, what="broken")
    assert refused["say"] == "refused"
    assert refused["message"]
    assert saved(client)["version"] == told["version"]
    assert page.ask("leave")["design"] == told["design"]


def test_two_pages_on_one_design_see_each_others_changes(client: TestClient, page: Page) -> None:
    told = page.open()
    with page_of(client) as other, page_of(client) as elsewhere:
        other.open()
        elsewhere.open("drum-03", "w-02")
        page.ask("change", document={**told["design"], "title": "Mine"}, what="title")
        assert other.hear() == {"say": "changed", "kind": "design"}
        refused = other.ask("change", document={**told["design"], "title": "Yours"}, what="title")
        assert (refused["say"], "changed elsewhere" in refused["message"]) == ("refused", True)
        assert other.hear() == {"say": "changed", "kind": "design"}, "so that it opens the newer version"
        behind = other.ask("undo")
        assert (behind["say"], "changed elsewhere" in behind["message"]) == ("refused", True)
        assert other.hear() == {"say": "changed", "kind": "design"}
        assert other.open()["design"]["title"] == "Mine"
        other.ask("undo")
        assert page.hear() == {"say": "changed", "kind": "design"}
        assert elsewhere.ask("leave")["say"] == "pattern", "who shows another design is not disturbed"


def test_a_wearer_measured_anew_is_told_to_whoever_shows_them(client: TestClient, page: Page) -> None:
    page.open()
    document = client.get("/api/wearers/w-01").json()["document"]
    client.put("/api/wearers/w-02", json={"document": {**document, "ref": "w-02"}, "what": "measured again"})
    client.put("/api/wearers/w-01", json={"document": document, "what": "measured again"})
    assert page.hear() == {"say": "changed", "kind": "wearer"}
    assert page.ask("leave")["say"] == "pattern"


def test_the_steps_up_to_one_are_drawn_and_nothing_is_saved(client: TestClient, page: Page) -> None:
    told = page.open()
    first = page.ask("upto", step=told["outcomes"][0]["step"])
    assert [each["step"] for each in first["outcomes"]] == [told["outcomes"][0]["step"]]
    assert len(page.ask("upto", step=None)["outcomes"]) == len(told["outcomes"])
    assert page.ask("upto", step="none")["say"] == "refused"
    assert saved(client)["version"] == told["version"]


@pytest.mark.parametrize(
    "text",
    [
        "",
        "{",
        "[]",
        '{"do": NaN}',
        '{"do": "fly", "id": 1}',
        '{"do": ["open"], "id": 1}',
        '{"do": "open", "design": "none-01", "wearer": "w-01"}',
        '{"do": "open", "design": "lantern-01", "wearer": "nobody-1"}',
        '{"do": "open", "design": 7, "wearer": "w-01"}',
        '{"do": "open", "design": "lantern-01", "wearer": "w-01", "units": "ells"}',
        '{"do": "drop"}',
        '{"do": "drag", "step": "neckline", "handle": "centre", "to": [0, 0]}',
        "[" * 100_000,
    ],
)
def test_a_message_that_is_none_is_refused_and_the_page_goes_on(page: Page, text: str) -> None:
    page.socket.send_text(text)
    refused = page.hear()
    assert refused["say"] == "refused"
    assert refused["message"]
    assert page.open()["say"] == "pattern"


@pytest.mark.parametrize(
    "wrong",
    [
        {"to": [1]},
        {"to": [1, "2"]},
        {"to": [1, 1e300]},
        {"to": [True, False]},
        {"to": None},
        {"step": "none"},
        {"handle": "none"},
        {"piece": "none"},
        {"piece": 3},
        {"free": 1},
    ],
)
def test_a_drag_that_cannot_be_meant_is_refused(page: Page, wrong: dict[str, object]) -> None:
    told = page.open()
    assert page.ask("drag", **{**moved(told, "neckline", "centre", 1.0), **wrong})["say"] == "refused"
    assert page.ask("drop")["version"] == told["version"]


def test_bytes_are_read_like_text_and_what_is_no_text_is_refused(page: Page) -> None:
    page.socket.send_bytes(b'{"do": "open", "id": 4, "design": "lantern-01", "wearer": "w-01"}')
    assert page.hear()["say"] == "pattern"
    page.socket.send_bytes(b"\xff\xfe\x00")
    assert page.hear()["say"] == "refused"


def test_a_message_beyond_a_megabyte_ends_the_page(page: Page) -> None:
    page.socket.send_text('{"do": "' + "x" * 1_000_000 + '"}')
    with pytest.raises(WebSocketDisconnect):
        page.hear()


def test_lines_are_told_by_names_that_take_an_allowance(page: Page) -> None:
    told = page.open("star-07")
    names = {line["key"]: line["label"] for line in told["lines"]}
    assert {names["hem"], names["side-seam"], names["strap-long-edges"]} == {"Hem", "Side seam", "Strap, long edges"}
    assert "neckline" not in names  # a line of a step is called as its maker reads it, not as the step is named
    document = told["design"]
    finish = {**document["finish"], "allowance_by_line_cm": dict.fromkeys(names, 1.2)}
    changed = page.ask("change", document={**document, "finish": finish}, what="every line")
    assert changed["say"] == "pattern", changed
    assert "finish-not-possible" not in {finding["code"] for finding in changed["findings"]}
    assert all(piece(changed, each)["cut"] != piece(told, each)["cut"] for each in ("CF", "SF", "SB"))
    finish["allowance_by_line_cm"]["no-such-line"] = 1.2
    refused = page.ask("change", document={**document, "finish": finish}, what="one too many")
    assert "finish-not-possible" in {finding["code"] for finding in refused["findings"]}


def test_lines_are_named_by_their_ids_while_nothing_is_dragged(page: Page) -> None:
    told = page.open("star-07")
    used = {edge["line"] for each in told["pieces"] for edge in each["edges"]}
    assert set(told["line_names"]) == used  # every edge has a name
    assert told["line_names"]["neckline/line"] == "Top edge"
    assert told["line_names"]["halter/strap-front"] == "Strap, front end"


def test_as_usual_says_what_it_comes_to(page: Page) -> None:
    """The opening is as long as the centre back's own drawn edge; the zip is the next longer one that is sold."""
    told = page.open()
    (closure,) = [outcome for outcome in told["outcomes"] if outcome["kind"] == "closure"]
    usual = closure["usual"]
    (edge,) = [edge for edge in piece(told, "CB")["edges"] if edge["line"] == "centre-back"]
    numbers = [float(number) for number in re.findall(r"-?\d+\.?\d*", edge["d"])]
    assert usual["opening_cm"] == pytest.approx(math.dist(numbers[:2], numbers[-2:]), rel=0.01)
    assert usual["zip_cm"] == 10 * min(length for length in SOLD_CM if 10 * length >= usual["opening_cm"])
    dragged = page.ask("drag", **moved(told, "neckline", "centre", 10))
    assert not any("usual" in outcome for outcome in dragged["outcomes"])
    assert "seam_places" not in dragged


def test_seams_are_told_where_they_lie(page: Page) -> None:
    """The front princess seam is as far from centre front as the centre front panel is wide."""
    told = page.open()
    (place,) = [each for each in told["seam_places"] if (each["line"], each["level"]) == ("front-princess", "waist")]
    (waist,) = [inside for inside in piece(told, "CF")["inside"] if inside["id"] == "waist"]
    numbers = [float(number) for number in re.findall(r"-?\d+\.?\d*", waist["d"])]
    assert place["distance"] == pytest.approx(math.dist(numbers[:2], numbers[-2:]), rel=0.01)
