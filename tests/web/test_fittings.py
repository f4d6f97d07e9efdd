"""A wearer's fitting notes in the workroom: every change a version, the garment drawn on the fitted block, private."""

import io
import json
import zipfile
from typing import Any

import pikepdf
import pypdfium2
import pytest
from starlette.testclient import TestClient
from web.page import Page, page_of

PLACE = "/api/fittings/w-01"
TAKE_IN = {"uid": "n1", "kind": "take-in", "seam": "back-princess", "level": "waist", "amount_cm": 0.8}


def document(*notes: dict[str, Any], wearer: str = "w-01") -> dict[str, Any]:
    return {"format": "panelwright-fitting/1", "wearer": wearer, "notes": list(notes)}


def save(client: TestClient, *notes: dict[str, Any], wearer: str = "w-01") -> dict[str, Any]:
    body = {"document": document(*notes, wearer=wearer), "what": "taken in"}
    told = client.put(f"/api/fittings/{wearer}", json=body)
    assert told.status_code == 200, told.text
    answer: dict[str, Any] = told.json()
    return answer


def waist(told: dict[str, Any]) -> float:
    """Finished girth of the waist as the page is told it, mm."""
    return float(next(level for level in told["levels"] if level["id"] == "waist")["finished_girth"])


def waist_width(told: dict[str, Any], piece: str) -> float:
    """Straight distance between the ends of a piece's waist line, mm."""
    shown = next(each for each in told["pieces"] if each["id"] == piece)
    path = next(each["d"] for each in shown["inside"] if each["id"] == "waist")
    numbers = [float(each) for each in path.replace("M", " ").replace("C", " ").replace(",", " ").split()]
    (x0, y0), (x1, y1) = numbers[:2], numbers[-2:]
    return float(((x0 - x1) ** 2 + (y0 - y1) ** 2) ** 0.5)


def fitting_sheet(client: TestClient, more: str) -> str:
    """The words on the first page of the toile's fitting sheet."""
    told = client.get(f"/api/designs/lantern-01/toile.pdf?wearer=w-01&sheets=fitting&{more}")
    assert told.status_code == 200, told.text
    return " ".join(pypdfium2.PdfDocument(told.content)[0].get_textpage().get_text_range().split())


def test_the_garment_is_drawn_on_the_fitted_block_and_undo_gives_it_back(client: TestClient) -> None:
    with page_of(client) as page:
        plain = page.open("lantern-01")
    save(client, TAKE_IN)
    with page_of(client) as page:
        taken_in = page.open("lantern-01")
    for piece in ("SB", "CB"):
        assert waist_width(plain, piece) - waist_width(taken_in, piece) == pytest.approx(8.0, abs=0.3)
    for piece in ("CF", "SF"):
        assert waist_width(plain, piece) == pytest.approx(waist_width(taken_in, piece), abs=0.05)
    save(client, {**TAKE_IN, "off": True})
    with page_of(client) as page:
        off = page.open("lantern-01")
    assert [each["edges"] for each in off["pieces"]] == [each["edges"] for each in plain["pieces"]]
    assert client.post(f"{PLACE}/undo").json()["document"]["notes"] == [TAKE_IN]


def test_a_page_that_shows_the_wearer_is_told(client: TestClient, page: Page) -> None:
    page.open("lantern-01")
    save(client, TAKE_IN)
    assert page.hear()["say"] == "changed"


def test_notes_are_told_in_words_with_the_seams_of_the_design(client: TestClient) -> None:
    empty = client.get("/api/designs/lantern-01/fitting?wearer=w-01").json()
    assert (empty["document"], empty["version"], empty["labels"]) == (None, 0, {})
    assert {"front-princess", "side", "back-princess"} <= {seam["id"] for seam in empty["seams"]}
    save(client, TAKE_IN)
    told = client.get("/api/designs/lantern-01/fitting?wearer=w-01&units=inches").json()
    assert told["labels"]["n1"] == "Take in the back princess seam at the waist by 5/16 in on each side"
    assert client.get("/api/designs/lantern-01/fitting?wearer=nobody").status_code == 404


def test_notes_are_told_in_the_unit_of_each_reader(client: TestClient) -> None:
    """2.54 cm are an inch; one sheet after the other, from the same shelf."""
    save(client, {"uid": "n1", "kind": "sway-back", "amount_cm": 2.54})
    for units, words in (("inches", "a wedge of 1 in out"), ("cm", "a wedge of 2.54 cm out")):
        assert words in fitting_sheet(client, f"units={units}")


def test_the_toile_before_an_audience_says_nothing_of_the_wearer(client: TestClient) -> None:
    save(client, TAKE_IN)
    named, unnamed = (fitting_sheet(client, more) for more in ("", "audience=1"))
    assert "wearer w-01" in named
    assert "Already in this block: Take in the back princess" in named
    for words in ("w-01", "Already in this block", "Take in"):
        assert words not in unnamed


def test_a_note_that_this_block_cannot_take_is_a_finding_and_stops_nothing(client: TestClient) -> None:
    save(
        client, TAKE_IN, {"uid": "n2", "kind": "take-in", "seam": "front-underarm", "level": "waist", "amount_cm": 0.5}
    )
    with page_of(client) as page:
        told = page.open("lantern-01")
    (found,) = (each for each in told["findings"] if each["code"] == "note-left-out")
    assert found["subject"] == "n2"
    assert "no front underarm seam" in found["message"]
    assert "for every design" in found["remedy"]


def test_absurd_notes_are_refused_and_stale_ones_too(client: TestClient) -> None:
    def put(notes: list[dict[str, Any]], **more: Any) -> Any:
        return client.put(PLACE, json={"document": document(*notes), "what": "x", **more})

    refused = put([{**TAKE_IN, "amount_cm": 12}])
    assert refused.status_code == 400
    assert "give 0.1 to 4 cm" in refused.json()["message"]
    version = save(client, TAKE_IN)["version"]
    assert put([], based_on=version - 1 or 99).status_code == 409
    assert put([], based_on=version).status_code == 200


def test_notes_go_with_their_wearer(client: TestClient) -> None:
    """Exported beside the measurements, and taken out of the file when the wearer is."""
    save(client, TAKE_IN)
    with zipfile.ZipFile(io.BytesIO(client.get("/api/export").content)) as archive:
        exported = json.loads(archive.read("fittings/w-01.json"))
    assert exported["notes"] == [TAKE_IN]
    assert client.delete("/api/wearers/w-01").status_code == 204
    assert client.get(PLACE).status_code == 404
    assert client.get(f"{PLACE}/versions").status_code == 404


@pytest.mark.parametrize("sheets", ["fitting", "quarter"])
def test_the_toile_is_printed_on_the_fitted_block(client: TestClient, sheets: str) -> None:
    save(client, TAKE_IN)
    told = client.get(f"/api/designs/lantern-01/toile.pdf?wearer=w-01&sheets={sheets}&paper=letter")
    assert told.status_code == 200, told.text
    with pikepdf.open(io.BytesIO(told.content)) as document:
        left, bottom, *size = (round(float(value)) for value in document.pages[0].mediabox)
        assert (left, bottom, sorted(size)) == (0, 0, [612, 792])  # Letter, on its side where that takes fewer pages
    if sheets == "fitting":
        page = pypdfium2.PdfDocument(told.content)[0]
        assert "Already in this block: Take in the back princess" in page.get_textpage().get_text_range()
    assert client.get("/api/designs/lantern-01/toile.pdf?wearer=w-01&sheets=huge").status_code == 400
