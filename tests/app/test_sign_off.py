"""Writing the sign-off page: named as private, on a page that can be handed over, the same bytes every time."""

from pathlib import Path

import pikepdf
import pytest
from pdf_reading import text_of

from panelwright.app.garment import Garment, make_garment
from panelwright.app.garment_design import GarmentDesign
from panelwright.app.lay import lays_of
from panelwright.app.paper import PaperChoice, PrintJob
from panelwright.app.sign_off import write_sign_off
from panelwright.body.size_table import size
from panelwright.body.units import Unit
from panelwright.checks.cautions import PAIN

A4, LETTER = (595.28, 841.89), (612.0, 792.0)  # points: ISO 216; ANSI/ASME Y14.1, size A


@pytest.fixture(scope="module")
def garment() -> Garment:
    return make_garment(size(88), GarmentDesign("plain-01", "Plain bodice"))


def written(garment: Garment, folder: Path, choice: PaperChoice | None = None) -> Path:
    job = PrintJob(garment.cutting, garment.design.title, choice or PaperChoice())
    return write_sign_off(garment, job, folder, lays_of(garment.cutting))


def text_in(path: Path) -> str:
    with pikepdf.open(path) as document:
        count = len(document.pages)
    return " ".join(" ".join(text_of(path, k) for k in range(count)).split())


def test_its_name_says_that_it_is_private(garment: Garment, tmp_path: Path) -> None:
    path = written(garment, tmp_path)
    assert path.name == "sign-off-private.pdf"
    with pikepdf.open(path) as document:
        assert "private" in str(document.docinfo["/Title"])


@pytest.mark.parametrize(("paper", "page"), [("a4", A4), ("a3", A4), ("letter", LETTER)])
def test_it_is_a_page_to_hand_over(garment: Garment, tmp_path: Path, paper: str, page: tuple[float, float]) -> None:
    with pikepdf.open(written(garment, tmp_path, PaperChoice.named(paper))) as document:
        for sheet in document.pages:
            assert [float(value) for value in sheet.mediabox[2:]] == pytest.approx(page, abs=0.02)


def test_it_bears_what_the_wearer_wants_to_know(garment: Garment, tmp_path: Path) -> None:
    """Size 88 of the table has a bust of 88 cm; the block gives it 1 cm of ease there: 89 cm finished."""
    text = text_in(written(garment, tmp_path))
    assert "Bust girth 88.0 cm" in text
    assert "Bust 88.0 cm +1.0 cm 89.0 cm" in text
    assert "Ready to cut once every warning below is decided" in text
    assert PAIN[:60] in text
    assert "Buy" in text


def test_it_is_in_the_unit_that_was_asked_for(garment: Garment, tmp_path: Path) -> None:
    """88 cm are 34.65 in, to the nearest eighth 34 5/8."""
    assert "Bust girth 34 5/8 in" in text_in(written(garment, tmp_path, PaperChoice(unit=Unit.INCH)))


def test_writing_twice_gives_the_same_bytes(garment: Garment, tmp_path: Path) -> None:
    first = written(garment, tmp_path).read_bytes()
    assert written(garment, tmp_path).read_bytes() == first
