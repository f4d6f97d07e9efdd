"""A design on a traced block: opened, changed and printed as every design, with no body under it."""

from typing import Any

import pypdfium2
import pytest
from intake.drawn_pieces import on_paper
from plain_block import plain_block
from starlette.testclient import TestClient
from web.page import page_of
from web.test_hand_requests import ended
from web.traced_pieces import traced

Document = dict[str, Any]
DESIGN = {
    "format": "panelwright-design/1",
    "ref": "on-paper",
    "title": "On paper",
    "steps": [],
    "traced": {"ref": "own-01"},
}
PLACE = "/api/designs/on-paper"
TOP = {"kind": "top-edge", "uid": "top", "shape": "sweetheart"} | {
    side: {"level": level, "offset_cm": -1} for side, level in (("centre", "bust"), ("side", "upper-bust"))
}


@pytest.fixture
def client_with_design(client: TestClient) -> TestClient:
    document = traced(on_paper(plain_block(), spacing=10))
    for place, saved in (("/api/traces/own-01", document), (PLACE, DESIGN)):
        told = client.put(place, json={"document": saved, "what": "made"})
        assert told.status_code == 200, told.text
    return client


def opened(client: TestClient, wearer: str, document: Document | None = None) -> Document:
    with page_of(client) as page:
        told = page.ask("open", design="on-paper", wearer=wearer)
        return told if document is None else page.ask("change", document=document, what="top")


def test_it_is_opened_and_a_step_is_added(client_with_design: TestClient) -> None:
    told = opened(client_with_design, "size-88")
    assert told["say"] == "pattern", told
    assert [piece["id"] for piece in told["pieces"]] == ["CF", "SF", "SB", "CB"]
    assert "bodice-top" in told["not_possible"]
    assert not {"top-edge", "hem", "closure", "tie", "strap"} & set(told["not_possible"])
    assert told["outcomes"] == []
    changed = opened(client_with_design, "size-88", {**DESIGN, "steps": [TOP]})
    assert [outcome["state"] for outcome in changed["outcomes"]] == ["done"]
    assert {handle["step"] for handle in changed["handles"]} == {"top"}


def test_fit_is_told_for_a_wearer_and_not_for_the_stand(client_with_design: TestClient) -> None:
    codes = [
        {each["code"] for each in opened(client_with_design, wearer)["findings"]} for wearer in ("size-88", "w-01")
    ]
    fit = {"drawn-girth", "tight", "ease-unusual"}
    assert not fit & codes[0]
    assert fit & codes[1]


def test_everything_but_the_body_is_shown(client_with_design: TestClient) -> None:
    told = opened(client_with_design, "size-88")
    seam = next(each["id"] for each in told["seams"] if each["kind"] == "join")
    for address in ("sheets?scale=quarter&", f"joined?seam={seam}&", "lays?", "picture.svg?", "sign-off.pdf?"):
        answered = client_with_design.get(f"{PLACE}/{address}wearer=size-88")
        assert answered.status_code == 200, (address, answered.text)
    refused = client_with_design.get(f"{PLACE}/body?wearer=size-88")
    assert refused.status_code == 400
    assert refused.json()["message"].startswith("This design lies on a block that was traced from paper.")
    cards = client_with_design.get("/api/workroom").json()["designs"]
    assert {card["ref"]: card["traced"] for card in cards}["on-paper"] == "own-01"


def test_its_toile_is_for_nobody_on_the_stand(client_with_design: TestClient) -> None:
    told = client_with_design.get(f"{PLACE}/toile.pdf?wearer=size-88&sheets=fitting")
    assert told.status_code == 200, told.text
    words = pypdfium2.PdfDocument(told.content)[0].get_textpage().get_text_range()
    assert "fitting sheet" in words
    assert "wearer" not in words.lower()


def test_it_follows_what_is_traced_and_says_when_that_is_gone(client_with_design: TestClient) -> None:
    before = opened(client_with_design, "size-88")["seams"][0]["lengths"]
    wider = traced(on_paper(plain_block(), spacing=10))
    wider["measured"]["mm"] = 110
    client_with_design.put("/api/traces/own-01", json={"document": wider, "what": "measured anew"})
    after = opened(client_with_design, "size-88")["seams"][0]["lengths"]
    assert after == pytest.approx([1.1 * length for length in before], rel=1e-4)
    client_with_design.delete("/api/traces/own-01")
    told = opened(client_with_design, "size-88")
    assert told["say"] == "refused"
    assert 'no traced block "own-01"' in told["message"]


def test_its_seams_are_not_offered_other_places(client_with_design: TestClient) -> None:
    assert opened(client_with_design, "size-88")["seam_places"] == []


def test_a_class_does_not_draw_it_from_each_learner_s_own_measurements(client_with_design: TestClient) -> None:
    told = client_with_design.post(f"{PLACE}/hand", json={"wearer": "size-88", "wearers": ["w-01", "w-02"]})
    job = ended(client_with_design, told.json())
    assert job["state"] == "refused"
    assert "lies on a traced block, which has one size whoever learns" in job["message"]
