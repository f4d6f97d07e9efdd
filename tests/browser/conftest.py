"""A real browser before the real server."""

from collections.abc import Callable, Iterator
from os import environ
from pathlib import Path

import pytest
from browser.chromium import FLAGS, NoChromiumError, find_chromium
from browser.hand import Hand
from browser.served_workroom import ServedWorkroom
from browser.watched_page import Watch
from playwright.sync_api import Browser, sync_playwright

Open = Callable[..., Hand]


@pytest.fixture(scope="session")
def workroom(tmp_path_factory: pytest.TempPathFactory) -> Iterator[ServedWorkroom]:
    """A new workroom with the demo's wearers and designs, shared by the tests: change copies only."""
    served = ServedWorkroom(tmp_path_factory.mktemp("workroom") / "festival.workroom")
    served.start()
    yield served
    served.stop()


@pytest.fixture
def own_workroom(tmp_path: Path) -> Iterator[ServedWorkroom]:
    """A workroom for one test alone, to stop, kill and start again."""
    served = ServedWorkroom(tmp_path / "own.workroom")
    served.start()
    yield served
    served.stop()


# By module, not by session: Playwright's event loop must have ended when other tests run in this process.
@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """Chromium without a window."""
    try:
        chromium = find_chromium()
    except NoChromiumError as error:
        pytest.fail(str(error))
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(
            executable_path=chromium.program, args=list(FLAGS), env={**environ, **chromium.environment}
        )
        yield started
        started.close()


@pytest.fixture
def open_page(browser: Browser) -> Iterator[Open]:
    """Opens pages, each as a browser of its own; the test fails if one of them complains or asks elsewhere."""
    watches: list[Watch] = []

    def opened(served: ServedWorkroom, width: int = 1280, height: int = 800, path: str = "/") -> Hand:
        page = browser.new_context(viewport={"width": width, "height": height}).new_page()
        watches.append(Watch(page, served.address))
        page.goto(served.address + path)
        return Hand(page, watches[-1])

    yield opened
    for watch in watches:
        watch.page.context.close()
    assert [complaint for watch in watches for complaint in watch.complaints] == []
