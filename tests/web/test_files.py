"""Everything out as plain files and in again by HTTP; what no page of ours would send is refused."""

import io
import json
import zipfile
from typing import Any

import pytest
from starlette.testclient import TestClient
from web.page import page_of

from panelwright.app.plain_zip import MOST_ZIP, files_in

Document = dict[str, Any]


def zipped(name: str, content: bytes) -> bytes:
    written = io.BytesIO()
    with zipfile.ZipFile(written, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr(name, content)
    return written.getvalue()


def test_everything_is_sent_as_a_file_to_keep(client: TestClient) -> None:
    sent = client.get("/api/export")
    assert sent.headers["content-type"] == "application/zip"
    name = sent.headers["content-disposition"]
    assert name.startswith('attachment; filename="panelwright-')
    assert name.endswith('.zip"')
    assert {"README.txt", "designs/lantern-01.json", "wearers/w-01.json"} <= files_in(sent.content).keys()


def test_references_that_may_be_names_are_sent_only_when_asked(client: TestClient) -> None:
    document = {**client.get("/api/wearers/w-01").json()["document"], "ref": "berta-1"}
    client.put("/api/wearers/berta-1", json={"document": document, "what": "measured"})
    assert "wearers/berta-1.json" not in files_in(client.get("/api/export").content)
    assert "wearers/berta-1.json" in files_in(client.get("/api/export?names=1").content)


def test_what_was_sent_is_taken_back_and_pages_that_show_it_are_told(client: TestClient) -> None:
    sent = client.get("/api/export").content
    lantern = client.get("/api/designs/lantern-01").json()["document"]
    client.put("/api/designs/lantern-01", json={"document": {**lantern, "title": "Evening"}, "what": "title"})
    with page_of(client) as page:
        page.open()
        taken = client.post("/api/import", content=sent)
        assert page.hear() == {"say": "changed", "kind": "design"}
    unchanged = len(files_in(sent)) - 2  # but the design that was changed, and the page of words
    assert taken.json() == {
        "wearers": [],
        "designs": ["lantern-01"],
        "traces": [],
        "fittings": [],
        "lays": [],
        "groups": [],
        "replaced": 1,
        "unchanged": unchanged,
        "renamed": [],
    }
    assert client.get("/api/designs/lantern-01").json()["document"] == lantern


def test_one_document_is_taken_by_itself(client: TestClient) -> None:
    lantern = client.get("/api/designs/lantern-01").json()["document"]
    taken = client.post("/api/import", content=json.dumps({**lantern, "ref": "lantern-77"}))
    assert taken.json()["designs"] == ["lantern-77"]
    assert client.get("/api/designs/lantern-77").status_code == 200


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (zipped("../w-01.json", b"{}"), "which is no name of a file in a folder"),
        (zipped("designs/a.json", b"0" * 50_000_000), "is larger than 1 MB unpacked"),
        (b"PK\x03\x04" + b"0" * MOST_ZIP, "what was sent is larger than 5 MB: send fewer files at a time"),
        (b"PK\x03\x04", "the ZIP is damaged"),
        (b"", "the file"),
        (b"[]", "the file must hold named values"),
    ],
)
def test_what_cannot_be_used_is_refused_with_a_sentence(client: TestClient, content: bytes, sentence: str) -> None:
    before = client.get("/api/workroom").json()
    refused = client.post("/api/import", content=content)
    assert refused.status_code == 400
    assert sentence in refused.json()["message"]
    assert client.get("/api/workroom").json() == before


def test_another_page_may_not_fetch_or_send_files(client: TestClient) -> None:
    for method, path in (("GET", "/api/export"), ("POST", "/api/import")):
        refused = client.request(method, path, headers={"sec-fetch-site": "cross-site"})
        assert refused.status_code == 403


def test_every_version_is_listed_and_can_be_saved_again(client: TestClient) -> None:
    path = "/api/designs/lantern-01"
    lantern = client.get(path).json()["document"]
    client.put(path, json={"document": {**lantern, "title": "Evening"}, "what": "another title"})
    told = client.get(f"{path}/versions").json()["versions"]
    assert [(each["what"], each["current"], each["removed"]) for each in told] == [
        ("another title", True, False),
        ("put in with a new workroom", False, False),
    ]
    first = client.get(f"{path}/versions/{told[-1]['version']}").json()
    assert first == {"document": lantern, "version": told[-1]["version"]}
    back = client.put(path, json={"document": first["document"], "what": "back to the first"})
    assert back.json()["document"] == lantern
    assert len(client.get(f"{path}/versions").json()["versions"]) == 3


def test_versions_of_wearers_are_listed_too(client: TestClient) -> None:
    told = client.get("/api/wearers/w-01/versions").json()["versions"]
    assert [each["current"] for each in told] == [True]
    assert client.get("/api/wearers/size-92/versions").json() == {"versions": []}


@pytest.mark.parametrize("rest", ["none-01/versions", "none-01/versions/1", "lantern-01/versions/999999", "A/versions"])
def test_versions_that_are_not_there_are_not_found(client: TestClient, rest: str) -> None:
    assert client.get(f"/api/designs/{rest}").status_code == 404
