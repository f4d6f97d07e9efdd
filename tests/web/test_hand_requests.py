"""Hand sheets and class packs from the board: begun, told how far they are, fetched as PDF, stopped."""

import io
from time import monotonic
from typing import Any

import pikepdf
import pypdfium2
import pytest
from starlette.testclient import TestClient

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


@pytest.mark.parametrize(
    ("fields", "where"),
    [({"learners": 0}, "learners"), ({"learners": 61}, "learners"), ({"learners": 2.5}, "learners")],
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
