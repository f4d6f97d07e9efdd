"""Pictures and sheets of a design on a wearer."""

import io
from xml.etree import ElementTree

import pikepdf
import pytest
from starlette.testclient import TestClient

DESIGN = "/api/designs/lantern-01"


def size_mm(svg: str) -> tuple[float, float]:
    """Width and height of a picture, which states them in mm."""
    root = ElementTree.fromstring(svg)
    return float(root.attrib["width"].removesuffix("mm")), float(root.attrib["height"].removesuffix("mm"))


def test_the_small_picture_shows_another_wearer_otherwise(client: TestClient) -> None:
    first, second = (client.get(f"{DESIGN}/picture.svg?wearer={wearer}") for wearer in ("w-01", "size-122"))
    assert first.headers["content-type"] == second.headers["content-type"] == "image/svg+xml"
    assert size_mm(first.text)[0] == 126.0
    assert first.text != second.text


def test_the_sheets_are_those_of_the_pdf(client: TestClient) -> None:
    asked = "wearer=w-01&scale=quarter&paper=letter"
    sheets = client.get(f"{DESIGN}/sheets?{asked}").json()["sheets"]
    assert [sheet["number"] for sheet in sheets] == list(range(1, len(sheets) + 1))
    for sheet in sheets:
        svg = client.get(f"{DESIGN}/sheets/{sheet['number']}.svg?{asked}").text
        assert size_mm(svg) == pytest.approx((sheet["width"], sheet["height"]), abs=1e-3)
    printed = client.get(f"{DESIGN}/print.pdf?{asked}")
    assert printed.headers["content-type"] == "application/pdf"
    with pikepdf.open(io.BytesIO(printed.content)) as document:
        boxes = [[float(value) * 25.4 / 72 for value in page.mediabox[2:]] for page in document.pages]
    assert boxes == [pytest.approx([sheet["width"], sheet["height"]], abs=0.01) for sheet in sheets]


def test_a_seam_is_walked_on_every_layer(client: TestClient) -> None:
    for seam in ("side", "facing/side"):
        told = client.get(f"{DESIGN}/joined", params={"wearer": "w-01", "seam": seam}).json()
        assert told.get("seam") == seam, told
        assert [step["share"] for step in told["steps"]] == pytest.approx([k / 100 for k in range(101)])
        assert told["steps"][0]["gap_mm"] < 0.01


def test_the_garment_lies_on_the_wearer(client: TestClient) -> None:
    told = client.get(f"{DESIGN}/body?wearer=w-01").json()
    assert {each["piece"] for each in told["panels"]} == {"CF", "SF", "SB", "CB"}
    for each in told["panels"]:
        assert len(each["flat"]) // 2 == len(each["body"]) // 3 > max(each["triangles"])


@pytest.mark.parametrize(
    ("path", "status", "where"),
    [
        ("picture.svg", 400, "wearer"),
        ("picture.svg?wearer=none-1", 404, "ref"),
        ("sheets?wearer=w-01&scale=half", 400, "scale"),
        ("sheets?wearer=w-01&paper=a0", 400, "paper"),
        ("sheets?wearer=w-01&units=ells", 400, "units"),
        ("sheets/0.svg?wearer=w-01", 400, "sheet"),
        ("sheets/99.svg?wearer=w-01", 400, "sheet"),
        ("sheets/one.svg?wearer=w-01", 404, ""),
        ("joined?wearer=w-01", 400, "seam"),
        ("joined?wearer=w-01&seam=none", 400, "seam"),
        ("body?wearer=", 400, "wearer"),
    ],
)
def test_what_cannot_be_drawn_is_refused_with_its_field(client: TestClient, path: str, status: int, where: str) -> None:
    answer = client.get(f"{DESIGN}/{path}")
    assert (answer.status_code, answer.json()["where"]) == (status, where)
    assert answer.json()["message"]


def test_nothing_is_printed_with_other_allowances_than_were_chosen(client: TestClient) -> None:
    document = client.get(DESIGN).json()["document"]
    document["finish"] = {**document.get("finish", {}), "allowance_by_line_cm": {"sleeve": 1.5}}
    assert client.put(DESIGN, json={"document": document, "what": "x"}).status_code == 200
    assert client.get(f"{DESIGN}/picture.svg?wearer=w-01").status_code == 200
    for path in ("lays", "sheets", "print.pdf"):
        answer = client.get(f"{DESIGN}/{path}?wearer=w-01")
        assert (answer.status_code, answer.json()["where"]) == (400, "finish")
        assert "sleeve" in answer.json()["message"]


def test_an_unknown_design_is_not_found(client: TestClient) -> None:
    for path in ("picture.svg", "lays", "sheets", "print.pdf", "body"):
        assert client.get(f"/api/designs/none-01/{path}?wearer=w-01").status_code == 404
