"""Garments of the workroom bought together: as `panelwright buy` lays and counts them, stopped when it is told to."""

import csv
import io
import json
import time
from typing import Any

import pypdfium2
import pytest
from starlette.testclient import TestClient

from panelwright.app.design_file import read_design
from panelwright.app.group import Group, GroupGarment
from panelwright.app.shopping import make_group, shopping_for
from panelwright.body.measurement_file import read_measurements
from panelwright.lay.cloth import Cloth

Document = dict[str, Any]
GARMENTS = [
    {"design": "lantern-01", "wearer": "w-01", "outer": "red silk"},
    {"design": "drum-03", "wearer": "size-88", "count": 2},
]
SILK = {"width_cm": 114, "folded": True, "price_per_metre": 28}


def ended(client: TestClient, **asked: object) -> Document:
    """What became of a group once nothing more comes of it."""
    told = client.post("/api/group", json={"title": "Festival", **asked})
    assert told.status_code == 202, told.text
    job: Document = told.json()
    end = time.monotonic() + 120.0
    while job["state"] in ("waiting", "working") and time.monotonic() < end:
        time.sleep(0.05)
        job = client.get(f"/api/jobs/{job['id']}").json()
    return job


def file(client: TestClient, job: Document, name: str) -> bytes:
    told = client.get(f"/api/jobs/{job['id']}/files/{name}")
    assert told.status_code == 200, told.text
    return told.content


def document(client: TestClient, place: str) -> str:
    return json.dumps(client.get(f"/api/{place}").json()["document"])


def test_a_group_needs_what_the_command_line_buys_for_it(client: TestClient) -> None:
    """The same garments made of the same files by the library, without the workroom."""
    spare = {"cloth_percent": 10}
    job = ended(client, garments=GARMENTS, cloths={"red silk": SILK}, money="EUR", spare=spare)
    assert job["state"] == "ready", job
    wearers = [read_measurements(document(client, f"wearers/{each['wearer']}")) for each in GARMENTS]
    designs = [read_design(document(client, f"designs/{each['design']}")) for each in GARMENTS]
    renamed = {designs[0].finish.cloths.outer: "red silk"}
    garments = (GroupGarment(wearers[0], designs[0], 1, renamed), GroupGarment(wearers[1], designs[1], 2))
    silk = Cloth("red silk", 1140.0, True, price=28.0)
    group = Group("festival", "Festival", garments, (silk,), money="EUR", cloth_spare=0.1)
    wanted = shopping_for(group, make_group(group))
    table = list(csv.DictReader(io.StringIO(file(client, job, "shopping-list.csv").decode("utf-8-sig"))))
    listed = {row["name"]: row for row in table}
    told = {cloth["name"]: cloth for cloth in job["facts"]["cloths"]}
    assert list(told) == [bought.cloth.name for bought in wanted.cloths]
    for bought in wanted.cloths:
        assert f"{bought.to_buy / 1000:.2f} m" in told[bought.cloth.name]["row"]
        assert len(told[bought.cloth.name]["lays"]) == len(bought.lays)
        assert bought.cloth.name in listed
    assert wanted.cost is not None
    assert job["facts"]["total"].startswith(f"In all {wanted.cost:.2f} EUR")
    assert told["red silk"]["record"] == {**SILK, "one_way": False, "shrinkage_percent": 0, "sold_by_cm": 10}
    words = pypdfium2.PdfDocument(file(client, job, "shopping-list.pdf"))[0].get_textpage().get_text_range()
    assert "Festival" in words
    assert "Red silk" in words
    assert file(client, job, "group-lays.pdf").startswith(b"%PDF-")
    for name in (name for cloth in told.values() for name in cloth["lays"]):
        assert file(client, job, name).startswith(b"<")


def test_a_garment_is_cut_after_the_wearers_fitting_notes(client: TestClient) -> None:
    note = {"uid": "n1", "kind": "take-in", "seam": "back-princess", "level": "waist", "amount_cm": 0.8}
    notes = {"format": "panelwright-fitting/1", "wearer": "w-01", "notes": [note]}
    assert client.put("/api/fittings/w-01", json={"document": notes, "what": "taken in"}).status_code == 200
    job = ended(client, garments=GARMENTS)
    assert "Cut after the wearer's fitting notes: A." in job["facts"]["notes"]


def test_it_is_stopped_while_a_lay_is_looked_for(client: TestClient) -> None:
    """Two minutes of search for every lay; it ends at the next word of the search."""
    job = client.post("/api/group", json={"title": "Festival", "garments": GARMENTS, "seconds": 120}).json()
    end = time.monotonic() + 90.0
    while not job["what"].startswith("lay of") and time.monotonic() < end:
        time.sleep(0.05)
        job = client.get(f"/api/jobs/{job['id']}").json()
    assert job["state"] == "working"
    assert 0 < job["done"] <= job["total"]
    assert client.delete(f"/api/jobs/{job['id']}").status_code == 204
    following = ended(client, garments=GARMENTS[:1])  # whose turn comes once the first has ended
    assert following["state"] == "ready"
    assert client.get(f"/api/jobs/{job['id']}").json()["state"] == "stopped"


@pytest.mark.parametrize(
    ("asked", "sentence"),
    [
        ({"garments": []}, "garments has 0 entries; the least is 1"),
        ({"garments": [{"design": "lantern-01"}]}, "wearer is missing"),
        ({"garments": GARMENTS, "spare": {"cloth_percent": 90}}, "cloth_percent"),
        ({"garments": GARMENTS, "seconds": 9999}, "seconds is 9999; the most is 120"),
        ({"garments": GARMENTS, "title": ""}, "title must be one line"),
        ({"garments": GARMENTS, "longest_lay_cm": 1}, "longest"),
        ({"garments": GARMENTS, "cloths": {" ": SILK}}, "a cloth has no name"),
        ({"garments": GARMENTS, "colour": "red"}, "colour"),
        ({"garments": GARMENTS, "units": "ells"}, "ells"),
    ],
)
def test_what_cannot_be_is_refused_at_once(client: TestClient, asked: Document, sentence: str) -> None:
    told = client.post("/api/group", json={"title": "Festival", **asked})
    assert told.status_code == 400
    assert sentence in told.json()["message"]


@pytest.mark.parametrize(
    ("asked", "sentence"),
    [
        ({"garments": [{"design": "lantern-01", "wearer": "w-99"}]}, "w-99"),
        ({"garments": [{"design": "lantern-99", "wearer": "w-01"}]}, "lantern-99"),
        ({"garments": GARMENTS, "cloths": {"red silk": {"width_cm": 30, "folded": True}}}, "across the grain"),
    ],
)
def test_what_cannot_be_made_is_told_with_the_job(client: TestClient, asked: Document, sentence: str) -> None:
    job = ended(client, **asked)
    assert job["state"] == "refused"
    assert sentence in job["message"]


def test_what_is_said_of_cloths_and_notions_that_nothing_needs_is_passed_over(client: TestClient) -> None:
    job = ended(client, garments=GARMENTS, cloths={"velvet": SILK}, notion_prices={"tassel": 3})
    assert job["state"] == "ready", job


def test_a_price_alone_leaves_a_cloth_as_wide_as_it_was(client: TestClient) -> None:
    """Interfacing is taken to be narrower than cloth."""
    plain = ended(client, garments=GARMENTS[:1])["facts"]["cloths"]
    priced = ended(client, garments=GARMENTS[:1], cloths={"interfacing": {"price_per_metre": 5}})["facts"]["cloths"]
    assert [cloth["row"][:4] for cloth in priced] == [cloth["row"][:4] for cloth in plain]
    assert next(cloth["row"][1] for cloth in plain if cloth["name"] == "interfacing") == "90.0 cm*"
    assert next(cloth["row"][5] for cloth in priced if cloth["name"] == "interfacing") == "5.00 a metre"
