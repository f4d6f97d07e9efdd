"""A fault of our own: the page is told so, and no log gets the error's own words."""

import pytest
from starlette.testclient import TestClient
from web.page import Page

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
