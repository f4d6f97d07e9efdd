"""Paper comes in over the page: a photo becomes traced pieces, a learner's file a feedback sheet."""

import io
import json
from typing import Any

import numpy as np
import pikepdf
import pypdfium2
import pytest
from intake.drawn_pieces import on_paper
from intake.learner_table import Faults, table
from intake.photo_compare import compared, outline_of
from intake.photo_outcome import marks_right
from intake.photo_truth import PaperPiece, laid_out
from intake.rendered_photo import Scene, jpeg, render
from intake.test_paper_signs import table as table_with_signs
from PIL import Image
from plain_block import plain_block
from starlette.testclient import TestClient
from web.test_hand_requests import ended

from panelwright.app.trace_file import read_trace, traced_pattern
from panelwright.intake.drawn_piece import DrawnPiece

Document = dict[str, Any]
TRACE = "/api/traces/own-01"
EMPTY = {"format": "panelwright-trace/1", "ref": "own-01", "title": "Mine"}
REVIEW = "/api/designs/lantern-01/review?wearer=size-88"


def as_paper(piece: DrawnPiece) -> PaperPiece:
    return PaperPiece(outline_of(piece), np.array([edge.curve.start for edge in piece.edges]), (), ())


@pytest.fixture
def with_trace(client: TestClient) -> TestClient:
    assert client.put(TRACE, json={"document": EMPTY, "what": "begun"}).status_code == 200
    return client


def test_a_photo_becomes_pieces_that_lie_over_its_picture(with_trace: TestClient) -> None:
    """Held against the pieces that were rendered, by the comparison that the reading itself is tested with."""
    drawn = on_paper(plain_block(), spacing=5)
    laid = laid_out([as_paper(piece) for piece in drawn.pieces], np.random.default_rng(3), 12.0, 130.0)
    pixels, _ = render(Scene(tuple(laid), table="dark", tilt=8.0))
    job = ended(with_trace, with_trace.post(f"{TRACE}/photo", content=jpeg(pixels, 92)).json())
    assert job["state"] == "ready", job
    read = job["facts"]["trace"]
    picture = Image.open(io.BytesIO(with_trace.get(f"/api/jobs/{job['id']}/files/table.png").content))
    assert picture.size == (read["picture"]["width"], read["picture"]["height"])
    saved = with_trace.put(TRACE, json={"document": {**EMPTY, **read}, "what": "read"})
    assert saved.status_code == 200, saved.text
    pattern = traced_pattern(read_trace(json.dumps({**EMPTY, **read})))
    assert pattern.scale == 4
    fits = compared(pattern.pieces, [as_paper(piece) for piece in drawn.pieces])
    assert sorted(fit.truth for fit in fits) == [0, 1, 2, 3]
    points = [len(edge["points"]) for piece in read["pieces"] for edge in piece["edges"]]
    assert max(points) <= 20  # few enough to be corrected by hand
    dark, light = (
        np.asarray(picture.convert("L"), float)[int(y), int(x)]
        for x, y in (
            (5, 5),
            np.mean(read["pieces"][0]["edges"][0]["points"] + read["pieces"][0]["edges"][-1]["points"], axis=0),
        )
    )
    assert light > dark + 40  # paper where the piece is said to lie


def test_what_is_drawn_on_the_paper_comes_onto_the_board(with_trace: TestClient) -> None:
    """Fold, grain, levels and notches, in the pixels of the picture, held against what was drawn there."""
    scene = table_with_signs(table="walnut")
    job = ended(with_trace, with_trace.post(f"{TRACE}/photo", content=jpeg(render(scene)[0], 90)).json())
    assert job["state"] == "ready", job
    read = {**EMPTY, **job["facts"]["trace"]}
    assert with_trace.put(TRACE, json={"document": read, "what": "read"}).status_code == 200
    pieces = traced_pattern(read_trace(json.dumps(read))).pieces
    right = marks_right(pieces, compared(pieces, scene.pieces), scene.pieces)
    assert right["grain"] == (2, 2)
    assert right["folds"] == (1, 1)
    assert right["levels"] == (4, 4)
    assert right["notches"][0] >= 3
    assert right["notches"][1] <= 5
    assert [level["id"] for level in read["pieces"][0]["levels"]] == ["level-1", "level-2"]


@pytest.mark.parametrize(
    ("content", "words"),
    [(b"no photo", "photo"), (jpeg(np.full((900, 1200, 3), 40, np.uint8), 90), "reference sheet")],
)
def test_a_photo_that_cannot_be_used_says_what_to_do(with_trace: TestClient, content: bytes, words: str) -> None:
    job = ended(with_trace, with_trace.post(f"{TRACE}/photo", content=content).json())
    assert job["state"] == "refused"
    assert words in job["message"]


@pytest.mark.parametrize(
    ("asked", "size"), [("", (595.28, 841.89)), ("?paper=a3", (595.28, 841.89)), ("?paper=Letter", (612, 792))]
)
def test_the_reference_sheet_is_one_page_to_print(client: TestClient, asked: str, size: tuple[float, float]) -> None:
    """There is none on A3: whoever prints on that gets A4."""
    told = client.get(f"/api/reference-sheet.pdf{asked}")
    assert told.headers["content-type"] == "application/pdf"
    assert told.headers["content-disposition"] == 'inline; filename="reference-sheet.pdf"'
    with pikepdf.open(io.BytesIO(told.content)) as document:
        (page,) = document.pages
        # Points: ISO 216; ANSI/ASME Y14.1, size A.
        assert [float(value) for value in page.mediabox[2:]] == pytest.approx(size, abs=0.02)


def test_a_reference_sheet_on_unknown_paper_is_refused(client: TestClient) -> None:
    told = client.get("/api/reference-sheet.pdf?paper=b5")
    assert (told.status_code, told.json()["where"]) == (400, "paper")
    assert told.json()["message"] == 'the paper "b5" is not known; those known are a4, a3, letter'


def test_too_large_a_file_and_no_block_are_refused_at_once(with_trace: TestClient) -> None:
    told = with_trace.post(f"{TRACE}/photo", content=b"\xff\xd8\xff" + bytes(20_000_001))
    assert (told.status_code, told.json()["where"]) == (400, "body")
    assert with_trace.post("/api/traces/own-99/photo", content=b"\xff\xd8\xff").status_code == 404


def learners_job(client: TestClient, faults: Faults) -> Document:
    """The learner drew the pieces that the board itself tells of, with these faults."""
    from panelwright.app.demo.troupe import designs
    from panelwright.app.drawn_design import draw_design
    from panelwright.blocks.make_block import make_block
    from panelwright.body.size_table import size

    design = next(cut.design for cut in designs() if cut.design.ref == "lantern-01")
    pattern = draw_design(design, make_block(size(88), design.block_options)).pattern
    content = json.dumps(table(pattern, faults)).encode()
    begun = client.post(f"{REVIEW}&name=learner.json", content=content)
    assert begun.status_code == 202, begun.text
    return ended(client, begun.json())


def test_a_learner_is_told_what_is_right_and_what_to_mend(client: TestClient) -> None:
    """A corner that was moved by 4 mm of paper comes first, told on the piece that it is on."""
    job = learners_job(client, Faults(corners={("SF", 0): (0.0, 4.0)}))
    assert job["state"] == "ready", job
    assert job["facts"]["right"][0].startswith("4 of 4 pieces")
    first = job["facts"]["points"][0]
    assert (first["number"], first["most"]) == (1, True)
    assert "Side front" in " ".join(point["says"] for point in job["facts"]["points"][:3])
    pages = [name for name in job["files"] if name.endswith(".svg")]
    assert len(pages) == job["facts"]["pages"]
    drawn = client.get(f"/api/jobs/{job['id']}/files/{pages[-1]}").text
    assert drawn.startswith(("<svg", "<?xml"))
    document = pypdfium2.PdfDocument(client.get(f"/api/jobs/{job['id']}/files/feedback.pdf").content)
    assert first["says"][:20].lower() in " ".join(
        document[k].get_textpage().get_text_range() for k in range(len(document))
    ).lower().replace("\r\n", " ")
    document.close()


def test_a_file_that_is_no_pattern_is_refused_in_a_sentence(client: TestClient) -> None:
    for content in (b"{}", b"\x00\x01", b'{"format": "panelwright-design/1"}'):
        job = ended(client, client.post(REVIEW, content=content).json())
        assert job["state"] == "refused", content
        assert job["message"]
    assert client.post(f"{REVIEW}&scale=half", content=b"{}").json()["where"] == "scale"
    assert client.post(f"{REVIEW}&allowance_mm=99", content=b"{}").json()["where"] == "allowance_mm"
