"""The choice of paper in words, and what is printed for it."""

from datetime import date
from pathlib import Path

import pikepdf
import pypdfium2
import pytest
from plain_cutting_pattern import plain_cutting_pattern

from panelwright.app.paper import PaperChoice, PrintJob, file_name
from panelwright.body.units import Unit
from panelwright.errors import InputError


def test_a_choice_in_words() -> None:
    choice = PaperChoice.named("A3", "Inches", "FULL", date(2026, 2, 1))
    assert (choice.paper.name, choice.unit, choice.scales) == ("A3", Unit.INCH, ("full",))
    assert PaperChoice.named() == PaperChoice()


@pytest.mark.parametrize(
    ("words", "where"),
    [({"paper": "a5"}, "paper"), ({"units": "ells"}, "units"), ({"scale": "half"}, "scale"), ({"scale": ""}, "scale")],
)
def test_a_choice_that_is_not_known(words: dict[str, str], where: str) -> None:
    with pytest.raises(InputError) as caught:
        PaperChoice.named(**words)
    assert caught.value.where == where


@pytest.mark.parametrize("scale", ["quarter", "full", "sheet"])
def test_one_scale_is_one_file_with_the_title_and_date_on_it(scale: str, tmp_path: Path) -> None:
    choice = PaperChoice.named("letter", "cm", scale, date(2026, 2, 1))
    job = PrintJob(plain_cutting_pattern(), "Lantern bodice", choice)
    (path,) = job.write_sheets(tmp_path)
    assert path.name == file_name(scale, choice.paper)
    assert list(tmp_path.iterdir()) == [path]
    with pikepdf.open(path) as document:
        assert str(document.docinfo["/CreationDate"]).startswith("D:20260201")
    pages = pypdfium2.PdfDocument(path)
    first = pages[0].get_textpage()
    text = first.get_text_range()
    assert "Lantern bodice" in text
    assert "1 February 2026" in text
    first.close()
    pages.close()


def test_the_same_choice_prints_the_same_bytes(tmp_path: Path) -> None:
    for name in ("a", "b"):
        (tmp_path / name).mkdir()
        PrintJob(plain_cutting_pattern(), "Lantern bodice").write_sheets(tmp_path / name)
    for path in (tmp_path / "a").iterdir():
        assert path.read_bytes() == (tmp_path / "b" / path.name).read_bytes()
