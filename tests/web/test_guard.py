"""Only the page of this computer is answered."""

import pytest
from starlette.testclient import TestClient
from starlette.websockets import WebSocketDisconnect
from web.page import ADDRESS, HOST, page_of


@pytest.mark.parametrize("host", ["127.0.0.1", HOST, "localhost:8460", "LOCALHOST", "[::1]:8460"])
def test_this_computer_by_any_of_its_names_is_answered(client: TestClient, host: str) -> None:
    assert client.get("/api/workroom", headers={"host": host}).status_code == 200


@pytest.mark.parametrize(
    "host", ["festival.example", "127.0.0.1.festival.example", "localhost.festival.example:8460", "", "127.0.0.1:80:80"]
)
def test_a_name_that_merely_leads_here_is_refused(client: TestClient, host: str) -> None:
    for path in ("/", "/api/workroom"):
        answer = client.get(path, headers={"host": host})
        assert answer.status_code == 403
        assert answer.json()["message"].startswith("the board is served to this computer alone")


def test_two_host_names_are_refused(client: TestClient) -> None:
    answer = client.get("/api/workroom", headers=[("host", HOST), ("host", "festival.example")])  # type: ignore[arg-type]
    assert answer.status_code == 403


@pytest.mark.parametrize("origin", ["http://festival.example", "null", "https://127.0.0.1:8460", "http://127.0.0.1:81"])
def test_another_page_is_refused_and_the_own_page_is_not(client: TestClient, origin: str) -> None:
    assert client.get("/api/workroom", headers={"origin": ADDRESS}).status_code == 200
    assert client.get("/api/workroom", headers={"origin": origin}).status_code == 403
    assert client.delete("/api/designs/lantern-01", headers={"origin": origin}).status_code == 403
    assert client.get("/api/designs/lantern-01").status_code == 200


def test_another_page_cannot_have_pictures_drawn_but_may_link_here(client: TestClient) -> None:
    for site in ("cross-site", "same-site"):
        assert client.get("/api/workroom", headers={"sec-fetch-site": site}).status_code == 403
        assert client.get("/", headers={"sec-fetch-site": site}).status_code == 200
    assert client.get("/api/workroom", headers={"sec-fetch-site": "same-origin"}).status_code == 200


@pytest.mark.parametrize(
    "headers", [{"origin": "http://festival.example"}, {"host": "festival.example"}, {"origin": "null"}]
)
def test_another_page_gets_no_socket(client: TestClient, headers: dict[str, str]) -> None:
    with pytest.raises(WebSocketDisconnect), page_of(client, **headers):
        pass
    with page_of(client, origin=ADDRESS) as page:
        assert page.open()["say"] == "pattern"


@pytest.mark.parametrize("path", ["/", "/assets/board.js", "/api/workroom", "/api/designs/none-01", "/none.html"])
def test_every_answer_says_what_a_page_may_load_and_that_nothing_is_kept(client: TestClient, path: str) -> None:
    headers = client.get(path).headers
    policy = headers["content-security-policy"]
    for rule in ("default-src 'self'", "connect-src 'self'", "object-src 'none'", "frame-ancestors 'none'"):
        assert rule in policy
    assert "script-src" not in policy
    assert headers["referrer-policy"] == "no-referrer"
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["cache-control"] == "no-store"
