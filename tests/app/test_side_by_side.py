"""Work in several processes: the same as in one, its errors told, none left behind."""

import os
import signal
import subprocess
import sys
from collections.abc import Iterator, Mapping
from contextlib import closing
from multiprocessing import active_children
from pathlib import Path
from types import MappingProxyType

import pytest
from app.work_elsewhere import divided, doubled, ended_at_four, ended_elsewhere, first_alone, size_of

from panelwright.app.side_by_side import LEAST, side_by_side
from panelwright.errors import CancelledError, InputError

ITEMS = (16, 25, 4, 9, 36)


@pytest.fixture(autouse=True)
def nothing_left_behind() -> Iterator[None]:
    yield
    assert active_children() == []


@pytest.mark.parametrize("processes", [1, 2])
def test_results_come_in_the_order_of_the_items(processes: int) -> None:
    found = list(side_by_side(doubled, ITEMS, processes))
    assert [twice for twice, _ in found] == [2 * item for item in ITEMS]
    assert ({where for _, where in found} == {os.getpid()}) == (processes == 1)


def test_few_things_stay_in_this_process() -> None:
    few = ITEMS[: LEAST - 1]
    assert {where for _, where in side_by_side(doubled, few, 2)} == {os.getpid()}


def test_an_error_of_the_work_is_told_as_it_was_raised() -> None:
    with (
        closing(side_by_side(doubled, (*ITEMS, 13), 2)) as results,
        pytest.raises(InputError, match="thirteen") as told,
    ):
        list(results)
    assert told.value.where == "item 13"


def test_the_work_can_be_stopped() -> None:
    with closing(side_by_side(first_alone, range(8), 2)) as results:  # the others would never end
        assert next(results) == 0


def test_the_work_can_be_stopped_while_it_is_waited_for() -> None:
    heard: list[int] = []

    def heed() -> None:
        heard.append(len(heard))
        if len(heard) > 5:
            raise CancelledError("stopped")

    with closing(side_by_side(first_alone, range(8), 2, heed)) as results, pytest.raises(CancelledError):
        list(results)  # all but the first would never end


def test_the_work_of_a_process_that_is_ended_is_done_here() -> None:
    assert [number for number, _ in side_by_side(ended_elsewhere, ITEMS, 2)] == list(ITEMS)


def test_a_process_that_is_ended_costs_only_its_item() -> None:
    found = list(side_by_side(ended_at_four, ITEMS * 4, 2))
    assert [number for number, _ in found] == list(ITEMS * 4)
    assert len({where for _, where in found} - {os.getpid()}) >= 1


BEGUN = {"here": "done()", "in a thread, as on the board": "t = Thread(target=done)\n    t.start()\n    t.join()"}


@pytest.mark.parametrize("begun", BEGUN.values(), ids=BEGUN)
def test_ctrl_c_is_left_to_the_first_process(begun: str) -> None:
    """In a fresh program, where nothing was begun that helps a process to begin."""
    script = (
        "import os\n"
        "from threading import Thread\n"
        "from app.work_elsewhere import interrupted\n"
        "from panelwright.app.side_by_side import side_by_side\n"
        "def done():\n"
        "    found = list(side_by_side(interrupted, range(5), 2))\n"
        "    print([number for number, _ in found], os.getpid() in {where for _, where in found})\n"
        "if __name__ == '__main__':\n"
        f"    {begun}\n"
    )
    folder = Path(__file__).parents[1]
    told = subprocess.run([sys.executable, "-c", script], cwd=folder, capture_output=True, text=True, timeout=60)
    assert (told.stdout, told.stderr) == ("[0, 1, 2, 3, 4] False\n", "")  # nothing had to be done again


def test_our_own_faults_keep_their_place() -> None:
    with pytest.raises(ZeroDivisionError) as told:
        list(side_by_side(divided, (1, 2, 3, 0, 4), 2))
    assert told.traceback[-1].path.name == "work_elsewhere.py"


def test_helpers_do_not_outlive_their_master() -> None:
    script = (
        "import os, signal\n"
        "from app.work_elsewhere import where\n"
        "from panelwright.app.side_by_side import side_by_side\n"
        "if __name__ == '__main__':\n"
        "    results = side_by_side(where, range(8), 2)\n"
        "    print(next(results), flush=True)\n"
        "    os.kill(os.getpid(), signal.SIGKILL)\n"
    )
    folder = Path(__file__).parents[1]
    master = subprocess.Popen([sys.executable, "-c", script], cwd=folder, stdout=subprocess.PIPE, text=True)
    told, _ = master.communicate(timeout=60)  # which ends when all that hold its output have ended
    assert master.returncode == -signal.SIGKILL
    assert int(told) not in (master.pid, os.getpid())


def test_what_cannot_travel_fails_at_once() -> None:
    views: list[Mapping[str, int]] = [MappingProxyType({"a": 1})] * LEAST
    assert list(side_by_side(size_of, views, 1)) == [1] * LEAST
    with pytest.raises(TypeError, match="mappingproxy"):
        list(side_by_side(size_of, views, 2))
