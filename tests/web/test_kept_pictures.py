"""The small pictures of the start page are kept beside the saved work, and go when what they show goes."""

import re
from pathlib import Path

import pytest
from starlette.testclient import TestClient
from web.page import ADDRESS

from panelwright.app import workroom_garments
from panelwright.app.block_shelf import BlockShelf
from panelwright.app.picture_shelf import PictureShelf, pictures_beside
from panelwright.store.workroom import Workroom
from panelwright.web.application import create_application


def served(room: Workroom, shelf: BlockShelf, folder: Path) -> TestClient:
    return TestClient(create_application(room, folder, shelf, PictureShelf(folder)), base_url=ADDRESS)


def picture_of(client: TestClient, design: str = "lantern-01", wearer: str = "w-01", names: str = "small") -> str:
    answer = client.get(f"/api/designs/{design}/picture.svg?wearer={wearer}&names={names}")
    assert answer.status_code == 200
    return answer.text


def test_a_second_start_draws_nothing_again(
    room: Workroom, shelf: BlockShelf, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "pictures"
    first = picture_of(served(room, shelf, folder))

    def drawn_again(*_: object) -> None:
        raise AssertionError("it was drawn again")

    monkeypatch.setattr(workroom_garments, "garment_picture", drawn_again)
    assert picture_of(served(room, shelf, folder)) == first


def test_a_changed_design_is_drawn_anew_and_its_old_picture_goes(
    room: Workroom, shelf: BlockShelf, tmp_path: Path
) -> None:
    folder = tmp_path / "pictures"
    client = served(room, shelf, folder)
    first = picture_of(client)
    document = client.get("/api/designs/lantern-01").json()["document"]
    document["finish"] = {**document.get("finish", {}), "allowance_cm": 4.0}
    assert client.put("/api/designs/lantern-01", json={"document": document, "what": "wide"}).status_code == 200
    assert picture_of(client) != first
    assert len(list(folder.iterdir())) == 2  # one with large names too


def test_no_picture_of_a_deleted_wearer_stays(room: Workroom, shelf: BlockShelf, tmp_path: Path) -> None:
    folder = tmp_path / "pictures"
    client = served(room, shelf, folder)
    kept = [picture_of(client, wearer="size-88", names=names) for names in ("small", "large")]
    picture_of(client)
    assert client.delete("/api/wearers/w-01").status_code == 204
    assert sorted(path.read_text(encoding="utf-8") for path in folder.iterdir()) == sorted(kept)


def test_names_for_an_audience_are_large_and_drawn_with_the_others(
    room: Workroom, shelf: BlockShelf, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    client = served(room, shelf, tmp_path / "pictures")
    small = picture_of(client)
    monkeypatch.setattr(workroom_garments, "garment_picture", None)  # nothing is drawn a second time
    large = picture_of(client, names="large")
    sizes = [{float(size) for size in re.findall(r'font-size="([\d.]+)"', svg)} for svg in (small, large)]
    assert sizes == [{2.2}, {6.0}]  # mm, of a picture 126 mm wide
    assert all(f">{code}</text>" in large for code in ("CB", "SB", "SF", "CF"))


def test_other_files_stay_and_a_folder_that_is_in_the_way_does_no_harm(
    room: Workroom, shelf: BlockShelf, tmp_path: Path
) -> None:
    folder = tmp_path / "pictures"
    folder.mkdir()
    (folder / "notes.svg").write_text("my own", encoding="utf-8")
    picture_of(served(room, shelf, folder))
    assert (folder / "notes.svg").is_file()
    assert picture_of(served(room, shelf, folder / "notes.svg")).startswith("<")


def test_they_lie_beside_the_saved_work() -> None:
    assert pictures_beside(Path("sewing/festival.sqlite")) == Path("sewing/festival-pictures")
