"""A finding that can be put right: its words come with it, and doing it is a version like any other."""

from typing import Any

import pytest
from starlette.testclient import TestClient
from web.page import Page

Document = dict[str, Any]


def tightened(client: TestClient, ease: float = -8) -> Document:
    """The lantern bodice with a waist of less ease, under a reference of its own."""
    lantern: Document = client.get("/api/designs/lantern-01").json()["document"]
    block = {**lantern.get("block", {}), "ease_cm": {"waist": ease}}
    document = {**lantern, "ref": "tight-01", "block": block}
    client.put("/api/designs/tight-01", json={"document": document, "what": "made"})
    return document


def found(told: Document, code: str) -> Document:
    (finding,) = [each for each in told["findings"] if each["code"] == code]
    return finding  # type: ignore[no-any-return]


def test_a_tight_waist_is_let_out_and_can_be_undone(client: TestClient, page: Page) -> None:
    document = tightened(client)
    told = page.open("tight-01")
    finding = found(told, "tight")
    assert finding["apply"].startswith("Set the ease at the waist to −")
    done = page.ask("remedy", code="tight", subject=finding["subject"])
    assert done["say"] == "pattern"
    assert [each for each in done["findings"] if each["code"] == "tight"] == []
    assert done["design"]["block"]["ease_cm"]["waist"] > -8
    assert done["design"]["steps"] == document["steps"]
    saved = client.get("/api/designs/tight-01").json()
    assert saved["document"] == done["design"]
    assert client.get("/api/designs/tight-01/versions").json()["versions"][0]["what"] == finding["apply"]
    assert page.ask("undo")["design"] == document


def test_what_a_person_must_decide_has_no_button(client: TestClient, page: Page) -> None:
    tightened(client)
    told = page.open("tight-01")
    pressed = [each for each in told["findings"] if each["code"] in ("tight-bodice", "tight-lacing")]
    assert pressed
    assert "apply" not in pressed[0]
    refused = page.ask("remedy", code=pressed[0]["code"], subject=pressed[0]["subject"])
    assert (refused["say"], refused["where"]) == ("refused", "code")


@pytest.mark.parametrize("asked", [{"code": "tight", "subject": "hem"}, {"code": "none", "subject": "waist"}])
def test_a_finding_that_is_not_there_cannot_be_put_right(client: TestClient, page: Page, asked: Document) -> None:
    tightened(client)
    page.open("tight-01")
    before = client.get("/api/designs/tight-01").json()
    assert page.ask("remedy", **asked)["say"] == "refused"
    assert client.get("/api/designs/tight-01").json() == before


def test_half_a_design_offers_nothing(client: TestClient, page: Page) -> None:
    """What a lesson shows in passing is not what is saved."""
    document = tightened(client)
    page.open("tight-01")
    told = page.ask("upto", step=document["steps"][0]["uid"])
    whole = page.ask("upto", step=None)
    assert [each for each in whole["findings"] if "apply" in each]
    own = {(each["code"], each["subject"]) for each in whole["findings"] if "apply" in each}
    assert {(each["code"], each["subject"]) for each in told["findings"] if "apply" in each} <= own


def test_a_finding_leads_to_its_field(client: TestClient, page: Page) -> None:
    tightened(client)
    finding = found(page.open("tight-01"), "tight")
    assert finding["lead"] == {"field": "block.ease_cm.waist"}
    assert "block" not in finding["remedy"]


def test_a_refusal_is_in_the_unit_of_the_page(client: TestClient, page: Page) -> None:
    """A princess seam 9 cm beside the bust point is farther than may be."""
    document = tightened(client)
    document["block"] = {"bust_point_offset_cm": 9}
    refused = {}
    for units in ("cm", "inches"):
        page.ask("open", design="tight-01", wearer="w-01", units=units)
        told = page.ask("change", document=document, what="too far")
        assert told["say"] == "refused"
        refused[units] = told["message"]
    assert " cm" in refused["cm"]
    assert " in" in refused["inches"]
    assert " cm" not in refused["inches"]
