"""Wearers and designs by HTTP: versions, conflicts, and everything that cannot be saved."""

import json
from typing import Any

import pytest
from starlette.testclient import TestClient

from panelwright.app.demo.troupe import designs, troupe
from panelwright.body.measurement_file import read_measurements

Document = dict[str, Any]


@pytest.fixture
def lantern(client: TestClient) -> Document:
    document: Document = client.get("/api/designs/lantern-01").json()["document"]
    return document


def test_a_new_workroom_holds_the_demo_and_a_neutral_stand(client: TestClient) -> None:
    told = client.get("/api/workroom").json()
    assert [each["ref"] for each in told["wearers"] if not each["neutral"]] == [one.wearer.ref for one in troupe()]
    assert [each["ref"] for each in told["wearers"] if each["neutral"]] == [told["stand"]]
    assert {each["ref"]: each["title"] for each in told["designs"]} == {
        one.design.ref: one.design.title for one in designs()
    }
    assert all(each["steps"] > 1 for each in told["designs"])


def test_a_changed_design_is_a_version_that_can_be_undone(client: TestClient, lantern: Document) -> None:
    before = client.get("/api/designs/lantern-01").json()
    change = {"document": {**lantern, "title": "Evening lantern"}, "what": "another title"}
    changed = client.put("/api/designs/lantern-01", json=change).json()
    assert changed["document"]["title"] == "Evening lantern"
    assert changed["version"] > before["version"]
    assert (before["can_undo"], changed["can_undo"]) == (False, True)
    undone = client.post("/api/designs/lantern-01/undo").json()
    assert (undone["document"], undone["can_redo"]) == (lantern, True)
    assert client.post("/api/designs/lantern-01/redo").json()["document"]["title"] == "Evening lantern"


def test_a_change_of_an_older_version_is_refused_and_not_saved(client: TestClient, lantern: Document) -> None:
    version = client.get("/api/designs/lantern-01").json()["version"]
    change = {"document": lantern, "what": "first hand", "based_on": version}
    first = client.put("/api/designs/lantern-01", json=change)
    assert first.status_code == 200
    second = client.put("/api/designs/lantern-01", json={**change, "what": "second hand"})
    assert second.status_code == 409
    assert "was changed elsewhere meanwhile" in second.json()["message"]
    assert client.get("/api/designs/lantern-01").json()["version"] == first.json()["version"]


@pytest.mark.parametrize(("place", "ref", "other"), [("wearers", "w-01", "w-05"), ("designs", "moon-05", "moon-06")])
def test_two_pages_that_make_something_new_do_not_overwrite_one_another(
    client: TestClient, place: str, ref: str, other: str
) -> None:
    document = {**client.get(f"/api/{place}/{ref}").json()["document"], "ref": other}
    change = {"document": document, "what": "new", "based_on": None}
    first, second = (client.put(f"/api/{place}/{other}", json=change) for _ in range(2))
    assert (first.status_code, second.status_code) == (200, 409)
    assert "is there already; save this one under another ref" in second.json()["message"]
    assert len(client.get(f"/api/{place}/{other}/versions").json()["versions"]) == 1
    assert client.put(f"/api/{place}/{other}", json={**change, "based_on": first.json()["version"]}).status_code == 200


def test_a_name_that_was_used_again_is_undone_past_the_removal(client: TestClient, lantern: Document) -> None:
    client.delete("/api/designs/lantern-01")
    change = {"document": {**lantern, "title": "Another"}, "what": "new", "based_on": None}
    again = client.put("/api/designs/lantern-01", json=change).json()
    assert again["can_undo"]
    undone = client.post("/api/designs/lantern-01/undo").json()
    assert (undone["document"], undone["can_undo"], undone["can_redo"]) == (lantern, False, True)
    assert client.post("/api/designs/lantern-01/redo").json() == again


def test_a_removed_design_comes_back_by_undo(client: TestClient) -> None:
    document = client.get("/api/designs/moon-05").json()["document"]
    assert client.delete("/api/designs/moon-05").status_code == 204
    assert client.get("/api/designs/moon-05").status_code == 404
    assert client.delete("/api/designs/moon-05").status_code == 404
    assert client.post("/api/designs/moon-05/undo").json()["document"] == document
    assert client.get("/api/designs/moon-05").status_code == 200
    again = client.post("/api/designs/moon-05/redo")
    assert again.json()["document"] == document, "redo does not remove what somebody may have open"


def test_a_new_wearer_is_saved_and_a_removed_one_is_forgotten(client: TestClient) -> None:
    document = {**client.get("/api/wearers/w-01").json()["document"], "ref": "w-11"}
    assert client.put("/api/wearers/w-11", json={"document": document, "what": "measured"}).status_code == 200
    assert client.delete("/api/wearers/w-11").status_code == 204
    assert client.get("/api/wearers/w-11").status_code == 404
    assert client.delete("/api/wearers/w-11").status_code == 404
    assert client.post("/api/wearers/w-11/undo").status_code == 404
    assert client.get("/api/wearers/w-11/versions").status_code == 404


def test_every_size_of_the_table_is_there_and_none_can_be_changed(client: TestClient) -> None:
    told = client.get("/api/wearers/size-104").json()
    assert read_measurements(json.dumps(told["document"])).ref == "size-104"
    refused = client.put("/api/wearers/size-104", json={"document": told["document"], "what": "mine"})
    assert (refused.status_code, refused.json()["where"]) == (400, "ref")
    assert client.delete("/api/wearers/size-88").status_code == 400
    assert client.get("/api/wearers/size-89").status_code == 404


@pytest.mark.parametrize("place", ["designs", "wearers"])
@pytest.mark.parametrize("ref", ["none-01", "UPPER-1", "a b 1", "x" * 300 + "1", "%00", "é1", "..1"])
def test_an_unknown_reference_is_not_found(client: TestClient, place: str, ref: str) -> None:
    for method, path in (("GET", ""), ("DELETE", ""), ("POST", "/undo"), ("POST", "/redo")):
        answer = client.request(method, f"/api/{place}/{ref}{path}")
        assert answer.status_code == 404
        assert answer.json()["message"]


HOSTILE_BODIES = [
    b"",
    b"{",
    b"[]",
    b"null",
    b'"text"',
    b"\xff\xfe",
    b"[" * 100_000,
    b'{"document": {}, "document": {}, "what": "x"}',
    b'{"document": [], "what": "x"}',
    b'{"document": {}, "what": 7}',
    b'{"what": "x"}',
    b'{"document": {"format": NaN}, "what": "x"}',
    b'{"document": {"format": "panelwright-design/1"}, "what": "x"}',
    b'{"document": {"format": 1e999}, "what": "x"}',
    b'{"document": {"format": "panelwright-measurements/1"}, "what": "x"}',
]


@pytest.mark.parametrize("body", HOSTILE_BODIES)
def test_a_body_that_is_no_document_is_refused_in_one_sentence(client: TestClient, body: bytes) -> None:
    before = client.get("/api/designs/lantern-01").json()
    answer = client.put("/api/designs/lantern-01", content=body)
    assert answer.status_code == 400
    assert set(answer.json()) == {"message", "where"}
    assert answer.json()["message"]
    assert client.get("/api/designs/lantern-01").json() == before


@pytest.mark.parametrize(
    ("field", "value", "where"),
    [
        ("what", "", "what"),
        ("what", "two\nlines", "what"),
        ("what", "x" * 121, "what"),
        ("based_on", "5", "based_on"),
        ("based_on", -1, "based_on"),
        ("based_on", 0, "based_on"),
        ("based_on", 2**70, "based_on"),
        ("based_on", True, "based_on"),
    ],
)
def test_a_field_beside_the_document_is_checked(
    client: TestClient, lantern: Document, field: str, value: object, where: str
) -> None:
    change = {"document": lantern, "what": "x", field: value}
    answer = client.put("/api/designs/lantern-01", json=change)
    assert (answer.status_code, answer.json()["where"]) == (400, where)


def test_a_document_under_another_reference_is_refused(client: TestClient, lantern: Document) -> None:
    answer = client.put("/api/designs/drum-03", json={"document": lantern, "what": "x"})
    assert (answer.status_code, answer.json()["where"]) == (400, "ref")


def test_half_a_letter_is_refused(client: TestClient, lantern: Document) -> None:
    content = json.dumps({"document": {**lantern, "title": "\ud800"}, "what": "x"}).encode()
    answer = client.put("/api/designs/lantern-01", content=content)
    assert answer.status_code == 400


def test_a_body_beyond_a_megabyte_is_refused(client: TestClient, lantern: Document) -> None:
    def change(letters: int) -> bytes:
        return json.dumps({"document": lantern, "what": "x", "padding": "x" * letters}).encode()

    assert client.put("/api/designs/lantern-01", content=change(900_000)).status_code == 200
    answer = client.put("/api/designs/lantern-01", content=change(1_000_000))
    assert answer.status_code == 400
    assert "larger than 1 MB" in answer.json()["message"]


def test_what_no_wearer_can_measure_is_refused_by_its_name_alone(client: TestClient) -> None:
    document = client.get("/api/wearers/w-01").json()["document"]
    document["measurements"]["waist_girth"] = 5000
    answer = client.put("/api/wearers/w-01", json={"document": document, "what": "x"})
    assert answer.status_code == 400
    assert "waist girth" in answer.json()["message"]


def test_an_incomplete_wearer_is_told_what_can_be_said(client: TestClient) -> None:
    document = {"format": "panelwright-measurements/1", "ref": "w-9", "unit": "cm", "measurements": {"bust_girth": 88}}
    told = client.post("/api/wearers/check", json=document).json()
    assert {"name": "bust_girth", "mm": 880.0, "estimated": False} in told["values"]
    assert "waist_girth" in told["missing"]
    assert told["refused"] is None


def test_the_vocabulary_names_everything_that_a_page_offers(client: TestClient) -> None:
    told = client.get("/api/vocabulary").json()
    assert "top-edge" in told["steps"]
    assert {"id": "waist", "label": "waist"} in told["levels"]
    assert {"id": "side", "label": "side"} in told["lines"]
    assert {"ref": "size-88", "bust_cm": 88} in told["sizes"]
    assert any(each["name"] == "waist_girth" and each["required"] for each in told["measurements"])
