"""Lays of a garment: which cloth is assumed, and the files that show them."""

from datetime import date
from pathlib import Path

import pikepdf
import pypdfium2
import pytest
from plain_cutting_pattern import plain_cutting_pattern

from panelwright.app.lay import LAY_FILE, LAY_PICTURE, lays_of, write_lays
from panelwright.app.paper import PaperChoice
from panelwright.errors import LayError
from panelwright.lay.cloth import Cloth


def test_cloth_that_nothing_is_said_about_is_assumed_and_says_so() -> None:
    outer, facing = lays_of(plain_cutting_pattern(), (Cloth("facing", 900.0), Cloth("velvet", 1000.0)))
    assert (outer.cloth.width, outer.cloth.assumed) == (1400.0, True)
    assert (facing.cloth.width, facing.cloth.assumed) == (900.0, False)


def test_a_piece_too_wide_is_refused_before_anything_is_written() -> None:
    with pytest.raises(LayError) as caught:
        lays_of(plain_cutting_pattern(), (Cloth("facing", 200.0, folded=True),))
    assert caught.value.where == "facing"


def test_the_files_hold_every_lay(tmp_path: Path) -> None:
    cutting = plain_cutting_pattern()
    choice = PaperChoice.named("letter", "inches", made_on=date(2026, 2, 1))
    files = write_lays(lays_of(cutting), cutting, "Lantern bodice", tmp_path, choice)
    assert files == (tmp_path / LAY_FILE, tmp_path / LAY_PICTURE)
    assert sorted(tmp_path.iterdir()) == sorted(files)
    with pikepdf.open(files[0]) as document:
        assert len(document.pages) == 2
        width, height = (float(document.pages[0].mediabox[k]) for k in (2, 3))
        assert (width, height) == pytest.approx((792, 612), abs=0.1)  # Letter, lying: 11 by 8.5 inches of 72 points
    pages = pypdfium2.PdfDocument(files[0])
    for page, name in zip(pages, ("Outer cloth", "Facing cloth"), strict=True):
        text = page.get_textpage().get_text_range()
        assert "Lantern bodice" in text
        assert f"{name}, 55 1/8 in wide" in text  # 140 cm / 2.54, to the nearest eighth
        assert "1 February 2026" in text
        page.close()
    pages.close()
    picture = files[1].read_text(encoding="utf-8")
    assert picture.count("both selvages") == 2


def test_the_same_lays_give_the_same_bytes(tmp_path: Path) -> None:
    cutting = plain_cutting_pattern()
    for name in ("a", "b"):
        (tmp_path / name).mkdir()
        write_lays(lays_of(cutting), cutting, "Lantern bodice", tmp_path / name)
    for name in (LAY_FILE, LAY_PICTURE):
        assert (tmp_path / "a" / name).read_bytes() == (tmp_path / "b" / name).read_bytes()
