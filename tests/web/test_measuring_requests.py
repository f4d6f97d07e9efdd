"""How a wearer is measured, by HTTP: words, pictures, a blank chart."""

import io

import pikepdf
import pytest
from starlette.testclient import TestClient


def test_every_measurement_has_words_and_a_picture(client: TestClient) -> None:
    measured = client.get("/api/vocabulary").json()["measurements"]
    assert len(measured) == 23
    of_the_arm = {"arm_length", "upper_arm_girth", "wrist_girth"}
    assert {each["name"] for each in measured if each["for_sleeves"]} == of_the_arm
    pictures = set()
    for each in measured:
        assert each["how"]
        picture = client.get(f"/api/measurements/{each['name']}.svg")
        assert picture.headers["content-type"].startswith("image/svg+xml")
        assert picture.text.startswith("<svg ")
        pictures.add(picture.text)
    assert len(pictures) == len(measured)  # no two are alike


def test_other_names_have_none(client: TestClient) -> None:
    assert client.get("/api/measurements/tail_length.svg").status_code in (400, 404)


@pytest.mark.parametrize(("asked", "size"), [("paper=a4&units=cm", (595.28, 841.89)), ("paper=letter", (612, 792))])
def test_a_blank_chart_is_printed(client: TestClient, asked: str, size: tuple[float, float]) -> None:
    chart = client.get(f"/api/chart.pdf?{asked}")
    assert chart.headers["content-type"] == "application/pdf"
    with pikepdf.open(io.BytesIO(chart.content)) as document:
        # Points: ISO 216; ANSI/ASME Y14.1, size A.
        assert [float(value) for value in document.pages[0].mediabox[2:]] == pytest.approx(size, abs=0.02)


def test_unknown_paper_is_refused(client: TestClient) -> None:
    assert client.get("/api/chart.pdf?paper=b5").json()["where"] == "paper"
