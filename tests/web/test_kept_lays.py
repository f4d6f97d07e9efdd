"""Lays that were moved by hand or found by a search stay with their garment, and with no other state of it."""

import io
import json
import time
import zipfile
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
from starlette.testclient import TestClient
from web.page import ADDRESS, page_of

from panelwright.app.block_shelf import BlockShelf
from panelwright.app.workroom_start import open_workroom
from panelwright.cli.main import main
from panelwright.store.workroom import Workroom
from panelwright.web.application import create_application

Document = dict[str, Any]
LANTERN, WORN = "/api/designs/lantern-01", "wearer=w-01"
HAND = f"{LANTERN}/lays/1/hand?{WORN}"


def way(what: str) -> str:
    return HAND.replace("/hand", f"/hand/{what}")


def lay(client: TestClient, wearer: str = "w-01", more: str = "") -> Document:
    """Of the outer cloth."""
    told = client.get(f"{LANTERN}/lays?wearer={wearer}{more}")
    assert told.status_code == 200, told.text
    own: Document = told.json()["lays"][0]
    return own


def move(client: TestClient, x: float, piece: int = 0, based_on: str | None = None) -> Document:
    """Move one of the pieces that are not on the fold along the cloth, in a free stretch of it."""
    told = client.get(HAND).json()
    free = [each for each in told["pieces"] if not each["on_fold"]][piece]
    single = {"piece": free["piece"], "number": free["number"], "x": x}
    answer = client.post(HAND, json={"moves": [single], "based_on": based_on or told["revision"]})
    assert answer.status_code == 200, answer.text
    document: Document = answer.json()
    return document


def say_of_cloth(client: TestClient, **cloths: Document) -> None:
    document = client.get(LANTERN).json()["document"]
    changed = {"document": {**document, "cloth_to_buy": cloths}, "what": "other cloth"}
    assert client.put(LANTERN, json=changed).status_code == 200


def search(client: TestClient) -> Document:
    """Look for a shorter lay until one is found, and stop."""
    address = HAND.replace("/hand", "/search")
    told = client.post(address, json={"seconds": 300}).json()
    end = time.monotonic() + 90.0
    while told["made"] == "first" and told["search"]["going_on"] and time.monotonic() < end:
        time.sleep(0.05)
        told = client.get(address).json()
    while told["search"]["going_on"]:
        told = client.delete(address).json()
    assert told["made"] == "found"
    document: Document = told
    return document


def restarted(room: Workroom, tmp_path: Path, shelf: BlockShelf) -> TestClient:
    """Another program on the same file."""
    return TestClient(create_application(room, tmp_path / "page", shelf), base_url=ADDRESS)


def test_a_lay_moved_by_hand_is_there_after_a_restart_and_undo_is_too(
    client: TestClient, room: Workroom, shelf: BlockShelf, tmp_path: Path
) -> None:
    first = lay(client)
    move(client, 700.0)
    moved = move(client, 1500.0, piece=1)
    assert moved["faults"] == []
    before = lay(client)
    assert (before["made"], before["length_mm"]) == ("hand", moved["mine"]["length_mm"])
    assert before["length_mm"] > first["length_mm"] + 1000.0
    with restarted(room, tmp_path, shelf) as again:
        assert lay(again) == before
        assert again.get(HAND).json() == moved
        back = again.post(way("undo")).json()
        assert (len(back["moves"]), back["can_undo"], back["can_redo"]) == (1, True, True)
        assert lay(again)["length_mm"] < before["length_mm"]
        assert again.post(way("redo")).json() == moved
    assert len(room.history("lay", "lantern-01/w-01")) == 1  # of what is written so often no versions stay


def test_a_lay_found_by_a_search_is_there_after_a_restart(
    client: TestClient, room: Workroom, shelf: BlockShelf, tmp_path: Path
) -> None:
    say_of_cloth(client, outer={"width_cm": 96, "folded": True})
    first = lay(client)
    found = search(client)
    assert found["length_mm"] < first["length_mm"]
    picture = f"{LANTERN}/lays/1.svg?{WORN}"
    drawn = client.get(picture).text
    with restarted(room, tmp_path, shelf) as again:
        told = lay(again)
        assert {**told, "search": None} == {**found, "search": None}
        assert (told["search"]["going_on"], told["search"]["seconds"]) == (False, None)
        assert again.get(picture).text == drawn
        assert lay(again, more="&units=inches")["length_mm"] == found["length_mm"]
    assert lay(client, wearer="w-02")["made"] == "first"


def test_the_sheets_and_the_length_to_buy_are_those_of_the_hands_lay(client: TestClient) -> None:
    before = words(client.get(f"{LANTERN}/sign-off.pdf?{WORN}"))
    move(client, 1500.0)
    own = lay(client)
    to_buy = f"{own['to_buy_mm'] / 10:.1f} cm"
    sign_off = words(client.get(f"{LANTERN}/sign-off.pdf?{WORN}"))
    assert to_buy in sign_off
    assert to_buy not in before
    printed = words(client.get(f"{LANTERN}/lays.pdf?{WORN}&paper=a3"))
    assert f"buy {to_buy}" in printed
    assert f"{own['length_mm'] / 10:.1f} cm long" in printed
    assert "w-01" in printed
    assert "w-01" not in words(client.get(f"{LANTERN}/lays.pdf?{WORN}&paper=a3&audience=1"))


def words(told: Any) -> str:
    assert told.status_code == 200, told.text
    pages = pypdfium2.PdfDocument(told.content)
    return " ".join(" ".join(page.get_textpage().get_text_range() for page in pages).split())


def test_other_cloth_or_other_pieces_make_it_a_lay_for_an_earlier_state(client: TestClient) -> None:
    say_of_cloth(client, outer={"width_cm": 140, "folded": True})
    moved = move(client, 1500.0)
    long = f"{moved['mine']['length_mm'] / 10:.1f} cm long, moved by hand"
    say_of_cloth(client, outer={"width_cm": 150, "folded": True, "one_way": True})
    other = lay(client)
    assert (other["made"], client.get(HAND).json()["moves"]) == ("first", [])
    assert long in other["earlier"]
    assert "cloth 140.0 cm wide and cloth that may lie either way" in other["earlier"]
    assert "pieces" not in other["earlier"]
    for nothing in ("undo", "redo"):  # moved nothing back, so that nothing is kept for this state
        assert client.post(way(nothing)).json()["moves"] == []
    assert lay(client)["earlier"] == other["earlier"]
    assert "55 1/8 in wide" in lay(client, more="&units=inches")["earlier"]
    say_of_cloth(client, outer={"width_cm": 140, "folded": True, "price_per_metre": 9})
    again = lay(client)  # what it costs moves no piece
    assert (again["made"], again["earlier"]) == ("hand", None)
    assert again["cost"] == pytest.approx(9 * again["to_buy_mm"] / 1000, abs=0.01)
    document = client.get(LANTERN).json()["document"]
    wider = {**document, "block": {"ease_cm": {"waist": 5}}}
    assert client.put(LANTERN, json={"document": wider, "what": "wider"}).status_code == 200
    assert "the pieces as they were" in lay(client)["earlier"]
    client.post(f"{LANTERN}/undo")
    assert lay(client)["made"] == "hand"
    client.post(f"{LANTERN}/redo")
    assert client.delete(f"{LANTERN}/lays/1/earlier?{WORN}").json()["earlier"] is None
    client.post(f"{LANTERN}/undo")
    assert lay(client)["made"] == "first"


def test_fitting_notes_and_measurements_change_the_pieces(client: TestClient) -> None:
    move(client, 1500.0)
    note = {"uid": "n1", "kind": "take-in", "seam": "back-princess", "level": "waist", "amount_cm": 0.8}
    notes = {"format": "panelwright-fitting/1", "wearer": "w-01", "notes": [note]}
    assert client.put("/api/fittings/w-01", json={"document": notes, "what": "taken in"}).status_code == 200
    assert "the pieces as they were" in lay(client)["earlier"]
    client.put("/api/fittings/w-01", json={"document": {**notes, "notes": [{**note, "off": True}]}, "what": "off"})
    assert lay(client)["made"] == "hand"


def test_pages_that_show_the_garment_are_told_and_moves_on_an_older_state_are_refused(client: TestClient) -> None:
    seen = client.get(HAND).json()["revision"]
    with page_of(client) as page, page_of(client) as other:
        page.open("lantern-01")
        other.open("lantern-01", wearer="w-02")
        move(client, 700.0)
        assert page.hear() == {"say": "changed", "kind": "lay"}
        other.open("lantern-01", wearer="w-02")  # whose next answer is this one: it has heard nothing
    refused = client.post(HAND, json={"moves": [{"piece": "CF", "number": 0, "x": 5.0}], "based_on": seen})
    assert (refused.status_code, refused.json()["where"]) == (409, "moves")
    assert "on another page" in refused.json()["message"]


def test_moves_on_a_lay_that_a_search_has_bettered_meanwhile_are_taken(client: TestClient) -> None:
    say_of_cloth(client, outer={"width_cm": 96, "folded": True})
    seen = client.get(HAND).json()
    search(client)
    moved = move(client, 900.0, based_on=seen["revision"])
    assert moved["pieces"] == seen["pieces"]
    assert moved["planned"]["length_mm"] < seen["planned"]["length_mm"]
    assert client.delete(HAND).json()["planned"] == moved["planned"]


def test_lays_go_out_and_come_in_with_their_garment(client: TestClient, shelf: BlockShelf, tmp_path: Path) -> None:
    move(client, 1500.0)
    own = lay(client)
    exported = client.get("/api/export").content
    with zipfile.ZipFile(io.BytesIO(exported)) as archive:
        document = json.loads(archive.read("lays/lantern-01/w-01.json"))
    assert (document["design"], document["wearer"]) == ("lantern-01", "w-01")
    with open_workroom(tmp_path / "other.sqlite") as elsewhere, restarted(elsewhere, tmp_path, shelf) as other:
        told = other.post("/api/import", content=exported).json()
        assert told["lays"] == ["lantern-01/w-01"]
        assert lay(other) == own
        assert other.post("/api/import", content=exported).json()["lays"] == []
        say_of_cloth(other, outer={"width_cm": 120})
        move(other, 800.0)  # for other cloth: it stays beside what comes in
        newer = lay(other)
        changed = json.loads(json.dumps(document))
        changed["lays"][0]["hand"]["steps"][0][0]["x"] = 1400.0
        assert other.post("/api/import", content=json.dumps(changed).encode()).json()["lays"] == ["lantern-01/w-01"]
        assert lay(other) == newer
        other.post(f"{LANTERN}/undo")
        assert lay(other)["length_mm"] == pytest.approx(own["length_mm"] - 100.0, abs=0.11)
        strange = {**document, "wearer": "w-77"}
        refused = other.post("/api/import", content=json.dumps(strange).encode())
        assert "the lays are of" in refused.json()["message"]
        refused = other.post("/api/import", content=json.dumps({**document, "design": "drum-77"}).encode())
        assert "which the workroom does not have: bring it in" in refused.json()["message"]


@pytest.mark.parametrize("fitted", [False, True])
def test_a_lay_that_went_out_is_printed_with_the_pattern_made_from_the_files(
    client: TestClient, tmp_path: Path, capsys: pytest.CaptureFixture[str], fitted: bool
) -> None:
    """The pieces that the board draws and those that the command line makes of the same files are the same."""
    if fitted:
        note = {"uid": "n1", "kind": "take-in", "seam": "back-princess", "level": "waist", "amount_cm": 0.8}
        notes = {"format": "panelwright-fitting/1", "wearer": "w-01", "notes": [note]}
        assert client.put("/api/fittings/w-01", json={"document": notes, "what": "taken in"}).status_code == 200
    move(client, 1500.0)
    own = lay(client)
    with zipfile.ZipFile(io.BytesIO(client.get("/api/export").content)) as archive:
        archive.extractall(tmp_path / "sent")
    words = ["make", "wearers/w-01.json", "designs/lantern-01.json", "--lays", "lays/lantern-01/w-01.json"]
    given = [words[0], *(word if word[0] == "-" else str(tmp_path / "sent" / word) for word in words[1:])]
    out = tmp_path / "out"
    with_notes = ["--fitting", str(tmp_path / "sent" / "fittings" / "w-01.json")]
    assert main([*given, *(with_notes if fitted else []), "--out", str(out), "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["laid_as_kept"] == [own["cloth"]]
    drawn = (out / "lay.svg").read_text(encoding="utf-8")
    assert f"{own['length_mm'] / 10:.1f} cm long" in drawn
    if fitted:  # the pieces without the notes are others
        assert main([*given, "--out", str(out)]) == 2
        assert "is kept for the pieces as they were, which is not how it is cut now" in capsys.readouterr().err
        assert (out / "lay.svg").read_text(encoding="utf-8") == drawn


def test_lays_of_garments_whose_names_run_together_go_out_and_come_in(
    client: TestClient, room: Workroom, shelf: BlockShelf, tmp_path: Path
) -> None:
    """`lantern` on `b-w-01` and `lantern-b` on `w-01`."""
    move(client, 1500.0)
    kept = json.loads(room.current("lay", "lantern-01/w-01").document or "")
    garment, body = (client.get(f"/api/{of}").json()["document"] for of in ("designs/lantern-01", "wearers/w-01"))
    pairs = [("lantern", "b-w-01"), ("lantern-b", "w-01")]
    sent = [{**garment, "ref": design} for design, _ in pairs] + [{**body, "ref": "b-w-01"}]
    for document in (*sent, *({**kept, "design": design, "wearer": wearer} for design, wearer in pairs)):
        assert client.post("/api/import", content=json.dumps(document).encode()).status_code == 200
    exported = client.get("/api/export?names=1").content
    with zipfile.ZipFile(io.BytesIO(exported)) as archive:
        names = archive.namelist()
    assert {"lays/lantern/b-w-01.json", "lays/lantern-b/w-01.json"} < set(names)
    assert len(set(names)) == len(names)
    with open_workroom(tmp_path / "other.sqlite") as elsewhere, restarted(elsewhere, tmp_path, shelf) as other:
        told = other.post("/api/import", content=exported)
        assert told.status_code == 200, told.text
        assert {"lantern/b-w-01", "lantern-b/w-01"} < set(told.json()["lays"])


def test_kept_lays_that_cannot_be_read_are_told_and_hold_nothing_up(
    client: TestClient, room: Workroom, shelf: BlockShelf, tmp_path: Path
) -> None:
    """As a later program could have written them."""
    move(client, 1500.0)
    with zipfile.ZipFile(io.BytesIO(client.get("/api/export").content)) as archive:
        sent = archive.read("lays/lantern-01/w-01.json")
    kept = room.current("lay", "lantern-01/w-01").document or ""
    room.keep("lay", "lantern-01/w-01", kept.replace('"searches"', '"looked"'), "a lay")
    told = client.get(f"{LANTERN}/lays?{WORN}").json()
    assert "lays cannot be read" in told["fault"]
    assert told["lays"][0]["made"] == "first"
    exported = client.get("/api/export").content
    with open_workroom(tmp_path / "other.sqlite") as elsewhere, restarted(elsewhere, tmp_path, shelf) as other:
        assert other.post("/api/import", content=exported).status_code == 200
    assert client.post("/api/import", content=sent).status_code == 200
    assert (lay(client)["made"], client.get(f"{LANTERN}/lays?{WORN}").json()["fault"]) == ("hand", "")


def test_a_lay_in_a_file_that_cannot_be_cut_is_not_cut_by(client: TestClient) -> None:
    """Every piece where the first one lies: the true outlines are looked at whoever wrote the file."""
    move(client, 1500.0)
    with zipfile.ZipFile(io.BytesIO(client.get("/api/export").content)) as archive:
        document = json.loads(archive.read("lays/lantern-01/w-01.json"))
    places = document["lays"][0]["hand"].pop("places")
    document["lays"][0] |= {"hand": None, "found": [{**place, "x": 0.0, "y": 0.0} for place in places]}
    del document["lays"][0]["hand"]
    assert client.post("/api/import", content=json.dumps(document).encode()).status_code == 200
    assert lay(client)["made"] == "first"


def test_lays_are_removed_with_their_wearer(client: TestClient, room: Workroom) -> None:
    move(client, 1500.0)
    assert client.delete("/api/wearers/w-01").status_code == 204
    assert room.history("lay", "lantern-01/w-01") == ()
