"""A group that is bought for is kept: over a restart, for every page, with everything that goes out and comes in."""

import io
import json
import zipfile
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient
from web.page import ADDRESS, page_of

from panelwright.app.block_shelf import BlockShelf
from panelwright.app.workroom_start import open_workroom
from panelwright.store.workroom import Workroom
from panelwright.web.application import create_application

Document = dict[str, Any]
GROUP: Document = {
    "format": "panelwright-workroom-group/1",
    "ref": "group-1",
    "title": "Festival",
    "garments": [
        {"design": "lantern-01", "wearer": "w-01", "count": 1, "outer": "red silk"},
        {"design": "drum-03", "wearer": "size-88", "count": 2, "outer": ""},
    ],
    "cloths": {"red silk": {"width_cm": 114, "price_per_metre": 28}},
    "notion_prices": {"lacing cord": 0.9},
    "money": "EUR",
    "spare": {"cloth_percent": 3, "notions_percent": 10},
    "longest_lay_cm": 350,
    "seconds": 10,
}


def put(client: TestClient, document: Document = GROUP, **fields: object) -> Any:
    return client.put(f"/api/groups/{document['ref']}", json={"document": document, "what": "a group", **fields})


def got(client: TestClient, ref: str = "group-1") -> Document:
    told = client.get(f"/api/groups/{ref}")
    assert told.status_code == 200, told.text
    document: Document = told.json()["document"]
    return document


def listed(client: TestClient) -> list[tuple[str, str]]:
    return [(group["ref"], group["title"]) for group in client.get("/api/workroom").json()["groups"]]


def sent(client: TestClient, names: bool = False) -> dict[str, Document]:
    """The documents of an export."""
    with zipfile.ZipFile(io.BytesIO(client.get(f"/api/export{'?names=1' if names else ''}").content)) as archive:
        return {name: json.loads(archive.read(name)) for name in archive.namelist() if name.endswith(".json")}


def bring(client: TestClient, *documents: Document) -> Any:
    written = io.BytesIO()
    with zipfile.ZipFile(written, "w") as archive:
        for number, document in enumerate(documents):
            archive.writestr(f"{number}.json", json.dumps(document))
    return client.post("/api/import", content=written.getvalue())


def elsewhere(room: Workroom, tmp_path: Path, shelf: BlockShelf) -> TestClient:
    """Another program."""
    return TestClient(create_application(room, tmp_path / "page", shelf), base_url=ADDRESS)


def test_a_group_is_there_after_a_restart_with_all_that_was_chosen(
    client: TestClient, room: Workroom, shelf: BlockShelf, tmp_path: Path
) -> None:
    assert listed(client) == []
    assert client.get("/api/groups/group-1").status_code == 404
    first = put(client, {**GROUP, "garments": []}, based_on=None).json()["version"]
    assert put(client, based_on=first).status_code == 200
    with elsewhere(room, tmp_path, shelf) as again:
        assert got(again) == GROUP
        assert listed(again) == [("group-1", "Festival")]
    assert len(room.history("group", "group-1")) == 1  # of what is changed field by field no versions stay
    assert client.delete("/api/groups/group-1").status_code == 204
    assert listed(client) == []
    assert room.history("group", "group-1") == ()


def test_a_change_on_what_another_page_has_changed_is_refused_and_every_page_is_told(client: TestClient) -> None:
    seen = put(client, based_on=None).json()["version"]
    with page_of(client) as page, page_of(client) as other:
        other.open("drum-03")
        assert put(client, {**GROUP, "title": "Theirs"}, based_on=seen).status_code == 200
        for each in (page, other):
            assert each.hear() == {"say": "changed", "kind": "group"}
    refused = put(client, {**GROUP, "title": "Mine"}, based_on=seen)
    assert (refused.status_code, refused.json()["where"]) == (409, "group-1")
    assert put(client, {**GROUP, "title": "Mine"}, based_on=None).status_code == 409
    assert got(client)["title"] == "Theirs"


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"title": " "}, "title must be one line"),
        ({"ref": "Group 1"}, "up to 40 small letters, digits and hyphens"),
        ({"format": "panelwright-group/1"}, "the file holds a group, not a group of a workroom"),
        ({"garments": [GROUP["garments"][0]] * 2}, '"lantern-01" for "w-01" is in the group twice'),
        ({"garments": [{**GROUP["garments"][0], "count": 0}]}, "count is 0; the least is 1"),
        ({"longest_lay_cm": 10}, "longest"),
        ({"seconds": 1000}, "seconds is 1000; the most is 120"),
        ({"names": ["Anna"]}, '"names" is not a known field'),
    ],
)
def test_what_no_group_can_be_is_not_kept(client: TestClient, change: Document, sentence: str) -> None:
    told = client.put("/api/groups/group-1", json={"document": {**GROUP, **change}, "what": "a group"})
    assert told.status_code == 400
    assert sentence in told.json()["message"]
    assert listed(client) == []


def test_lengths_with_a_unit_are_kept_as_numbers_which_a_page_reads(client: TestClient) -> None:
    written = {
        **GROUP,
        "longest_lay_cm": "3500 mm",
        "cloths": {"red silk": {"width_cm": "45 in", "price_per_metre": 28}},
    }
    told = {**GROUP, "cloths": {"red silk": {"width_cm": pytest.approx(114.3), "price_per_metre": 28}}}
    assert bring(client, written).json()["groups"] == ["group-1"]
    assert got(client) == told
    again = bring(client, written).json()
    assert (again["groups"], again["unchanged"]) == ([], 1)
    assert put(client, {**written, "ref": "group-2"}).status_code == 200
    assert got(client, "group-2") == {**told, "ref": "group-2"}


def test_a_group_is_not_kept_for_somebody_who_is_not_there(client: TestClient) -> None:
    """Whoever gets the reference next would be bought for."""
    told = put(client, {**GROUP, "garments": [{"design": "lantern-01", "wearer": "w-77"}]})
    assert (told.status_code, listed(client)) == (404, [])


def test_a_page_that_missed_a_removal_is_told_that_the_group_has_changed_and_nothing_is_saved(
    client: TestClient, room: Workroom
) -> None:
    """It shows the group anew then; told that there is no such wearer, it would send the same again and again."""
    seen = put(client).json()["version"]
    assert client.delete("/api/wearers/w-01").status_code == 204
    before, now = got(client), room.current("group", "group-1").number
    assert put(client, {**GROUP, "money": "kr"}, based_on=seen).status_code == 409
    assert put(client, {**GROUP, "money": "kr"}, based_on=now).status_code == 404
    assert got(client) == before
    assert room.current("group", "group-1").number == now


def test_a_group_without_garments_that_comes_in_again_is_there_already(client: TestClient) -> None:
    bare = {name: value for name, value in GROUP.items() if name != "garments"}
    put(client, bare)
    again = bring(client, sent(client)["groups/group-1.json"]).json()
    assert (again["groups"], again["unchanged"]) == ([], 1)
    assert got(client) == bare


def test_a_group_goes_out_and_comes_in_with_its_wearers_and_designs(
    client: TestClient, shelf: BlockShelf, tmp_path: Path
) -> None:
    """A reference that may tell a name goes out as a number here too."""
    body = client.get("/api/wearers/w-01").json()["document"]
    named = {**body, "ref": "anna-1"}
    client.put("/api/wearers/anna-1", json={"document": named, "what": "measured"})
    garments = [*GROUP["garments"], {"design": "moon-05", "wearer": "anna-1", "count": 1, "outer": ""}]
    put(client, {**GROUP, "garments": garments})
    out = sent(client)
    assert [own["wearer"] for own in out["groups/group-1.json"]["garments"]] == ["w-01", "size-88", "w-05"]
    assert "anna" not in json.dumps(out)
    assert sent(client, names=True)["groups/group-1.json"] == got(client)
    with open_workroom(tmp_path / "other.sqlite") as own, elsewhere(own, tmp_path, shelf) as other:
        own.save("wearer", "w-05", json.dumps({**named, "ref": "w-05", "measurements": {}}), "somebody else")
        told = bring(other, *out.values())
        assert told.status_code == 200, told.text
        assert (told.json()["groups"], told.json()["renamed"]) == (["group-1"], [{"ref": "w-05", "now": "w-06"}])
        assert [own["wearer"] for own in got(other)["garments"]] == ["w-01", "size-88", "w-06"]
        assert bring(other, *out.values()).json()["groups"] == []


def test_a_group_that_comes_in_stands_beside_another_of_its_reference(client: TestClient) -> None:
    put(client, {**GROUP, "title": "Ours"})
    put(client, {**GROUP, "ref": "group-2", "title": "Ours too"})
    theirs = [{**GROUP, "title": "Theirs"}, {**GROUP, "ref": "group-3", "title": "Theirs too"}]
    assert sorted(bring(client, *theirs).json()["groups"]) == ["group-3", "group-4"]
    assert listed(client) == [
        ("group-1", "Ours"),
        ("group-2", "Ours too"),
        ("group-3", "Theirs too"),
        ("group-4", "Theirs"),
    ]
    again = bring(client, *theirs).json()
    assert (again["groups"], again["unchanged"]) == ([], 2)


@pytest.mark.parametrize(
    ("garment", "sentence"),
    [
        ({"wearer": "w-77"}, 'of "w-77", whom the workroom does not have: bring in the measurements'),
        ({"design": "drum-77"}, 'of "drum-77", which the workroom does not have: bring it in'),
    ],
)
def test_a_group_of_what_the_workroom_does_not_have_is_refused(
    client: TestClient, garment: Document, sentence: str
) -> None:
    told = bring(client, {**GROUP, "garments": [{**GROUP["garments"][0], **garment}]})
    assert told.status_code == 400
    assert sentence in told.json()["message"]
    assert listed(client) == []


def test_a_wearer_who_is_removed_leaves_every_group_and_no_trace_in_the_file(
    client: TestClient, tmp_path: Path
) -> None:
    body = client.get("/api/wearers/w-01").json()["document"]
    client.put("/api/wearers/wanda-1", json={"document": {**body, "ref": "wanda-1"}, "what": "measured"})
    hers = {"design": "moon-05", "wearer": "wanda-1", "count": 1, "outer": ""}
    put(client, {**GROUP, "garments": [*GROUP["garments"], hers]})
    put(client, {**GROUP, "ref": "group-2", "garments": [hers]})
    assert any(b"wanda" in file.read_bytes() for file in tmp_path.glob("festival.sqlite*"))
    with page_of(client) as page:
        assert client.delete("/api/wearers/wanda-1").status_code == 204
        assert page.hear() == {"say": "changed", "kind": "group"}
    assert got(client) == GROUP
    assert got(client, "group-2")["garments"] == []
    assert not any(b"wanda" in file.read_bytes() for file in tmp_path.glob("festival.sqlite*"))


def test_a_group_that_cannot_be_read_holds_nothing_up(client: TestClient, room: Workroom) -> None:
    """As a later program could have written it."""
    room.keep("group", "group-1", json.dumps({**GROUP, "garments": {"w-02": "lantern-01"}}), "a group")
    assert listed(client) == [("group-1", "group-1")]
    assert "groups/group-1.json" not in sent(client)
    assert client.delete("/api/wearers/w-02").status_code == 204
    assert put(client, {**GROUP, "ref": "group-2"}).status_code == 200
    assert client.delete("/api/groups/group-1").status_code == 204
