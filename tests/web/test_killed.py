"""A real server that dies without warning in the middle of the work: whatever was answered is there again."""

import asyncio
import json
import signal
import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import Any

import httpx2
import pytest
from websockets.asyncio.client import connect

KILLS = 5
PROGRAM = Path(sys.executable).with_name("panelwright")


@contextmanager
def served(workroom: Path) -> Iterator[tuple[subprocess.Popen[str], str]]:
    """The program on a free port, in a process of its own; (process, address) once it is ready."""
    words = [str(PROGRAM), "open", "--no-browser", "--json", "--port", "0", "--workroom", str(workroom)]
    process = subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
    try:
        assert process.stdout is not None
        said = ""
        while not said.rstrip().endswith("}"):
            line = process.stdout.readline()
            assert line, f"the program ended: {said}"
            said += line
        yield process, json.loads(said)["address"]
    finally:
        process.kill()
        process.communicate()


async def edited(address: str, process: subprocess.Popen[str], moves: int) -> dict[str, Any]:
    """Open, drag and drop `moves` times, drag once more, and kill the server; returns the design last answered."""
    async with connect(f"{address.replace('http', 'ws')}/api/board") as board:

        async def ask(do: str, **fields: object) -> dict[str, Any]:
            await board.send(json.dumps({"do": do, "id": 1, **fields}))
            told: dict[str, Any] = {"say": "line"}
            while told["say"] == "line":  # what comes ahead of a drag's answer
                told = json.loads(await board.recv())
            assert told["say"] == "pattern", told
            return told

        told = await ask("open", design="lantern-01", wearer="w-01")
        for _ in range(moves):
            grip = told["handles"][0]
            place = {"step": grip["step"], "handle": grip["name"], "piece": grip["piece"]}
            x, y = grip["at"]
            await ask("drag", **place, to=[x, y - 2.5], free=True)
            told = await ask("drop")
        await board.send(json.dumps({"do": "drag", "id": 2, **place, "to": [x, y - 30], "free": True}))
        process.send_signal(signal.SIGKILL)
        process.wait()
        return told


def test_killed_five_times_in_the_middle_of_a_drag_nothing_is_lost(tmp_path: Path) -> None:
    workroom, answered = tmp_path / "festival.sqlite", None
    versions = set()
    for kill in range(KILLS):
        with served(workroom) as (process, address):
            found = httpx2.get(f"{address}/api/designs/lantern-01", timeout=60).json()
            if answered is not None:
                assert (found["document"], found["version"]) == (answered["design"], answered["version"])
            answered = asyncio.run(edited(address, process, moves=1 + kill % 2))
            versions.add(answered["version"])
    with served(workroom) as (_, address):
        found = httpx2.get(f"{address}/api/designs/lantern-01", timeout=60).json()
        assert (found["document"], found["can_undo"]) == (answered["design"], True)
        back = 0
        while found["can_undo"]:
            found = httpx2.post(f"{address}/api/designs/lantern-01/undo", timeout=60).json()
            back += 1
        assert back == sum(1 + kill % 2 for kill in range(KILLS))
    assert len(versions) == KILLS


def test_ctrl_c_ends_the_program_well_and_it_has_said_nothing_of_anyone(tmp_path: Path) -> None:
    with served(tmp_path / "festival.sqlite") as (process, address):
        document = httpx2.get(f"{address}/api/wearers/w-01", timeout=60).json()["document"]
        document["measurements"]["waist_girth"] = 4321.5
        refused = httpx2.put(f"{address}/api/wearers/w-01", json={"document": document, "what": "x"}, timeout=60)
        assert refused.status_code == 400
        process.send_signal(signal.SIGINT)
        rest, _ = process.communicate(timeout=60)
        assert process.returncode == 0
        assert rest == ""


def test_ctrl_c_while_sheets_are_waited_for_prints_nothing(tmp_path: Path) -> None:
    with served(tmp_path / "festival.sqlite") as (process, address):
        host, _, port = address.removeprefix("http://").partition(":")
        with ExitStack() as open_sockets:
            # One after the other they take longer than the program waits for them.
            for wearer in ("w-01", "w-02", "w-03", "w-04", "size-88", "size-104", "size-122"):
                asked = f"/api/designs/lantern-01/print.pdf?wearer={wearer}&scale=full"
                waiting = open_sockets.enter_context(socket.create_connection((host, int(port))))
                waiting.sendall(f"GET {asked} HTTP/1.1\r\nHost: {host}:{port}\r\n\r\n".encode())
            httpx2.get(f"{address}/api/workroom", timeout=60)  # by now the others have been taken in
            process.send_signal(signal.SIGINT)
            rest, _ = process.communicate(timeout=60)
        assert process.returncode == 0
        assert rest == ""


def test_a_port_that_is_taken_is_told_in_one_sentence(tmp_path: Path) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        words = [str(PROGRAM), "open", "--no-browser", "--workroom", str(tmp_path / "w.sqlite"), "--port"]
        done = subprocess.run([*words, str(taken.getsockname()[1])], capture_output=True, text=True)
    assert done.returncode == 2
    assert "choose another with --port" in done.stderr


@pytest.mark.parametrize("port", ["eighty", "-1", "65536", "8.5"])
def test_a_port_that_is_none_is_refused(tmp_path: Path, port: str) -> None:
    words = [str(PROGRAM), "open", "--no-browser", "--workroom", str(tmp_path / "w.sqlite"), f"--port={port}"]
    done = subprocess.run(words, capture_output=True, text=True)
    assert (done.returncode, "--port takes a number" in done.stderr) == (2, True)


def test_killed_while_a_lay_is_looked_for_and_moved_what_was_told_is_kept(tmp_path: Path) -> None:
    workroom, asked = tmp_path / "festival.sqlite", {"params": {"wearer": "w-01"}, "timeout": 60}
    with served(workroom) as (process, address):
        lays = f"{address}/api/designs/lantern-01/lays"
        document = httpx2.get(f"{address}/api/designs/lantern-01", timeout=60).json()["document"]
        narrow = {**document, "cloth_to_buy": {"outer": {"width_cm": 96, "folded": True}}}
        put = {"document": narrow, "what": "narrow"}
        assert httpx2.put(f"{address}/api/designs/lantern-01", json=put, timeout=60).status_code == 200
        hand = httpx2.get(f"{lays}/2/hand", **asked).json()
        move = {"piece": hand["pieces"][0]["piece"], "number": 0, "x": 900.0}
        moves = {"moves": [move], "based_on": hand["revision"]}
        moved = httpx2.post(f"{lays}/2/hand", json=moves, **asked).json()
        found = httpx2.post(f"{lays}/1/search", json={"seconds": 300}, **asked).json()
        while found["made"] == "first":
            assert found["search"]["going_on"]
            found = httpx2.get(f"{lays}/1/search", **asked).json()
        process.send_signal(signal.SIGKILL)
        process.wait()
    with served(workroom) as (_, address):
        told = httpx2.get(f"{address}/api/designs/lantern-01/lays", **asked).json()["lays"]
        assert (told[0]["made"], told[1]["made"]) == ("found", "hand")
        assert told[0]["length_mm"] < told[0]["first"]["length_mm"]
        assert not told[0]["search"]["going_on"]
        assert told[1]["length_mm"] == moved["mine"]["length_mm"]
