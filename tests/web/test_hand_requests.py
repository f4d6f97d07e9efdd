"""Hand sheets and class packs from the board: begun, told how far they are, fetched as PDF, stopped."""

import io
import re
from datetime import date
from multiprocessing import active_children
from pathlib import Path
from time import monotonic
from typing import Any

import pikepdf
import pypdfium2
import pytest
from starlette.testclient import TestClient

from panelwright.app.class_pack import SchoolClass, write_class_pack
from panelwright.app.demo.troupe import designs, troupe
from panelwright.app.paper import PaperChoice

Document = dict[str, Any]
PLACE = "/api/designs/lantern-01/hand"


def ended(client: TestClient, job: Document) -> Document:
    """The job when nothing more comes of it."""
    latest = monotonic() + 120
    while job["state"] in ("waiting", "working") and monotonic() < latest:
        job = client.get(f"/api/jobs/{job['id']}").json()
    return job


def begun(client: TestClient, **more: object) -> Document:
    told = client.post(PLACE, json={"wearer": "size-88", **more})
    assert told.status_code == 202, told.text
    job: Document = told.json()
    return job


def test_hand_sheets_are_made_and_fetched(client: TestClient) -> None:
    job = ended(client, begun(client))
    assert (job["state"], job["files"]) == ("ready", ["lantern-01-size-88-by-hand.pdf"])
    sent = client.get(f"/api/jobs/{job['id']}/files/{job['files'][0]}")
    assert "attachment" in sent.headers["content-disposition"]
    with pikepdf.open(io.BytesIO(sent.content)) as pages:
        assert len(pages.pages) == job["facts"]["pages"] > 5
    assert client.get(f"/api/jobs/{job['id']}/files/other.pdf").status_code == 404


def test_a_class_pack_holds_a_pack_for_each_and_names_nobody(client: TestClient) -> None:
    job = ended(client, begun(client, wearer="w-01", learners=2, spares=1, audience=True))
    content = client.get(f"/api/jobs/{job['id']}/files/lantern-01-class.pdf").content
    document = pypdfium2.PdfDocument(content)
    texts = [page.get_textpage().get_text_range() for page in document]
    document.close()
    assert len(texts) == job["facts"]["pages"]
    for name in ("learner 1", "learner 2", "spare 1"):
        assert sum(f"{name} · page" in text for text in texts) == (len(texts) - 1) // 3
    assert not any("w-01" in text for text in texts)


def test_each_learner_draws_from_their_own_measurements(client: TestClient) -> None:
    """The numbers of the panels differ between two wearers; the spare is the first one's again."""
    job = ended(client, begun(client, wearers=["w-01", "w-02"], spares=1))
    assert (job["state"], job["files"]) == ("ready", ["lantern-01-class.pdf"]), job
    content = client.get(f"/api/jobs/{job['id']}/files/lantern-01-class.pdf").content
    document = pypdfium2.PdfDocument(content)
    texts = [page.get_textpage().get_text_range() for page in document]
    document.close()
    assert len(texts) == job["facts"]["pages"]
    entries = re.findall(r"(learner \d|spare \d)\s+(w-\d\d)\s+(\d+)–(\d+)", texts[0])
    assert [entry[:2] for entry in entries] == [("learner 1", "w-01"), ("learner 2", "w-02"), ("spare 1", "w-01")]
    said = []
    for name, _, first, last in entries:
        pages = texts[int(first) - 1 : int(last)]
        assert all(f"{name} · page" in page for page in pages)
        said.append(re.findall(r"A: from O measure .*", "\n".join(pages)))
    assert said[0]
    assert said[0] == said[2] != said[1]


def test_a_class_gets_from_the_board_what_the_command_writes(client: TestClient, tmp_path: Path) -> None:
    """So many are drawn in several processes here, where there are several processors, and in one for the command."""
    dancers = tuple(dancer.wearer for dancer in troupe())[:4]
    design = next(cut.design for cut in designs() if cut.design.ref == "lantern-01")
    path = tmp_path / "class.pdf"
    write_class_pack(design, SchoolClass(dancers, 4), path, PaperChoice(made_on=date.today()))
    job = ended(client, begun(client, wearers=[dancer.ref for dancer in dancers]))
    assert job["state"] == "ready", job
    assert client.get(f"/api/jobs/{job['id']}/files/lantern-01-class.pdf").content == path.read_bytes()
    assert active_children() == []


def test_notes_that_a_block_cannot_take_are_left_out_for_a_class_as_for_one(client: TestClient) -> None:
    note = {"uid": "n1", "kind": "take-in", "seam": "front-underarm", "level": "waist", "amount_cm": 0.5}
    document = {"format": "panelwright-fitting/1", "wearer": "w-02", "notes": [note]}
    saved = client.put("/api/fittings/w-02", json={"document": document, "what": "x"})
    assert saved.status_code == 200, saved.text
    assert ended(client, begun(client, wearer="w-02"))["state"] == "ready"
    assert ended(client, begun(client, wearers=["w-02"]))["state"] == "ready"


def test_a_learner_who_is_not_there_is_told_before_anything_is_drawn(client: TestClient) -> None:
    job = ended(client, begun(client, wearers=["w-01", "w-02", "w-99", "w-03"]))
    assert (job["state"], job["done"], job["total"]) == ("refused", 0, 0)
    assert 'no wearer "w-99"' in job["message"]


def test_it_is_told_whose_sheets_cannot_be_made(client: TestClient) -> None:
    """A wearer with a bodice that no panel of which fits on the paper: the sentence names the one of several."""
    design = client.get("/api/designs/lantern-01").json()["document"]
    design["ref"], design["title"] = "odd-01", "Odd"
    design["steps"] = [
        {"kind": "top-edge", "uid": "top", "shape": "straight", "side": {"level": "waist", "offset_cm": -30}}
    ]
    design["steps"][0]["centre"] = {"level": "waist", "offset_cm": -30}
    saved = client.put("/api/designs/odd-01", json={"document": design, "what": "made"})
    assert saved.status_code == 200, saved.text
    told = client.post("/api/designs/odd-01/hand", json={"wearer": "size-88", "wearers": ["w-02", "w-01"]})
    job = ended(client, told.json())
    assert job["state"] == "refused"
    assert job["message"].startswith("for w-02: ")
    assert "half a design is not cut" in job["message"]


@pytest.mark.parametrize(
    ("fields", "where"),
    [
        ({"learners": 0}, "learners"),
        ({"learners": 61}, "learners"),
        ({"learners": 2.5}, "learners"),
        ({"wearers": ["w-01", "w-01"]}, "wearers"),
        ({"wearers": ["w-01"], "audience": True}, "wearers"),
        ({"wearers": "w-01"}, "wearers"),
        ({"wearers": [f"w-{k}" for k in range(61)]}, "learners"),
        ({"wearers": ["w-01"], "spares": 21}, "spares"),
    ],
)
def test_what_cannot_be_asked_is_refused_at_once(client: TestClient, fields: Document, where: str) -> None:
    told = client.post(PLACE, json={"wearer": "size-88", **fields})
    assert (told.status_code, told.json()["where"]) == (400, where)


def test_what_cannot_be_made_is_told_as_the_jobs_sentence(client: TestClient) -> None:
    job = ended(client, begun(client, wearer="w-99"))
    assert job["state"] == "refused"
    assert 'no wearer "w-99"' in job["message"]


def test_long_work_is_stopped(client: TestClient) -> None:
    job = begun(client, learners=60, spares=20)
    assert client.delete(f"/api/jobs/{job['id']}").status_code == 204
    assert ended(client, job)["state"] == "stopped"
    assert client.get(f"/api/jobs/{job['id']}/files/lantern-01-class.pdf").status_code == 404
    assert client.get("/api/jobs/none").status_code == 404
    assert ended(client, begun(client))["state"] == "ready"  # the next one has its turn
