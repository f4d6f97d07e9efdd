"""The blank measuring chart: all measurements, boxes in the unit asked for, cautions, the command that prints it."""

from pathlib import Path

import pypdfium2
import pytest

from panelwright.app.measuring_chart import BOXES, measuring_chart
from panelwright.body.measurement_file import FIELDS
from panelwright.body.units import Unit
from panelwright.cli.main import main
from panelwright.drawing.drawing import Lettering
from panelwright.drawing.paper import PAPERS
from panelwright.drawing.sheet import Sheet


def _words(sheets: tuple[Sheet, ...]) -> list[str]:
    return [
        sign.text for sheet in sheets for laid in sheet.laid for sign in laid.drawing if isinstance(sign, Lettering)
    ]


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_every_measurement_has_its_boxes_and_lies_on_the_page(paper: str) -> None:
    sheets = measuring_chart(Unit.CM, PAPERS[paper])
    words = _words(sheets)
    for name in FIELDS:
        assert f"in the file: {name}" in words
    assert words.count("first") == words.count("again") == len(FIELDS)
    assert words.count("cm") == len(BOXES) * (len(FIELDS) - 1)
    assert words.count("°") == len(BOXES)
    for sheet in sheets:
        for laid in sheet.laid:
            if laid.drawing.signs:
                left, bottom, right, top = laid.drawing.moved(laid.shift).bounds
                assert left > 5.0
                assert right < sheet.width - 5.0
                assert bottom > 5.0
                assert top < sheet.height - 5.0


def test_inches_where_inches_are_asked_for() -> None:
    words = _words(measuring_chart(Unit.INCH))
    assert "cm" not in words
    assert words.count("in") == len(BOXES) * (len(FIELDS) - 1)


def test_it_says_what_to_mind() -> None:
    words = " ".join(_words(measuring_chart()))
    for caution in ("Ask before you touch", "breath", "fainting", "private", "no name"):
        assert caution in words


def test_the_command_writes_it(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "chart.pdf"
    assert main(["chart", "--out", str(file), "--units", "inches", "--paper", "letter"]) == 0
    assert str(file) in capsys.readouterr().out
    with pypdfium2.PdfDocument(file) as document:
        assert document[0].get_size() == pytest.approx((612.0, 792.0), abs=0.1)
        assert len(document) >= 3


def test_a_folder_and_an_unknown_unit_are_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["chart", "--out", str(tmp_path)]) == 2
    assert "is a folder" in capsys.readouterr().err
    assert main(["chart", "--out", str(tmp_path / "chart.pdf"), "--units", "feet"]) == 2
    assert not list(tmp_path.iterdir())
