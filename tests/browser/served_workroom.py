"""A workroom that the real program serves, in a process of its own."""

import json
import signal
import socket
import subprocess
import sys
import urllib.error
import urllib.request
from pathlib import Path
from typing import Any

PROGRAM = Path(sys.executable).with_name("panelwright")
DIRECT = urllib.request.build_opener(urllib.request.ProxyHandler({}))  # whatever proxy the machine has
STARTING_S = 120.0  # how long a busy machine may take


class ServedWorkroom:
    """`panelwright open` on a workroom file; what it prints is kept beside the file."""

    def __init__(self, file: Path) -> None:
        """Starts nothing yet."""
        self.file = file
        self.said = file.with_suffix(".txt")
        self.port = _free_port()
        self._process: subprocess.Popen[bytes] | None = None

    @property
    def address(self) -> str:
        """Of the page, without a slash at its end."""
        return f"http://127.0.0.1:{self.port}"

    def start(self) -> None:
        """Start it and wait until it answers."""
        words = [str(PROGRAM), "open", "--no-browser", "--workroom", str(self.file), "--port", str(self.port)]
        with self.said.open("ab") as said:
            self._process = subprocess.Popen(words, stdout=said, stderr=subprocess.STDOUT)
        pause = 0.05
        for _ in range(int(STARTING_S / pause)):
            if self._answers():
                return
            try:
                status = self._process.wait(pause)
            except subprocess.TimeoutExpired:
                continue
            raise RuntimeError(f"panelwright open ended with status {status}: {self.said.read_text(encoding='utf-8')}")
        self.kill()
        raise RuntimeError(f"panelwright open did not answer within {STARTING_S:.0f} s")

    def stop(self) -> None:
        """End it as Ctrl-C does."""
        self._end(signal.SIGINT)

    def kill(self) -> None:
        """End it without warning, as a power cut does."""
        self._end(signal.SIGKILL)

    def ask(self, path: str, method: str = "GET", body: object = None) -> Any:
        """The JSON that it answers.

        Raises:
            urllib.error.HTTPError: when it refuses.
        """
        data = None if body is None else json.dumps(body).encode()
        request = urllib.request.Request(self.address + path, data, method=method)
        request.add_header("Content-Type", "application/json")
        with DIRECT.open(request, timeout=60) as answer:
            said = answer.read()
        return json.loads(said) if said else None

    def fetch(self, path: str) -> bytes:
        """What it answers at an address of its own, as it stands in a link of the page."""
        with DIRECT.open(f"{self.address}/{path.lstrip('./')}", timeout=600) as answer:
            return bytes(answer.read())

    def copy_design(self, ref: str, copy: str) -> str:
        """The title of a copy of a design, under a reference of its own, so that a test can change it freely."""
        document = self.ask(f"/api/designs/{ref}")["document"]
        title = f"Copy {copy}"
        changed = {**document, "ref": copy, "title": title}
        self.ask(f"/api/designs/{copy}", "PUT", {"document": changed, "what": "a copy"})
        return title

    def _answers(self) -> bool:
        try:
            self.ask("/api/workroom")
        except (urllib.error.URLError, ConnectionError):
            return False
        return True

    def _end(self, how: signal.Signals) -> None:
        if self._process is not None:
            self._process.send_signal(how)
            self._process.wait(60)
            self._process = None


def _free_port() -> int:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        return int(taken.getsockname()[1])
