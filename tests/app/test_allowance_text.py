"""Printing again in another unit: the allowance on each piece follows, and so does the garment's title."""

import re
from dataclasses import fields, replace
from pathlib import Path

import numpy as np
import pypdfium2
import pytest

from panelwright.app.allowance_text import with_allowances_in
from panelwright.app.garment import Garment, make_garment
from panelwright.app.garment_design import GarmentDesign
from panelwright.app.paper import PaperChoice, PrintJob
from panelwright.body.size_table import size
from panelwright.body.units import Unit
from panelwright.cli.main import main
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.finish.options import Finish
from panelwright.output.pattern_file import read_pattern, write_pattern

# On CF and CB two widths are as frequent as each other: which is named first is the design's own choice.
FINISH = Finish(allowance=15.0, lines={"top-edge": 8.0, "hem": 25.0, "centre-back": 20.0}, facing="full")
DESIGN = GarmentDesign("lantern-09", "Laternenträgerin’s bodice", finish=FINISH)


@pytest.fixture(scope="module")
def in_cm() -> Garment:
    return make_garment(size(88), DESIGN)


@pytest.fixture(scope="module")
def in_inches(in_cm: Garment) -> Garment:
    return make_garment(size(88), DESIGN, unit=Unit.INCH, block=in_cm.block)


def texts(cutting: CuttingPattern) -> dict[str, tuple[str, ...]]:
    return {piece.id: cut.text for piece, cut in cutting.pieces}


def test_the_file_is_worded_as_if_it_had_been_made_in_the_unit(
    in_cm: Garment, in_inches: Garment, tmp_path: Path
) -> None:
    """What finishing itself writes in the other unit is the measure."""
    assert texts(in_cm.cutting) != texts(in_inches.cutting)
    for made, other, unit in ((in_inches, in_cm, Unit.CM), (in_cm, in_inches, Unit.INCH)):
        write_pattern(made.cutting, (), tmp_path / "p.json")
        again = read_pattern(tmp_path / "p.json")
        assert texts(with_allowances_in(again, unit)) == texts(other.cutting)


def test_nothing_but_the_text_changes(in_cm: Garment) -> None:
    changed = with_allowances_in(in_cm.cutting, Unit.INCH)
    assert changed.pattern is in_cm.cutting.pattern
    for id, cut in changed.cut.items():
        before = in_cm.cutting.cut[id]
        assert np.array_equal(cut.cut_line, before.cut_line)
        others = [field.name for field in fields(cut) if field.name not in ("text", "cut_line")]
        assert [getattr(cut, name) for name in others] == [getattr(before, name) for name in others]
    assert texts(with_allowances_in(changed, Unit.CM)) == texts(in_cm.cutting)


@pytest.mark.parametrize("text", [(), ("A piece of our own", "No seam allowance")])
def test_a_text_that_names_no_width_stays(in_cm: Garment, text: tuple[str, ...]) -> None:
    bare = {id: replace(cut, text=text) for id, cut in in_cm.cutting.cut.items()}
    changed = with_allowances_in(replace(in_cm.cutting, cut=bare), Unit.INCH)
    assert {cut.text for cut in changed.cut.values()} == {text}


def test_a_reprint_has_the_title_and_one_unit(
    in_inches: Garment, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    write_pattern(in_inches.cutting, (), tmp_path / "p.json")
    assert main(["paper", str(tmp_path / "p.json"), "--scale", "quarter", "--out", str(tmp_path / "out")]) == 0
    capsys.readouterr()
    document = pypdfium2.PdfDocument(tmp_path / "out" / "quarter-scale-a4.pdf")
    pages = [page.get_textpage() for page in document]
    text = "\n".join(page.get_text_range() for page in pages)
    for page in pages:
        page.close()
    document.close()
    assert "Laternenträgerin’s bodice" in text
    assert "lengths in centimetres" in text
    said = [line for line in text.splitlines() if "allowance" in line.lower()]
    assert any("1.5 cm" in line for line in said)
    assert [line for line in said if re.search(r"[0-9/] in\b", line)] == []


def test_a_garment_prints_in_the_unit_of_its_paper(in_cm: Garment, in_inches: Garment) -> None:
    job = PrintJob(in_cm.cutting, DESIGN.title, PaperChoice(unit=Unit.INCH))
    assert texts(job._worded) == texts(in_inches.cutting)
