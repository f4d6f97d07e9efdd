"""A lay by itself, for the screen: tidy, and with every piece on it."""

import pytest
from plain_cutting_pattern import plain_cutting_pattern
from tidy_sheet import assert_sheet_is_tidy, recorded

from panelwright.body.units import Unit
from panelwright.drawing.drawing import Lettering
from panelwright.drawing.lay_drawing import LayDrawing
from panelwright.drawing.lay_list import LIST_TITLE
from panelwright.drawing.lay_sheet import lay_alone
from panelwright.drawing.lay_stretch import whole_lay
from panelwright.lay.cloth import Cloth
from panelwright.lay.lay import Lay
from panelwright.lay.lay_garment import lay_garment

TINY = 2500.0  # mm wide: drawn so small that pieces carry numbers


def lay(width: float, folded: bool) -> Lay:
    cloths = {name: Cloth(name, width, folded) for name in ("outer", "facing")}
    return lay_garment(plain_cutting_pattern(), cloths)[0]


@pytest.mark.parametrize("folded", [True, False])
@pytest.mark.parametrize("width", [1400.0, 500.0, TINY])
@pytest.mark.parametrize("unit", [Unit.CM, Unit.INCH])
def test_it_is_tidy(width: float, folded: bool, unit: Unit) -> None:
    assert_sheet_is_tidy(lay_alone(lay(width, folded), unit))


def test_it_names_neither_garment_nor_wearer() -> None:
    pattern = plain_cutting_pattern().pattern
    texts = [lettering.text for lettering in recorded(lay_alone(lay(1400.0, True), Unit.CM)).letterings]
    assert "both selvages" in texts
    assert not any(pattern.wearer in text or "buy" in text for text in texts)


def test_pieces_that_carry_a_number_are_listed_below() -> None:
    texts = [lettering.text for lettering in recorded(lay_alone(lay(TINY, False), Unit.CM)).letterings]
    numbered = {text for text in texts if text.isdigit()}
    assert (LIST_TITLE in texts) == bool(numbered & {"1"})


@pytest.mark.parametrize("width", [1400.0, 500.0])
def test_its_words_are_larger_than_on_paper_where_they_have_room(width: float) -> None:
    of = lay(width, True)
    usual = LayDrawing(of, (whole_lay(of),), 0.1, Unit.CM)
    large = LayDrawing(of, (whole_lay(of),), 0.1, Unit.CM, screen=True)
    assert large.numbers == usual.numbers  # no piece loses its words for it
    sizes = [
        [sign.size for sign in each.drawing(whole_lay(of)) if isinstance(sign, Lettering)] for each in (usual, large)
    ]
    assert len(sizes[0]) == len(sizes[1]) > 0
    assert sum(sizes[1]) >= sum(sizes[0])
    assert max(sizes[0]) <= 3.2
    assert max(lettering.size for lettering in recorded(lay_alone(of, Unit.CM)).letterings) >= 4.0
