"""What the page is told of a lay that nothing can better."""

import pytest
from lay.boxes import box

from panelwright.app.cloth_lay import ClothLay
from panelwright.body.units import Unit
from panelwright.lay.cloth import Cloth
from panelwright.lay.lay_garment import lay_pieces
from panelwright.lay.piece_to_cut import PieceToCut

LONG = (box("A", 100.0, 900.0), box("B", 200.0, 100.0, 1, 1))
FOLDED = (box("A", 230.0, 410.0, fold=True), box("B", 230.0, 300.0, fold=True), box("C", 90.0, 100.0, 1, 1))
OPEN_TO_IT = (box("A", 230.0, 410.0, fold=True), box("B", 190.0, 300.0, 2, 2))


@pytest.mark.parametrize(
    ("pieces", "folded", "unit", "said"),
    [
        (LONG, False, Unit.CM, "No lay can be shorter: Box A alone takes 90.0 cm along the grain."),
        (LONG, False, Unit.INCH, "No lay can be shorter: Box A alone takes 35 3/8 in along the grain."),
        (OPEN_TO_IT, True, Unit.CM, None),
    ],
)
def test_it_says_why_no_lay_can_be_shorter(
    pieces: tuple[PieceToCut, ...], folded: bool, unit: Unit, said: str | None
) -> None:
    first = lay_pieces(Cloth("outer", 900.0, folded=folded), pieces, unit=unit)
    assert ClothLay(first, pieces).document(1, unit)["shortest"] == said


def test_edges_that_fill_the_fold_cannot_lie_shorter() -> None:
    first = lay_pieces(Cloth("outer", 900.0, folded=True), FOLDED, spacing=0.0, unit=Unit.CM)
    said = ClothLay(first, FOLDED).document(1, Unit.CM)["shortest"]
    assert said == "No lay can be shorter: the edges on the fold lie one after another without a gap."
