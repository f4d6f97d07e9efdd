"""The built page, and the one sentence where it is not built."""

from pathlib import Path

import pytest
from starlette.testclient import TestClient
from web.page import ADDRESS

from panelwright.store.workroom import Workroom
from panelwright.web.application import create_application


def test_the_page_and_its_parts_are_served(client: TestClient) -> None:
    assert "The board" in client.get("/").text
    assert "javascript" in client.get("/assets/board.js").headers["content-type"]
    assert client.get("/assets/none.js").status_code == 404


def test_nothing_outside_the_page_is_served(client: TestClient, tmp_path: Path) -> None:
    assert (tmp_path / "festival.sqlite").exists()
    for path in ("/../festival.sqlite", "/%2e%2e/festival.sqlite", "/assets/..%2f..%2ffestival.sqlite"):
        assert client.get(path).status_code == 404


def test_where_the_page_is_not_built_one_sentence_says_how(room: Workroom, tmp_path: Path) -> None:
    with TestClient(create_application(room, tmp_path / "none"), base_url=ADDRESS) as client:
        answer = client.get("/")
        assert answer.status_code == 503
        assert "uv sync --reinstall-package panelwright" in answer.text
        assert client.get("/api/workroom").status_code == 200


@pytest.mark.parametrize("method", ["GET", "POST", "PUT", "DELETE"])
def test_an_address_that_nothing_answers_says_so(client: TestClient, method: str) -> None:
    answer = client.request(method, "/api/nothing")
    assert answer.status_code == 404
    assert answer.json()["message"].startswith("the board answers nothing at this address")
