"""The board's server without a network: a new workroom for each test, the wearers' blocks made once."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient
from web.page import ADDRESS, Page, page_of

from panelwright.app.block_shelf import BlockShelf
from panelwright.app.workroom_start import open_workroom
from panelwright.store.workroom import Workroom
from panelwright.web.application import create_application


@pytest.fixture(scope="session")
def shelf() -> BlockShelf:
    return BlockShelf()


@pytest.fixture
def room(tmp_path: Path) -> Iterator[Workroom]:
    with open_workroom(tmp_path / "festival.sqlite") as room:
        yield room


@pytest.fixture
def client(room: Workroom, shelf: BlockShelf, tmp_path: Path) -> Iterator[TestClient]:
    folder = tmp_path / "page"
    (folder / "assets").mkdir(parents=True)
    (folder / "index.html").write_text("<title>The board</title>", encoding="utf-8")
    (folder / "assets" / "board.js").write_text("export {};", encoding="utf-8")
    with TestClient(create_application(room, folder, shelf), base_url=ADDRESS) as client:
        yield client


@pytest.fixture
def page(client: TestClient) -> Iterator[Page]:
    """A page without anything open."""
    with page_of(client) as page:
        yield page
