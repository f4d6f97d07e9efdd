"""A page as the server sees it: what it sends over its socket and is told."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from starlette.testclient import TestClient, WebSocketTestSession

HOST = "127.0.0.1:8460"
ADDRESS = f"http://{HOST}"
Told = dict[str, Any]


class Page:
    """One open page. `ask` sends an order and waits for the answer that carries its id; lines that came ahead of it are
    kept in `lines`."""

    def __init__(self, socket: WebSocketTestSession) -> None:
        self.socket = socket
        self.lines: list[Told] = []
        self._id = 0

    def say(self, do: str, **fields: object) -> int:
        """Send an order and don't wait."""
        self._id += 1
        self.socket.send_json({"do": do, "id": self._id, **fields})
        return self._id

    def hear(self) -> Told:
        """The next thing that the server says."""
        told: Told = self.socket.receive_json()
        return told

    def ask(self, do: str, **fields: object) -> Told:
        id = self.say(do, **fields)
        while (told := self.hear())["say"] == "line":
            assert told["id"] == id
            self.lines.append(told)
        assert told["id"] == id
        return told

    def open(self, design: str = "lantern-01", wearer: str = "w-01") -> Told:
        told = self.ask("open", design=design, wearer=wearer)
        assert told["say"] == "pattern", told
        return told


@contextmanager
def page_of(client: TestClient, **headers: str) -> Iterator[Page]:
    with client.websocket_connect("/api/board", headers={"host": HOST, **headers}) as socket:
        yield Page(socket)


def handle(told: Told, step: str, name: str) -> Told:
    """One handle of a pattern."""
    found: Told = next(each for each in told["handles"] if (each["step"], each["name"]) == (step, name))
    return found


def moved(told: Told, step: str, name: str, down: float) -> Told:
    """The fields of a drag of a handle, `down` mm downwards."""
    grip = handle(told, step, name)
    x, y = grip["at"]
    return {"step": step, "handle": name, "piece": grip["piece"], "to": [x, y - down], "free": True}


def piece(told: Told, id: str) -> Told:
    """One piece of a pattern."""
    found: Told = next(each for each in told["pieces"] if each["id"] == id)
    return found
