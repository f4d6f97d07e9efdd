"""Lays cloth by cloth, sheets for an audience, and the private sign-off page, by HTTP."""

import io
import re
import time
from typing import Any

import pikepdf
import pypdfium2
import pytest
from starlette.testclient import TestClient

Document = dict[str, Any]
LANTERN, WORN = "/api/designs/lantern-01", "wearer=w-01"


def lays(client: TestClient) -> Document:
    told = client.get(f"{LANTERN}/lays?{WORN}")
    assert told.status_code == 200, told.text
    document: Document = told.json()
    return document


def say_of_cloth(client: TestClient, **cloths: Document) -> None:
    document = client.get(LANTERN).json()["document"]
    changed = {"document": {**document, "cloth_to_buy": cloths}, "what": "other cloth"}
    assert client.put(LANTERN, json=changed).status_code == 200


def letters(svg: str) -> str:
    return " ".join(re.findall(r">([^<>]+)</text>", svg))


def test_every_cloth_has_its_lay_and_its_picture(client: TestClient) -> None:
    told = lays(client)
    assert [lay["cloth"] for lay in told["lays"]] == ["outer", "facing", "interfacing"]
    assert told["refused"] == []
    for lay in told["lays"]:
        assert lay["to_buy_mm"] % 100 == 0  # cloth is sold by the 10 cm
        assert 0 <= lay["to_buy_mm"] - lay["length_mm"] < 100
        assert 0 < lay["use"] < 1
        assert lay["assumed"]
        picture = client.get(f"{LANTERN}/lays/{lay['picture']}.svg?{WORN}")
        assert picture.headers["content-type"].startswith("image/svg+xml")
        assert "on the fold" in letters(picture.text)
        assert "w-01" not in picture.text


def test_narrower_cloth_makes_a_longer_lay(client: TestClient) -> None:
    before = lays(client)["lays"][0]
    say_of_cloth(client, outer={"width_cm": 90})
    after = lays(client)["lays"][0]
    assert (after["width_mm"], after["assumed"]) == (900, False)
    assert after["length_mm"] > before["length_mm"]
    say_of_cloth(client, outer={"width_cm": 90, "folded": False, "one_way": True})
    spread = lays(client)["lays"][0]
    assert not spread["folded"]
    assert any(note.startswith("One-way cloth") for note in spread["notes"])


def test_cloth_too_narrow_is_told_beside_the_others(client: TestClient) -> None:
    say_of_cloth(client, outer={"width_cm": 30, "folded": True})
    told = lays(client)
    assert [lay["cloth"] for lay in told["lays"]] == ["facing", "interfacing"]
    (refused,) = told["refused"]
    assert (refused["cloth"], refused["width_mm"]) == ("outer", 300)
    assert "across the grain" in refused["message"]
    assert refused["remedy"].startswith("Spread it out, ") or refused["remedy"].startswith("Take cloth at least ")
    assert '"' not in refused["remedy"]  # a page has a switch, and no field names


def test_what_is_not_there_is_refused(client: TestClient) -> None:
    assert client.get(f"{LANTERN}/lays/4.svg?{WORN}").status_code == 400
    assert client.get(f"{LANTERN}/lays?wearer=w-99").status_code == 404
    assert client.get(f"{LANTERN}/lays").status_code == 400
    assert client.get(f"{LANTERN}/sign-off.pdf?{WORN}&paper=b5").json()["where"] == "paper"


@pytest.mark.parametrize("scale", ["quarter", "full"])
def test_sheets_for_an_audience_name_nobody(client: TestClient, scale: str) -> None:
    asked = f"{WORN}&scale={scale}"
    named, unnamed = (client.get(f"{LANTERN}/sheets?{asked}{more}").json() for more in ("", "&audience=1"))
    assert [sheet["title"] for sheet in named["sheets"]] == [sheet["title"] for sheet in unnamed["sheets"]]
    assert "w-01" in client.get(f"{LANTERN}/sheets/1.svg?{asked}").text
    for sheet in unnamed["sheets"]:
        assert "w-01" not in client.get(f"{LANTERN}/sheets/{sheet['number']}.svg?{asked}&audience=1").text
    for more, is_named in (("", True), ("&audience=1", False)):
        printed = client.get(f"{LANTERN}/print.pdf?{asked}{more}")
        assert ("w-01" in printed.headers["content-disposition"]) == is_named
        with pikepdf.open(io.BytesIO(printed.content)) as document:
            assert len(document.pages) == len(named["sheets"])
            assert ("w-01" in str(document.docinfo["/Title"])) == is_named


def test_paper_and_units_are_as_asked(client: TestClient) -> None:
    asked = f"{LANTERN}/sheets?{WORN}&scale=full&paper=letter&units=inches"
    sheets = client.get(asked).json()["sheets"]
    assert {(sheet["width"], sheet["height"]) for sheet in sheets} == {(215.9, 279.4)}  # 8.5 by 11 inches
    assert client.get(asked.replace("letter", "b5")).status_code == 400


def test_the_order_of_work_names_nobody_before_an_audience(client: TestClient) -> None:
    for more, is_named in (("", True), ("&audience=1", False)):
        told = client.get(f"{LANTERN}/order-of-work.pdf?{WORN}&paper=letter{more}")
        assert ("w-01" in told.headers["content-disposition"]) == is_named
        with pikepdf.open(io.BytesIO(told.content)) as document:
            assert ("w-01" in str(document.docinfo["/Title"])) == is_named
            assert [float(value) for value in document.pages[0].mediabox[2:]] == pytest.approx((612, 792), abs=0.02)
        read = pypdfium2.PdfDocument(told.content)
        text = " ".join(page.get_textpage().get_text_range() for page in read)
        assert "Side seams" in text
        assert ("w-01" in text) == is_named


def test_the_sign_off_page_says_that_it_is_private(client: TestClient) -> None:
    page = client.get(f"{LANTERN}/sign-off.pdf?{WORN}&paper=letter")
    assert page.headers["content-type"] == "application/pdf"
    assert "private" in page.headers["content-disposition"]
    with pikepdf.open(io.BytesIO(page.content)) as document:
        assert "w-01, sign-off, private" in str(document.docinfo["/Title"])
        assert [float(value) for value in document.pages[0].mediabox[2:]] == pytest.approx((612, 792), abs=0.02)


def test_a_shorter_lay_is_looked_for_watched_and_stopped(client: TestClient) -> None:
    """What is found stays for the page, its picture and the sign-off page; another width begins anew."""
    say_of_cloth(client, outer={"width_cm": 96, "folded": True})
    address = f"{LANTERN}/lays/1/search?{WORN}"
    first = client.get(address).json()
    assert first["search"] is None
    begun = client.post(address, json={"seconds": 300}).json()
    assert (begun["first"]["length_mm"], begun["search"]["seconds"]) == (first["length_mm"], 300)
    end = time.monotonic() + 60.0
    told = begun
    while told["search"]["going_on"] and told["made"] == "first" and time.monotonic() < end:
        time.sleep(0.1)
        told = client.get(address).json()
    assert told["search"]["going_on"]
    while client.delete(address).json()["search"]["going_on"]:
        time.sleep(0.02)
    stopped = client.get(address).json()
    assert stopped["search"]["share"] < 1.0
    assert 0.0 < stopped["search"]["elapsed"] < 120.0
    assert stopped["length_mm"] <= told["length_mm"] <= first["length_mm"]
    assert lays(client)["lays"][0] == stopped
    picture = client.get(f"{LANTERN}/lays/1.svg?{WORN}").text
    assert "on the fold" in letters(picture) or "opened" in letters(picture)
    inches = client.get(f"{address}&units=inches").json()
    assert inches["length_mm"] == stopped["length_mm"]
    say_of_cloth(client, outer={"width_cm": 133})
    assert lays(client)["lays"][0]["search"] is None


@pytest.mark.parametrize(
    "body", [{"seconds": 0}, {"seconds": 6000}, {"seconds": "long"}, {"seconds": True}, {"seconds": None}]
)
def test_a_search_of_no_sensible_time_is_refused(client: TestClient, body: Document) -> None:
    told = client.post(f"{LANTERN}/lays/1/search?{WORN}", json=body)
    assert told.status_code == 400
    assert told.json()["message"].startswith("a search on the page takes more than 0")
    assert client.post(f"{LANTERN}/lays/9/search?{WORN}").status_code == 400


def test_pieces_are_moved_by_hand_kept_and_begun_anew(client: TestClient) -> None:
    address = f"{LANTERN}/lays/1/hand?{WORN}"
    first = client.get(address).json()
    assert (first["moves"], first["faults"]) == ([], [])
    assert first["mine"] == first["planned"]
    side = next(piece for piece in first["pieces"] if not piece["on_fold"])
    move = {"piece": side["piece"], "number": side["number"], "turned": True, "x": 800.0, "y": 0.0}
    moved = client.post(address, json={"moves": [move], "based_on": first["revision"]}).json()
    assert moved["faults"] == []
    assert moved["mine"]["length_mm"] == pytest.approx(side["box"][2] + 800.0, abs=0.1)
    assert client.get(f"{address}&units=inches").json()["moves"] == [move]
    laid = lays(client)["lays"][0]
    assert (laid["made"], laid["length_mm"]) == ("hand", moved["mine"]["length_mm"])
    assert laid["found"]["length_mm"] == first["planned"]["length_mm"]
    assert client.delete(address).json()["moves"] == []
    assert lays(client)["lays"][0]["made"] == "first"
    strange = {"moves": [{**move, "piece": "SLEEVE"}], "based_on": client.get(address).json()["revision"]}
    assert client.post(address, json=strange).status_code == 400


@pytest.mark.parametrize(("method", "what"), [("POST", "hand"), ("POST", "search")])
def test_more_than_a_document_is_refused(client: TestClient, method: str, what: str) -> None:
    """The limit that docs/board.md tells: 1 MB."""
    told = client.request(method, f"{LANTERN}/lays/1/{what}?{WORN}", content=b" " * 1_000_001)
    assert (told.status_code, told.json()["where"]) == (400, "body")
    assert told.json()["message"].startswith("what was sent is larger than 1 MB")


@pytest.mark.parametrize("name", ["print", "order-of-work", "sign-off", "toile"])
def test_pages_are_shown_and_saved_under_a_name_of_their_own(client: TestClient, name: str) -> None:
    told = client.get(f"{LANTERN}/{name}.pdf?{WORN}")
    assert told.headers["content-type"] == "application/pdf"
    assert re.fullmatch(r'inline; filename="lantern-01-w-01-[a-z0-9-]+\.pdf"', told.headers["content-disposition"])
    with pikepdf.open(io.BytesIO(told.content)) as document:
        assert len(document.pages) >= 1
