"""A traced block: saved as it grows, refused in one sentence while something is missing, checked, trued, printed."""

import io
import json
from typing import Any

import numpy as np
import pikepdf
import pytest
from intake.drawn_pieces import on_paper
from intake.shoulder_pieces import shoulder_table
from plain_block import plain_block
from starlette.testclient import TestClient
from web.traced_pieces import PER_MM, traced

from panelwright.app.drawn_file import read_drawn
from panelwright.intake.drawn_pattern import DrawnPattern

Document = dict[str, Any]
PLACE = "/api/traces/own-01"


@pytest.fixture(scope="module")
def drawn() -> DrawnPattern:
    return on_paper(plain_block(), spacing=10)


def save(client: TestClient, document: Document) -> Document:
    told = client.put(PLACE, json={"document": document, "what": "traced"})
    assert told.status_code == 200, told.text
    saved: Document = told.json()
    return saved


def test_work_in_progress_is_saved_listed_undone_and_forgotten(client: TestClient) -> None:
    begun = {"format": "panelwright-trace/1", "ref": "own-01", "title": "Mine"}
    save(client, begun)
    half = {**begun, "pieces": [{"id": "CF", "edges": [{"points": [[10, 20]]}]}]}
    assert save(client, half)["can_undo"]
    cards = client.get("/api/workroom").json()["traces"]
    assert [(card["ref"], card["title"], card["pieces"]) for card in cards] == [("own-01", "Mine", 1)]
    assert client.post(f"{PLACE}/undo").json()["document"] == begun
    assert client.delete(PLACE).status_code == 204
    assert client.get(PLACE).status_code == 404
    assert client.get("/api/workroom").json()["traces"] == []


def test_the_table_is_what_was_traced(client: TestClient, drawn: DrawnPattern) -> None:
    """Read back as `panelwright own` reads it, each piece has the shape and size that was drawn."""
    save(client, traced(drawn))
    sent = client.get(f"{PLACE}/table.json")
    assert 'filename="own-01.json"' in sent.headers["content-disposition"]
    read = read_drawn(sent.text)
    assert read.scale == 4
    for before, after in zip(drawn.pieces, read.pieces, strict=True):
        for a, b in zip(before.edges, after.edges, strict=True):
            assert (b.kind, b.line) == (a.kind, a.line)
            assert b.curve.length == pytest.approx(a.curve.length, abs=1e-3)
        shift = after.edges[0].curve.start - before.edges[0].curve.start
        for a, b in zip(before.edges, after.edges, strict=True):
            assert np.abs(b.curve.points - shift - a.curve.points).max() < 1e-3


@pytest.mark.parametrize("clockwise", [False, True])
def test_partners_are_told_by_the_numbers_of_the_tracing(
    client: TestClient, drawn: DrawnPattern, clockwise: bool
) -> None:
    document = traced(drawn, clockwise)
    save(client, document)
    told = client.get(f"{PLACE}/own").json()
    assert len(told["partners"]) == len(drawn.pieces) - 1
    assert "drawn-girth" not in {finding["code"] for finding in told["findings"]}  # it is for nobody
    suggested = [finding["remedy"] for finding in told["findings"] if finding["code"].startswith("seam-")]
    assert suggested
    assert not [remedy for remedy in suggested if "file" in remedy or '"' in remedy]  # a page has fields
    edges = {piece["id"]: piece["edges"] for piece in document["pieces"]}
    for partner in told["partners"]:
        sides = [edges[partner[side]["piece"]][partner[side]["edge"] - 1]["line"] for side in "ab"]
        assert sides == [partner["line"]] * 2
        a, b = (f"{partner[side]['piece']}, edge {partner[side]['edge']}" for side in "ab")
        assert [f for f in told["findings"] if f["message"].startswith(f"{a}, is taken to be sewn to {b}, as")]
    if not clockwise:
        return
    confirmed = {**document, "seams": [{key: each[key] for key in ("line", "a", "b")} for each in told["partners"]]}
    save(client, confirmed)
    again = client.get(f"{PLACE}/own").json()
    assert again["partners"] == []
    assert not {"seam-suggested", "seam-doubtful"} & {finding["code"] for finding in again["findings"]}


def test_it_is_checked_against_a_wearer_and_trued_on_request(client: TestClient, drawn: DrawnPattern) -> None:
    uneven = traced(drawn)
    side = uneven["pieces"][1]["edges"]
    side[0]["points"][0] = side[-1]["points"][-1] = [side[0]["points"][0][0], side[0]["points"][0][1] + 6 * PER_MM / 4]
    save(client, uneven)
    plain, true = (client.get(f"{PLACE}/own?wearer=size-88{more}").json() for more in ("", "&true=1"))
    codes = [{finding["code"] for finding in told["findings"]} for told in (plain, true)]
    assert "seam-length" in codes[0]
    assert not {"seam-length", "seam-stretch"} & codes[1]
    girths = [f["subject"] for f in plain["findings"] if f["code"] in ("drawn-girth", "tight", "loose", "ease-unusual")]
    assert len(girths) == len(set(girths)) > 3  # each girth is told, and once
    assert (plain["trued"], true["trued"]) == (False, True)
    assert max(change["most_mm"] for change in true["changes"]) > 1
    assert {piece["id"] for piece in true["pieces"]} == {piece.id for piece in drawn.pieces}


def test_its_sheets_are_printed(client: TestClient, drawn: DrawnPattern) -> None:
    save(client, traced(drawn))
    for scale, least in (("quarter", 1), ("full", 2)):
        sent = client.get(f"{PLACE}/print.pdf?scale={scale}&paper=a4")
        assert sent.headers["content-type"] == "application/pdf"
        with pikepdf.open(io.BytesIO(sent.content)) as pages:
            assert len(pages.pages) >= least


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"measured": None}, "the scale of the picture is not set yet"),
        ({"pieces": []}, "no piece is traced yet"),
        ({"pieces": [{"id": "CF", "edges": [{"points": [[1, 2], [3, 4]]}]}]}, "CF is still open"),
        ({"measured": {"kind": "length", "ends": [[5, 5], [5, 5]], "mm": 10}}, "press two places far apart"),
    ],
)
def test_what_is_missing_is_said_when_it_is_checked(
    client: TestClient, drawn: DrawnPattern, change: Document, sentence: str
) -> None:
    save(client, {**traced(drawn), **change})
    for part in ("own", "table.json", "print.pdf"):
        told = client.get(f"{PLACE}/{part}")
        assert told.status_code == 400
        assert sentence in told.json()["message"]


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"format": "panelwright-drawn/1"}, "not a block that is being traced"),
        ({"pieces": [{"id": "CF", "edges": [{"points": [[1, float("1e9")]]}]}]}, "pieces[1].edges[1].points[1][2]"),
        ({"scale": 3}, "scale"),
        ({"shape": 1}, '"shape" is not a known field'),
    ],
)
def test_what_is_no_tracing_is_not_saved(
    client: TestClient, drawn: DrawnPattern, change: Document, sentence: str
) -> None:
    told = client.put(PLACE, json={"document": {**traced(drawn), **change}, "what": "traced"})
    assert told.status_code == 400
    assert sentence in told.json()["message"]
    assert client.get(PLACE).status_code == 404


def test_it_goes_out_and_comes_in_with_all_other_work(client: TestClient, drawn: DrawnPattern) -> None:
    document = traced(drawn)
    save(client, document)
    everything = client.get("/api/export").content
    client.delete(PLACE)
    brought = client.post("/api/import", content=everything).json()
    assert brought["traces"] == ["own-01"]
    assert json.loads(json.dumps(client.get(PLACE).json()["document"])) == document


def test_traced_notches_and_marks_reach_the_table(client: TestClient, drawn: DrawnPattern) -> None:
    """5 pixels are 1 mm, and the picture's y runs down: the table has them where they were pressed."""
    document = traced(drawn)
    first = document["pieces"][0]
    on = first["edges"][0]["points"][0]
    inner = [sum(point[k] for edge in first["edges"] for point in edge["points"][:-1]) for k in (0, 1)]
    count = sum(len(edge["points"]) - 1 for edge in first["edges"])
    middle = [value / count for value in inner]
    first["notches"] = [{"at": on, "count": 2}]
    first["marks"] = [{"id": "bust-point", "at": middle}]
    save(client, document)
    piece = read_drawn(client.get(f"{PLACE}/table.json").text).pieces[0]
    assert [notch.count for notch in piece.notches] == [2]
    assert piece.notches[0].at == pytest.approx(tuple(piece.edges[0].curve.start), abs=1e-3)
    (mark,) = piece.marks
    apart = (np.array(middle) - on) / PER_MM * [1, -1]
    assert np.array(mark.at) - piece.edges[0].curve.start == pytest.approx(apart, abs=1e-3)
    told = client.get(f"{PLACE}/own").json()
    assert {mark["id"] for mark in told["pieces"][0]["marks"]} >= {"bust-point", "notch-1"}


@pytest.mark.parametrize("clockwise", [False, True])
def test_truing_leaves_the_edges_that_the_maker_left(client: TestClient, clockwise: bool) -> None:
    """Each change is told by the number of the tracing; left there, it is told as left and the shape stays."""
    document = traced(on_paper(plain_block(), noise=0.3, spacing=10), clockwise)
    save(client, document)
    told = client.get(f"{PLACE}/own?true=1").json()
    assert all(change["taken"] and change["other"] for change in told["changes"])
    change = next(each for each in told["changes"] if each["edge"] == "SF.side")
    piece = next(piece for piece in document["pieces"] if piece["id"] == "SF")
    edge = piece["edges"][change["number"] - 1]
    assert edge["line"] == "side"
    edge["as_drawn"] = True
    save(client, document)
    again = client.get(f"{PLACE}/own?true=1").json()
    (left,) = (each for each in again["changes"] if not each["taken"])
    assert (left["edge"], left["number"], left["other"]) == ("SF.side", change["number"], None)
    assert left["most_mm"] == pytest.approx(change["most_mm"], abs=1e-3)
    plain = client.get(f"{PLACE}/own").json()
    shape = [
        next(edge["d"] for piece in answer["pieces"] for edge in piece["edges"] if edge["id"] == "SF.side")
        for answer in (plain, again, told)
    ]
    assert shape[0] == shape[1] != shape[2]
    table = read_drawn(client.get(f"{PLACE}/table.json").text)
    assert [(p.id, e.line) for p in table.pieces for e in p.edges if e.as_drawn] == [("SF", "side")]


def test_an_edge_that_several_share_is_kept_and_told_as_it_was_traced(client: TestClient) -> None:
    """Both stretches of the divided edge are the one edge that was traced; the table has the list."""
    table = shoulder_table()
    document = {**traced(read_drawn(json.dumps(table))), "scale": 1, "seams": table["seams"]}
    document["seams"] = [{key: seam[key] for key in ("line", "a", "b")} for seam in table["seams"]]
    save(client, document)
    told = client.get(f"{PLACE}/own").json()
    assert "edge-divided" in {finding["code"] for finding in told["findings"]}
    numbers = {change["edge"]: change["number"] for change in told["changes"]}
    assert (numbers["F.shoulder"], numbers["F.shoulder-2"], numbers["F.armhole"]) == (4, 4, 5)
    written = json.loads(client.get(f"{PLACE}/table.json").text)["seams"]
    assert [seam["b"] for seam in written] == [seam["b"] for seam in document["seams"]]
