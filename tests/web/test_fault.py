"""A fault of our own: the page is told so, and no log gets the error's own words."""

import math
import sqlite3
from pathlib import Path

import pytest
from starlette.testclient import TestClient
from starlette.websockets import WebSocketDisconnect
from web.page import Page, page_of

from panelwright.app.board_places import Box
from panelwright.app.workroom_item import Item


def test_a_fault_is_told_without_its_words(
    client: TestClient, page: Page, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def faulty(*_given: object, **_more: object) -> Item | Box:
        raise ZeroDivisionError("waist 72.5 cm")

    monkeypatch.setattr("panelwright.web.item_requests.found_item", faulty)
    monkeypatch.setattr("panelwright.app.open_design.found_item", faulty)
    answer = client.get("/api/designs/lantern-01")
    assert answer.status_code == 500
    told = page.ask("open", design="lantern-01", wearer="w-01")
    assert told["say"] == "refused"
    logged = capsys.readouterr()
    for words in (answer.json()["message"], told["message"], logged.err):
        assert "something went wrong inside Panelwright (ZeroDivisionError in test_fault.py" in words
    assert "72.5" not in answer.text + str(told) + logged.err + logged.out


@pytest.mark.parametrize(
    "path", ["lantern-01/versions/", "lantern-01/sheets/{}.svg?wearer=w-01", "lantern-01/lays/{}.svg?wearer=w-01"]
)
def test_an_absurdly_long_number_leads_nowhere(client: TestClient, path: str) -> None:
    many = "9" * 5000  # more figures than Python turns into a number
    answer = client.get(f"/api/designs/{path.format(many) if '{}' in path else path + many}")
    assert answer.status_code == 404
    assert answer.json()["message"]
    assert answer.headers["cache-control"] == "no-store"


async def fails(*_given: object) -> None:
    raise ZeroDivisionError("waist 72.5 cm")


def test_a_fault_where_nobody_looks_for_it_is_told_too_and_its_answer_is_guarded(
    client: TestClient, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("panelwright.web.page_files.PageFiles.__call__", fails)
    answer = client.get("/")
    assert answer.status_code == 500
    assert answer.json()["message"] in capsys.readouterr().err
    assert "default-src 'self'" in answer.headers["content-security-policy"]
    assert "72.5" not in answer.text


def test_a_socket_with_a_fault_is_closed_and_the_fault_told(
    client: TestClient, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("panelwright.web.board_socket.BoardSocket.serve", fails)
    with pytest.raises(WebSocketDisconnect) as closed, page_of(client):
        pass
    assert closed.value.code == 1011
    logged = capsys.readouterr().err
    assert "ZeroDivisionError in test_fault.py" in logged
    assert "72.5" not in logged


@pytest.mark.parametrize("place", [10**400, -(10**400), 1e300, "1"])
def test_a_place_beyond_every_paper_is_refused(page: Page, place: object) -> None:
    told = page.open()
    grip = told["handles"][0]
    refused = page.ask("drag", step=grip["step"], handle=grip["name"], piece=grip["piece"], to=[place, 0])
    assert (refused["say"], refused["where"]) == ("refused", "to")
    assert page.ask("leave")["say"] == "pattern"


def test_an_answer_that_cannot_be_written_ends_no_socket(page: Page, monkeypatch: pytest.MonkeyPatch) -> None:
    page.open()
    with monkeypatch.context() as patched:
        patched.setattr("panelwright.web.board_socket.carried_out", lambda *_: {"say": "pattern", "levels": [math.nan]})
        refused = page.ask("leave")
    assert refused["say"] == "refused"
    assert "ValueError" in refused["message"]
    assert page.ask("leave")["say"] == "pattern"


def test_work_that_cannot_be_read_is_not_told_to_be_missing(client: TestClient, tmp_path: Path) -> None:
    with sqlite3.connect(tmp_path / "festival.sqlite") as raw:
        raw.execute("ALTER TABLE item RENAME TO lost")
    raw.close()
    for path in ("/api/designs/lantern-01", "/api/workroom", "/api/wearers/w-01/versions"):
        answer = client.get(path)
        assert answer.status_code == 400
        assert "the saved work cannot be read" in answer.json()["message"]
